use measurement::{Amount, MmHg};
use std::ops::Div;

/// Why pressures and a flow give no resistance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoResistance {
    /// The flow is not above 0.
    #[error("no resistance without a flow")]
    NoFlow,
    /// The pressure downstream is the higher one.
    #[error("no resistance: the mean pressure downstream is the higher one")]
    PressureRises,
}

/// Resistance of a vascular bed: the fall of mean pressure over the flow.
///
/// Pulmonary from pulmonary artery to left atrium (or wedge) over Qp, systemic
/// from aorta to right atrium over Qs. A flow in `LPerMin` gives this body's
/// [`Wood`](measurement::Wood); an indexed one in `LPerMinM2` gives `WoodM2`. To index a resistance,
/// multiply by the surface:
///
/// ```
/// use measurement::{MmHg, LPerMin, LPerMinM2, SquareMetres};
/// use physiology::resistance;
///
/// let surface = SquareMetres(0.5);
/// let absolute = resistance(MmHg(35.0), MmHg(9.0), LPerMin(2.0))?;
/// let indexed = resistance(MmHg(35.0), MmHg(9.0), LPerMinM2(4.0))?;
/// assert!(absolute * surface == indexed);
/// # Ok::<(), physiology::NoResistance>(())
/// ```
///
/// Without the surface they do not compare, so an adult's limit cannot be held
/// against a child's indexed resistance:
///
/// ```compile_fail,E0308
/// use measurement::{MmHg, LPerMin, LPerMinM2, SquareMetres};
/// use physiology::resistance;
///
/// let surface = SquareMetres(0.5);
/// let absolute = resistance(MmHg(35.0), MmHg(9.0), LPerMin(2.0))?;
/// let indexed = resistance(MmHg(35.0), MmHg(9.0), LPerMinM2(4.0))?;
/// assert!(absolute == indexed);
/// # Ok::<(), physiology::NoResistance>(())
/// ```
///
/// Nor does dividing by the surface index it:
///
/// ```compile_fail,E0308
/// use measurement::{MmHg, LPerMin, LPerMinM2, SquareMetres};
/// use physiology::resistance;
///
/// let surface = SquareMetres(0.5);
/// let absolute = resistance(MmHg(35.0), MmHg(9.0), LPerMin(2.0))?;
/// let indexed = resistance(MmHg(35.0), MmHg(9.0), LPerMinM2(4.0))?;
/// assert!(absolute / surface == indexed);
/// # Ok::<(), physiology::NoResistance>(())
/// ```
pub fn resistance<Q, R>(upstream: MmHg, downstream: MmHg, flow: Q) -> Result<R, NoResistance>
where
    Q: Amount,
    MmHg: Div<Q, Output = R>,
{
    if flow.number() <= 0.0 {
        Err(NoResistance::NoFlow)
    } else if upstream < downstream {
        Err(NoResistance::PressureRises)
    } else {
        Ok((upstream - downstream) / flow)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{LPerMin, SquareMetres, Wood, WoodM2};
    use proptest::prelude::*;

    #[test]
    fn no_flow_or_no_fall_no_resistance() {
        let found = |up, down, flow| resistance::<_, Wood>(MmHg(up), MmHg(down), LPerMin(flow));
        assert_eq!(found(20.0, 8.0, 0.0), Err(NoResistance::NoFlow));
        assert_eq!(found(8.0, 20.0, 2.0), Err(NoResistance::PressureRises));
        assert_eq!(found(20.0, 8.0, 2.0), Ok(Wood(6.0)));
    }

    proptest! {
        #[test]
        fn indexed_by_flow_or_by_surface_is_the_same(
            fall in 0.0..80.0_f64, flow in 0.2..10.0_f64, surface in 0.1..2.5_f64,
        ) {
            let surface = SquareMetres(surface);
            let flow = LPerMin(flow);
            let absolute: Wood = resistance(MmHg(fall), MmHg(0.0), flow).unwrap();
            let indexed: WoodM2 = resistance(MmHg(fall), MmHg(0.0), flow / surface).unwrap();
            let off = (absolute * surface - indexed).value().abs();
            prop_assert!(off <= 1e-14 * indexed.value(), "{off}");
        }
    }
}
