measurement::parameters! {
    /// A single number of the house rules.
    Parameter:
    LeftSlackShare "left_slack_share", Share, 0.0 to 1.0, "largest share of the slack that stands off on the left";
    LeftSlackShareEqualPressure "left_slack_share_equal_pressure", Share, 0.0 to 1.0, "the same where the right pressure is not lower";
    TiltSd "tilt_sd", Degrees, 0.0 to 30.0, "tilt of a disc, SD";
    TurnSd "rotation_sd", Degrees, 0.0 to 180.0, "error of the turn, SD";
    HingeArc "hinge_arc", Degrees, 1.0 to 90.0, "half-width of the arc about a hinge";
    DeadSpace "dead_space", Share, 0.0 to 1.0, "dead space behind a stiff disc, of the circle's";
    Contraction "contraction", Share, 0.5 to 1.0, "contraction coefficient of a vanishing opening";
    LeastOpenShare "least_open_share", Share, 0.01 to 0.5, "effective open share called closed";
    SystemicRise "systemic_rise", Ratio, 1.0 to 3.0, "rise of systemic flow after closure, factor";
    StiffBelow "stiff_below", Share, 0.0 to 1.0, "conformability under which a disc is stiff";
    SheathWalls "sheath_walls", Mm, 0.0 to 2.0, "both walls of a sheath";
    GraverArteryShare "graver_artery_share", Share, 0.0 to 1.0, "share of the artery that is a graver risk";
    SharedEdge "shared_edge", Ratio, -0.7 to 0.0, "correlation of a rim and an opening measured on one image";
    Dispute "dispute", Sd, 0.5 to 10.0, "combined SDs from which readings are in dispute";
    ChanceFits "chance_fits", Share, 0.0 to 1.0, "least chance of a shape that fits";
    ChanceDoesNotFit "chance_does_not_fit", Share, 0.0 to 1.0, "chance under which a shape does not fit";
    Tie "tie", Se, 0.0 to 10.0, "standard errors within which chances are tied";
    JuxtaArterialRim "juxta_arterial_rim", Mm, 0.0 to 10.0, "arterial rim that contradicts a juxta-arterial site";
    MuscularRim "muscular_rim", Mm, 0.0 to 10.0, "rim that contradicts muscle all round";
    WithinReach "within_reach", Mm, 0.0 to 60.0, "rim that contradicts a valve out of reach";
}

/// What is known of a parameter before a file gives it.
pub type ParameterInfo = measurement::ParameterInfo<Parameter>;
