/// A single number of the house rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Parameter {
    /// Largest share of the slack that stands off on the left.
    LeftSlackShare,
    /// The same where the right pressure is not lower than the left.
    LeftSlackShareEqualPressure,
    /// Standard deviation of a disc's tilt.
    TiltSd,
    /// Standard deviation of the turn with which a shape is set down.
    TurnSd,
    /// Half-width of the arcs about a hinge in which the lip is that of the hinge.
    HingeArc,
    /// Dead space behind a stiff disc's chord, as a share of the circle's.
    DeadSpace,
    /// Contraction coefficient of the jet past a vanishing opening.
    Contraction,
    /// Open share at and under which a tract is called closed.
    LeastOpenShare,
    /// What systemic flow is multiplied by when the shunt is gone.
    SystemicRise,
    /// Conformability under which a disc counts as stiff.
    StiffBelow,
    /// Both walls of a sheath whose outer diameter is not in the catalogue.
    SheathWalls,
    /// Share of the artery over which a sheath is said to be a graver risk.
    GraverArteryShare,
    /// Correlation of a rim with the opening's axes read on the same image.
    SharedEdge,
    /// Combined standard deviations from which two readings are in dispute.
    Dispute,
    /// Least chance of a shape that fits.
    ChanceFits,
    /// Chance under which a shape does not fit.
    ChanceDoesNotFit,
    /// Standard errors within which two chances are tied.
    Tie,
    /// Arterial rim that contradicts a juxta-arterial site.
    JuxtaArterialRim,
    /// Rim that contradicts muscle all round, at or under it.
    MuscularRim,
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
    pub const ALL: [ParameterInfo; 19] = [
        row(
            Self::LeftSlackShare,
            "left_slack_share",
            "largest share of the slack that stands off on the left",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::LeftSlackShareEqualPressure,
            "left_slack_share_equal_pressure",
            "the same where the right pressure is not lower",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::TiltSd,
            "tilt_sd",
            "tilt of a disc, SD",
            "deg",
            0.0,
            30.0,
        ),
        row(
            Self::TurnSd,
            "turn_sd",
            "error of the turn, SD",
            "deg",
            0.0,
            180.0,
        ),
        row(
            Self::HingeArc,
            "hinge_arc",
            "half-width of the arc about a hinge",
            "deg",
            1.0,
            90.0,
        ),
        row(
            Self::DeadSpace,
            "dead_space",
            "dead space behind a stiff disc, of the circle's",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::Contraction,
            "contraction",
            "contraction coefficient of a vanishing opening",
            "share",
            0.5,
            1.0,
        ),
        row(
            Self::LeastOpenShare,
            "least_open_share",
            "effective open share called closed",
            "share",
            0.01,
            0.5,
        ),
        row(
            Self::SystemicRise,
            "systemic_rise",
            "rise of systemic flow after closure, factor",
            "ratio",
            1.0,
            3.0,
        ),
        row(
            Self::StiffBelow,
            "stiff_below",
            "conformability under which a disc is stiff",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::SheathWalls,
            "sheath_walls",
            "both walls of a sheath",
            "mm",
            0.0,
            2.0,
        ),
        row(
            Self::GraverArteryShare,
            "graver_artery_share",
            "share of the artery that is a graver risk",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::SharedEdge,
            "shared_edge",
            "correlation of a rim and an opening read on one image",
            "ratio",
            -0.7,
            0.0,
        ),
        row(
            Self::Dispute,
            "dispute",
            "combined SDs from which readings are in dispute",
            "SD",
            0.5,
            10.0,
        ),
        row(
            Self::ChanceFits,
            "chance_fits",
            "least chance of a shape that fits",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::ChanceDoesNotFit,
            "chance_does_not_fit",
            "chance under which a shape does not fit",
            "share",
            0.0,
            1.0,
        ),
        row(
            Self::Tie,
            "tie",
            "standard errors within which chances are tied",
            "SE",
            0.0,
            10.0,
        ),
        row(
            Self::JuxtaArterialRim,
            "juxta_arterial_rim",
            "arterial rim that contradicts a juxta-arterial site",
            "mm",
            0.0,
            10.0,
        ),
        row(
            Self::MuscularRim,
            "muscular_rim",
            "rim that contradicts muscle all round",
            "mm",
            0.0,
            10.0,
        ),
    ];

    /// The one of a name in files.
    pub fn named(name: &str) -> Option<&'static ParameterInfo> {
        const ALL: &[ParameterInfo; 19] = &Parameter::ALL;
        ALL.iter().find(|info| info.name == name)
    }

    /// What is known of it.
    pub fn info(self) -> &'static ParameterInfo {
        const ALL: &[ParameterInfo; 19] = &Parameter::ALL;
        &ALL[self.index()]
    }
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
