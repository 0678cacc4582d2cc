use super::{Limits, Parameter};
use crate::figures::read;
use crate::{Circumstances, Input};
use measurement::{Answer, Finding, Quantity};
use physiology::{LeftSide, Obstruction};

impl Limits {
    /// The circumstances of a case; without an age the limits for children count.
    pub(crate) fn circumstances(&self, input: &Input) -> Circumstances {
        let nominal = input.joint.nominal();
        let age = read(&nominal, Quantity::PATIENT_AGE);
        let arch = read(&nominal, Quantity::ARCH_GRADIENT);
        let narrow = arch.map(|gradient| gradient >= self.parameter(Parameter::NarrowArch));
        Circumstances {
            is_adult: age.is_some_and(|age| age >= self.parameter(Parameter::AdultFrom)),
            mixed_venous: self.mixed_venous,
            left_side: LeftSide {
                outflow: match input.finding(Finding::FreeLeftOutflow) {
                    Answer::Yes => Obstruction::Absent,
                    Answer::No => Obstruction::Present,
                    Answer::Unknown => Obstruction::Unknown,
                },
                arch: match (narrow, input.finding(Finding::ArchSeen)) {
                    (Some(true), _) => Obstruction::Present,
                    (_, Answer::Yes) => Obstruction::Absent,
                    _ => Obstruction::Unknown,
                },
            },
            systole_share: self.parameter(Parameter::SystoleShare),
            mean_over_peak: self.parameter(Parameter::MeanOverPeak),
            discharge: self.parameter(Parameter::Discharge),
        }
    }
}
