use measurement::{MlPerL, Ratio};
use std::ops::{Div, Sub};

/// Values of the four places from which flows are worked out: samples, saturations or
/// oxygen contents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Samples<T> {
    /// Aorta.
    pub aorta: T,
    /// Mixed venous, by a [choice](crate::MixedVenous) that is printed.
    pub mixed_venous: T,
    /// Pulmonary vein.
    pub pulmonary_vein: T,
    /// Pulmonary artery.
    pub pulmonary_artery: T,
}

impl<T> Samples<T> {
    /// Applies a function to each of the four values.
    pub fn map<U>(self, mut change: impl FnMut(T) -> U) -> Samples<U> {
        Samples {
            aorta: change(self.aorta),
            mixed_venous: change(self.mixed_venous),
            pulmonary_vein: change(self.pulmonary_vein),
            pulmonary_artery: change(self.pulmonary_artery),
        }
    }
}

/// Why samples give no flow: the blood gains or loses no oxygen between them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoOxygenStep {
    /// The pulmonary vein holds no more than the pulmonary artery.
    #[error("no pulmonary flow: the pulmonary vein holds no more oxygen than the pulmonary artery")]
    Lungs,
    /// The aorta holds no more than mixed venous blood.
    #[error("no systemic flow: the aorta holds no more oxygen than mixed venous blood")]
    Body,
    /// The pulmonary vein holds no more than mixed venous blood.
    #[error("no effective flow: the pulmonary vein holds no more oxygen than mixed venous blood")]
    Both,
}

/// Flows by Fick's principle: `LPerMin`, or `LPerMinM2` from an indexed uptake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flows<Q> {
    /// Pulmonary flow Qp.
    pub pulmonary: Q,
    /// Systemic flow Qs.
    pub systemic: Q,
    /// Effective flow: venous blood that reaches the lungs and then the body.
    pub effective: Q,
}

/// Flows from oxygen uptake and oxygen contents, by Fick's principle.
///
/// Qp = VO₂ / (PV − PA), Qs = VO₂ / (Ao − MV), effective VO₂ / (PV − MV). Assumes
/// a steady state, and one uptake for lungs and body. On supplemental oxygen the
/// contents must hold what is dissolved.
pub fn flows<U, Q>(uptake: U, content: Samples<MlPerL>) -> Result<Flows<Q>, NoOxygenStep>
where
    U: Copy + Div<MlPerL, Output = Q>,
{
    let Samples {
        aorta,
        mixed_venous,
        pulmonary_vein,
        pulmonary_artery,
    } = content;
    let step = |high: MlPerL, low: MlPerL, none| {
        if high > low {
            Ok(high - low)
        } else {
            Err(none)
        }
    };
    Ok(Flows {
        pulmonary: uptake / step(pulmonary_vein, pulmonary_artery, NoOxygenStep::Lungs)?,
        systemic: uptake / step(aorta, mixed_venous, NoOxygenStep::Body)?,
        effective: uptake / step(pulmonary_vein, mixed_venous, NoOxygenStep::Both)?,
    })
}

impl<Q> Flows<Q>
where
    Q: Copy + Sub<Output = Q> + Div<Output = Ratio>,
{
    /// Shunt from left to right, Qp less the effective flow; negative where the
    /// pulmonary artery holds less oxygen than mixed venous blood.
    pub fn left_to_right(&self) -> Q {
        self.pulmonary - self.effective
    }

    /// Shunt from right to left, Qs less the effective flow; negative where the
    /// aorta holds more oxygen than the pulmonary vein.
    pub fn right_to_left(&self) -> Q {
        self.systemic - self.effective
    }

    /// Qp:Qs.
    pub fn qp_qs(&self) -> Ratio {
        self.pulmonary / self.systemic
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{LPerMin, MlPerMin};
    use proptest::prelude::*;

    fn samples(
        [aorta, mixed_venous, pulmonary_vein, pulmonary_artery]: [f64; 4],
    ) -> Samples<MlPerL> {
        let samples = Samples {
            aorta,
            mixed_venous,
            pulmonary_vein,
            pulmonary_artery,
        };
        samples.map(MlPerL)
    }

    #[test]
    fn no_step_no_flow() {
        let refused = |contents| flows::<_, LPerMin>(MlPerMin(60.0), samples(contents));
        assert_eq!(
            refused([160.0, 110.0, 160.0, 160.0]),
            Err(NoOxygenStep::Lungs)
        );
        assert_eq!(
            refused([100.0, 110.0, 160.0, 140.0]),
            Err(NoOxygenStep::Body)
        );
        assert_eq!(
            refused([175.0, 165.0, 160.0, 140.0]),
            Err(NoOxygenStep::Both)
        );
    }

    #[test]
    fn shunts_both_ways_by_hand() {
        // 120/30, 120/40 and 120/60.
        let contents = samples([140.0, 100.0, 160.0, 130.0]);
        let flows: Flows<LPerMin> = flows(MlPerMin(120.0), contents).unwrap();
        assert_eq!(flows.pulmonary, LPerMin(4.0));
        assert_eq!(flows.systemic, LPerMin(3.0));
        assert_eq!(flows.effective, LPerMin(2.0));
        assert_eq!(flows.left_to_right(), LPerMin(2.0));
        assert_eq!(flows.right_to_left(), LPerMin(1.0));
    }

    proptest! {
        #[test]
        fn flows_scale_with_uptake_and_their_ratio_does_not(
            aorta in 130.0..160.0_f64,
            mixed in 60.0..120.0_f64,
            artery in 100.0..150.0_f64,
            uptake in 10.0..300.0_f64,
        ) {
            let contents = samples([aorta, mixed, 160.0, artery]);
            let one: Flows<LPerMin> = flows(MlPerMin(uptake), contents).unwrap();
            let two: Flows<LPerMin> = flows(MlPerMin(2.0 * uptake), contents).unwrap();
            prop_assert_eq!(one.pulmonary * 2.0, two.pulmonary);
            prop_assert_eq!(one.qp_qs(), two.qp_qs());
            let balance = one.left_to_right() - one.right_to_left();
            let net = one.pulmonary - one.systemic;
            // Both are differences of the same three flows.
            prop_assert!((balance - net).value().abs() <= 1e-12 * one.pulmonary.value().max(1.0) * 10.0);
        }
    }
}
