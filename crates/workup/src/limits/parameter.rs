measurement::parameters! {
    /// A single number of the file of guidance.
    Parameter:
    AdultFrom "adult_from", Years, 12.0 to 30.0, "age from which rows of adults count";
    SystoleShare "systole_share", Share, 0.1 to 1.0, "share of a beat in which blood runs through the defect";
    MeanOverPeak "mean_over_peak", Share, 0.1 to 1.0, "mean over peak gradient across the defect";
    Discharge "discharge", Ratio, 0.3 to 1.0, "discharge coefficient of the defect";
    FlowFactor "flow_factor", Ratio, 1.1 to 10.0, "factor from which shunt and defect do not agree";
    RatioFactor "ratio_factor", Ratio, 1.1 to 10.0, "factor from which two ways to Qp:Qs do not agree";
    PressureApart "pressure_apart", MmHg, 1.0 to 100.0, "least difference of pressures that is a contradiction";
    LargeHeart "large_heart", Sd, 0.0 to 10.0, "z-score from which a heart is large";
    SmallShunt "small_shunt", Ratio, 1.0 to 3.0, "Qp:Qs under which a shunt is small";
    HeartOfUsualSize "heart_of_usual_size", Sd, -5.0 to 5.0, "z-score under which a heart is not enlarged";
    LargeShunt "large_shunt", Ratio, 1.0 to 10.0, "Qp:Qs from which a shunt is large";
    EarlyStepUp "early_step_up", Percent, 1.0 to 50.0, "step up before the ventricle that is a shunt of its own";
    NarrowArch "narrow_arch", MmHg, 1.0 to 100.0, "gradient along the arch from which it counts as narrow";
    LeftStepDown "left_step_down", Percent, 1.0 to 50.0, "fall from pulmonary vein to aorta that is a shunt to the left";
}

/// The name, unit and range of a parameter.
pub type ParameterInfo = measurement::ParameterInfo<Parameter>;
