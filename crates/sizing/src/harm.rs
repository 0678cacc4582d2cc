use crate::Subject;
use geometry::Face;
use measurement::Valve;

/// What a patient is harmed by where a limit is broken, the gravest first.
///
/// A broken limit comes before any warning; among broken limits, and among
/// warnings, this order counts. It is the order of ventricular defects. Source:
/// common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Harm {
    /// The aortic or the mitral valve leaks.
    AorticOrMitralValve,
    /// The conduction is cut.
    AvBlock,
    /// The device comes loose.
    Embolisation,
    /// The left outflow is narrowed.
    LeftOutflow,
    /// The right outflow is narrowed.
    RightOutflow,
    /// The tricuspid or the pulmonary valve leaks.
    TricuspidOrPulmonaryValve,
    /// The vessel of the way in is lost.
    Vessel,
}

impl Harm {
    /// The harm to a valve.
    pub(crate) const fn to_valve(of: Subject) -> Self {
        match of {
            Subject::Valve(Valve::Tricuspid | Valve::Pulmonary) => Self::TricuspidOrPulmonaryValve,
            _ => Self::AorticOrMitralValve,
        }
    }

    /// The harm to the outflow on a face. A disc too large for its ventricle counts
    /// with it.
    pub(crate) const fn to_outflow(of: Subject) -> Self {
        match of {
            Subject::Face(Face::Right) => Self::RightOutflow,
            _ => Self::LeftOutflow,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::face_of;

    #[test]
    fn a_valve_of_the_left_heart_and_av_block_come_before_a_device_that_comes_loose() {
        for valve in Valve::ALL {
            let harm = Harm::to_valve(Subject::Valve(valve));
            let is_left = face_of(valve) == Face::Left;
            assert_eq!(harm < Harm::AvBlock, is_left, "{valve:?}");
        }
        assert!(Harm::AvBlock < Harm::Embolisation);
        assert!(Harm::RightOutflow < Harm::TricuspidOrPulmonaryValve);
        assert!(Harm::to_outflow(Subject::Face(Face::Left)) < Harm::RightOutflow);
    }
}
