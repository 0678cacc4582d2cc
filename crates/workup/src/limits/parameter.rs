/// A single number of the work-up's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Parameter {
    /// Age from which rows of adults count.
    AdultFrom,
    /// Share of a beat in which blood runs through the hole.
    SystoleShare,
    /// Mean gradient across the hole in that time over its peak.
    MeanOverPeak,
    /// Discharge coefficient of the hole.
    Discharge,
    /// Factor from which shunt and hole do not agree.
    FlowFactor,
    /// Factor from which two ways to Qp:Qs do not agree.
    RatioFactor,
    /// Least difference of two pressures that is a contradiction.
    PressureApart,
    /// z-score from which a heart is large.
    LargeHeart,
    /// Qp:Qs under which a shunt is small.
    SmallShunt,
    /// z-score under which a heart is not enlarged.
    HeartOfUsualSize,
    /// Qp:Qs from which a shunt is large.
    LargeShunt,
    /// Step up of saturation before the ventricle that is a shunt of its own.
    EarlyStepUp,
    /// Gradient along the arch from which it counts as narrow.
    NarrowArch,
    /// Fall of saturation from pulmonary vein to aorta that is a shunt to the
    /// left.
    LeftStepDown,
}

/// What is known of a parameter before a file gives it.
#[derive(Debug)]
pub struct ParameterInfo {
    /// The parameter.
    pub parameter: Parameter,
    /// The word for it in files.
    pub name: &'static str,
    /// What it is, in a phrase.
    pub label: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The smallest value accepted.
    pub least: f64,
    /// The largest value accepted.
    pub most: f64,
}

impl Parameter {
    /// Its place in the list of parameters.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Every parameter, each at its own index.
    pub const ALL: [ParameterInfo; 14] = [
        row(
            Self::AdultFrom,
            "adult_from",
            "age from which rows of adults count",
            "years",
            12.0,
            30.0,
        ),
        row(
            Self::SystoleShare,
            "systole_share",
            "share of a beat in which blood runs through the hole",
            "share",
            0.1,
            1.0,
        ),
        row(
            Self::MeanOverPeak,
            "mean_over_peak",
            "mean over peak gradient across the hole",
            "share",
            0.1,
            1.0,
        ),
        row(
            Self::Discharge,
            "discharge",
            "discharge coefficient of the hole",
            "ratio",
            0.3,
            1.0,
        ),
        row(
            Self::FlowFactor,
            "flow_factor",
            "factor from which shunt and hole do not agree",
            "ratio",
            1.1,
            10.0,
        ),
        row(
            Self::RatioFactor,
            "ratio_factor",
            "factor from which two ways to Qp:Qs do not agree",
            "ratio",
            1.1,
            10.0,
        ),
        row(
            Self::PressureApart,
            "pressure_apart",
            "least difference of pressures that is a contradiction",
            "mmHg",
            1.0,
            100.0,
        ),
        row(
            Self::LargeHeart,
            "large_heart",
            "z-score from which a heart is large",
            "SD",
            0.0,
            10.0,
        ),
        row(
            Self::SmallShunt,
            "small_shunt",
            "Qp:Qs under which a shunt is small",
            "ratio",
            1.0,
            3.0,
        ),
        row(
            Self::HeartOfUsualSize,
            "heart_of_usual_size",
            "z-score under which a heart is not enlarged",
            "SD",
            -5.0,
            5.0,
        ),
        row(
            Self::LargeShunt,
            "large_shunt",
            "Qp:Qs from which a shunt is large",
            "ratio",
            1.0,
            10.0,
        ),
        row(
            Self::EarlyStepUp,
            "early_step_up",
            "step up before the ventricle that is a shunt of its own",
            "%",
            1.0,
            50.0,
        ),
        row(
            Self::NarrowArch,
            "narrow_arch",
            "gradient along the arch from which it counts as narrow",
            "mmHg",
            1.0,
            100.0,
        ),
        row(
            Self::LeftStepDown,
            "left_step_down",
            "fall from pulmonary vein to aorta that is a shunt to the left",
            "%",
            1.0,
            50.0,
        ),
    ];
}

const fn row(
    parameter: Parameter,
    name: &'static str,
    label: &'static str,
    unit: &'static str,
    least: f64,
    most: f64,
) -> ParameterInfo {
    ParameterInfo {
        parameter,
        name,
        label,
        unit,
        least,
        most,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_parameter_stands_at_its_own_index() {
        for (index, info) in Parameter::ALL.iter().enumerate() {
            assert_eq!(info.parameter.index(), index, "{}", info.name);
            assert!(info.least < info.most);
        }
    }
}
