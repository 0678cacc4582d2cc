use crate::{BLOOD_DENSITY, FlowTime, bernoulli_coefficient};
use measurement::{LPerMin, MPerS, Mm, MmHg, Ratio, SquareCm};
use std::f64::consts::PI;

const MM_PER_CM: f64 = 10.0;

const CM_PER_M: f64 = 100.0;

const ML_PER_L: f64 = 1000.0;

/// Area of a circle with a diameter.
pub fn circle(diameter: Mm) -> SquareCm {
    let centimetres = diameter.value() / MM_PER_CM;
    SquareCm(PI / 4.0 * centimetres * centimetres)
}

/// Speed √(2 Δp / ρ) of a jet of blood without losses; 0 where no pressure drives it.
pub fn loss_free_jet(gradient: MmHg) -> MPerS {
    let driving = gradient.value().max(0.0);
    MPerS((driving / bernoulli_coefficient(BLOOD_DENSITY)).sqrt())
}

/// Flow through an orifice: discharge coefficient × area × speed of the loss-free jet ×
/// seconds of flow a minute.
///
/// A sharp orifice has a coefficient of 0.6 to 0.9 (from memory). `None` without
/// flow time. A reduced model: one orifice of fixed size, flow in systole alone, one
/// mean gradient for all of it; inertia and the flow of diastole are left out.
pub fn orifice_flow(
    area: SquareCm,
    mean_gradient: MmHg,
    time: FlowTime,
    discharge: Ratio,
) -> Option<LPerMin> {
    let seconds = time.per_minute()?.value();
    let speed = loss_free_jet(mean_gradient).value() * CM_PER_M;
    let millilitres = discharge.value() * area.value() * speed * seconds;
    Some(LPerMin(millilitres / ML_PER_L))
}

/// The flow that a defect lets through, and the shunt that was found another way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DefectFlowAndShunt {
    /// Flow that a defect of this size lets through at its gradient.
    pub through_defect: LPerMin,
    /// Shunt that was found another way.
    pub shunt: LPerMin,
}

impl DefectFlowAndShunt {
    /// The shunt over the flow through the defect; `None` where nothing flows through.
    pub fn ratio(self) -> Option<Ratio> {
        (self.through_defect > LPerMin(0.0)).then(|| self.shunt / self.through_defect)
    }

    /// Whether the larger of the two is at least `factor` times the smaller: then size,
    /// gradient or shunt is wrong, or there is another defect. A shunt in the other
    /// direction disagrees with any flow.
    pub fn disagree(self, factor: Ratio) -> bool {
        let Self {
            through_defect,
            shunt,
        } = self;
        let larger = through_defect.value().max(shunt.value());
        let smaller = through_defect.value().min(shunt.value());
        larger > 0.0 && larger >= factor.value() * smaller
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{BeatsPerMin, Seconds};
    use proptest::prelude::*;

    const TIME: FlowTime = FlowTime {
        rate: BeatsPerMin(130.0),
        period: Seconds(0.22),
    };

    #[test]
    fn a_factor_of_two_is_found_either_way() {
        let disagree = |through_defect, shunt| {
            let both = DefectFlowAndShunt {
                through_defect: LPerMin(through_defect),
                shunt: LPerMin(shunt),
            };
            both.disagree(Ratio(2.0))
        };
        assert!(disagree(1.0, 2.0) && disagree(2.0, 1.0));
        assert!(!disagree(1.0, 1.9) && !disagree(1.9, 1.0));
        assert!(disagree(1.0, 0.0) && disagree(1.0, -0.2) && disagree(0.0, 1.0));
        assert!(!disagree(0.0, 0.0) && !disagree(0.0, -0.2));
    }

    #[test]
    fn nothing_drives_a_jet_against_the_gradient() {
        let flow = orifice_flow(circle(Mm(5.0)), MmHg(-3.0), TIME, Ratio(0.8));
        assert_eq!(flow, Some(LPerMin(0.0)));
    }

    proptest! {
        #[test]
        fn more_through_a_larger_hole_or_a_steeper_gradient(
            d in 1.0..15.0_f64, p in 1.0..100.0_f64, more in 1.01..3.0_f64,
        ) {
            let flow = |d, p| orifice_flow(circle(Mm(d)), MmHg(p), TIME, Ratio(0.8)).unwrap();
            prop_assert!(flow(d * more, p) > flow(d, p));
            prop_assert!(flow(d, p * more) > flow(d, p));
            let fourfold = flow(d, 4.0 * p) / flow(d, p);
            prop_assert!((fourfold.value() - 2.0).abs() < 1e-12);
        }
    }
}
