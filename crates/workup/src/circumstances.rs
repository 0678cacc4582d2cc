use crate::figures::read;
use crate::{Input, Limits, Parameter};
use measurement::{Answer, Finding, Quantity};
use physiology::{LeftSide, MixedVenous, Obstruction};

/// What stays the same in all draws of a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circumstances {
    /// Whether rows of adults count.
    pub is_adult: bool,
    /// Which saturation stands for mixed venous blood.
    pub mixed_venous: MixedVenous,
    /// The way from the left ventricle to the cuff.
    pub left_side: LeftSide,
    /// Share of a beat in which blood runs through the defect.
    pub systole_share: f64,
    /// Mean over peak gradient across the defect.
    pub mean_over_peak: f64,
    /// Discharge coefficient of the hole.
    pub discharge: f64,
}

impl Circumstances {
    /// Those of a case under a file of limits. Without an age the rows of children
    /// count.
    pub(crate) fn of(input: &Input, limits: &Limits) -> Self {
        let nominal = input.joint.nominal();
        let age = read(&nominal, Quantity::PATIENT_AGE);
        let arch = read(&nominal, Quantity::ARCH_GRADIENT);
        let narrow = arch.map(|gradient| gradient >= limits.parameter(Parameter::NarrowArch));
        Self {
            is_adult: age.is_some_and(|age| age >= limits.parameter(Parameter::AdultFrom)),
            mixed_venous: limits.mixed_venous,
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
            systole_share: limits.parameter(Parameter::SystoleShare),
            mean_over_peak: limits.parameter(Parameter::MeanOverPeak),
            discharge: limits.parameter(Parameter::Discharge),
        }
    }
}
