//! The group under which a report has a quantity, and its short name there.

use super::{Feature, Quantity, Structure};
use crate::Valve;

/// A part of a report, in the order in which a report is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReportGroup {
    /// The defect, its openings and its wall.
    Defect,
    /// The rims and the valves beyond them.
    RimsAndValves,
    /// Both outflow tracts.
    OutflowTracts,
    /// Pressures and saturations by catheter.
    PressuresAndSaturations,
    /// Chambers and Doppler.
    Echo,
    /// The child.
    Child,
    /// The vessels of the sheath.
    Access,
}

impl ReportGroup {
    /// Every group, in the order of a report.
    pub const ALL: [Self; 7] = [
        Self::Defect,
        Self::RimsAndValves,
        Self::OutflowTracts,
        Self::PressuresAndSaturations,
        Self::Echo,
        Self::Child,
        Self::Access,
    ];

    /// The heading of the group.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Defect => "Defect",
            Self::RimsAndValves => "Rims and valves",
            Self::OutflowTracts => "Outflow tracts",
            Self::PressuresAndSaturations => "Pressures and saturations",
            Self::Echo => "Echo",
            Self::Child => "Child",
            Self::Access => "Access",
        }
    }
}

impl Quantity {
    /// The group under which a report has the quantity.
    pub fn report_group(self) -> ReportGroup {
        let info = self.info();
        match (info.structure, info.feature) {
            (Structure::Patient, feature) if feature != Feature::OxygenUptake => match feature {
                Feature::InspiredOxygen => ReportGroup::PressuresAndSaturations,
                _ => ReportGroup::Child,
            },
            (
                _,
                Feature::SystolicPressure
                | Feature::DiastolicPressure
                | Feature::MeanPressure
                | Feature::Saturation
                | Feature::OxygenTension
                | Feature::Haemoglobin
                | Feature::OxygenUptake
                | Feature::QpQs
                | Feature::PulmonaryResistanceIndexed
                | Feature::SystemicResistanceIndexed,
            ) => ReportGroup::PressuresAndSaturations,
            (Structure::LeftOutflow | Structure::RightOutflow, _) => ReportGroup::OutflowTracts,
            (_, Feature::Velocity | Feature::VelocityIntegral | Feature::Gradient) => {
                ReportGroup::Echo
            }
            (
                Structure::Defect
                | Structure::LeftOpening
                | Structure::RightOpening
                | Structure::Wall,
                _,
            ) => ReportGroup::Defect,
            (Structure::Valve(_), _) => ReportGroup::RimsAndValves,
            (Structure::Vein | Structure::Artery, _) => ReportGroup::Access,
            _ => ReportGroup::Echo,
        }
    }

    /// Its name in a list under the heading of its group: the trade's short form
    /// where there is one, such as `LVEDD`.
    pub fn short_name(self) -> String {
        let info = self.info();
        if let Some(name) = trade_name(info.structure, info.feature) {
            return name.to_owned();
        }
        let of = short_structure(info.structure);
        let what = short_feature(info.structure, info.feature);
        match (of, what) {
            ("", what) => what.to_owned(),
            (of, "") => of.to_owned(),
            (of, what) => format!("{of} {what}"),
        }
    }
}

/// The name that the trade has for one quantity and no other of its kind. Common
/// practice, no source.
const fn trade_name(structure: Structure, feature: Feature) -> Option<&'static str> {
    Some(match (structure, feature) {
        (Structure::LeftVentricle, Feature::Diameter) => "LVEDD",
        (Structure::LeftVentricle, Feature::DiastolicPressure) => "LV end-diastolic",
        (Structure::RightVentricle, Feature::DiastolicPressure) => "RV end-diastolic",
        (Structure::RightVentricle, Feature::Velocity) => "TR jet",
        (Structure::Defect, Feature::Velocity) => "jet of the defect",
        (Structure::Aorta, Feature::VelocityIntegral) => "aortic VTI",
        (Structure::Aorta, Feature::Diameter) => "aortic VTI site",
        (Structure::PulmonaryArtery, Feature::VelocityIntegral) => "pulmonary VTI",
        (Structure::PulmonaryArtery, Feature::Diameter) => "pulmonary VTI site",
        (Structure::Vein, _) => "femoral vein",
        (Structure::Artery, _) => "femoral artery",
        _ => return None,
    })
}

/// A structure in a word or its abbreviation; nothing where the heading says it.
const fn short_structure(structure: Structure) -> &'static str {
    match structure {
        Structure::Defect | Structure::Flow | Structure::Blood | Structure::Patient => "",
        Structure::LeftOpening => "left opening",
        Structure::RightOpening => "right opening",
        Structure::Wall => "wall",
        Structure::Valve(Valve::Aortic) | Structure::Aorta => "aortic",
        Structure::Valve(Valve::Mitral) => "mitral",
        Structure::Valve(Valve::Tricuspid) => "tricuspid",
        Structure::Valve(Valve::Pulmonary) => "pulmonary",
        Structure::LeftOutflow => "LVOT",
        Structure::RightOutflow => "RVOT",
        Structure::LeftVentricle => "LV",
        Structure::RightVentricle => "RV",
        Structure::Vein | Structure::Artery => "femoral",
        Structure::SuperiorVenaCava => "SVC",
        Structure::InferiorVenaCava => "IVC",
        Structure::RightAtrium => "RA",
        Structure::PulmonaryArtery => "PA",
        Structure::PulmonaryWedge => "wedge",
        Structure::PulmonaryVein => "PV",
        Structure::LeftAtrium => "LA",
        Structure::Arch => "arch",
    }
}

/// A feature in a word or two.
const fn short_feature(structure: Structure, feature: Feature) -> &'static str {
    match (structure, feature) {
        (Structure::Valve(_), Feature::Diameter) => "annulus",
        (Structure::Valve(_), Feature::DiameterAcross) => "annulus across",
        (Structure::Valve(Valve::Mitral | Valve::Tricuspid), Feature::CuspDepth) => "leaflet depth",
        (Structure::Valve(_), Feature::Length) => "leaflet",
        (_, Feature::LongAxis) => "long axis",
        (_, Feature::ShortAxis) => "short axis",
        (_, Feature::Rotation) => "rotation",
        (_, Feature::OffsetToward12) => "to 12",
        (_, Feature::OffsetToward3) => "to 3",
        (_, Feature::Thickness) => "thickness",
        (_, Feature::Rim) => "rim",
        (_, Feature::ClockPosition) => "hinge",
        (_, Feature::Diameter) => "diameter",
        (_, Feature::DiameterAcross) => "across",
        (_, Feature::AnnulusAngle) => "annulus angle",
        (_, Feature::CuspDepth) => "cusp depth",
        (_, Feature::Length) => "free length",
        (_, Feature::Depth) => "depth",
        (_, Feature::Width) => "width",
        (_, Feature::Velocity) => "velocity",
        (_, Feature::VelocityIntegral) => "VTI",
        (_, Feature::SystolicPressure) => "systolic",
        (_, Feature::DiastolicPressure) => "diastolic",
        (_, Feature::MeanPressure) => "mean",
        (_, Feature::Gradient) => "gradient",
        (_, Feature::Saturation) => "saturation",
        (_, Feature::OxygenTension) => "pO2",
        (_, Feature::Haemoglobin) => "haemoglobin",
        (_, Feature::OxygenUptake) => "oxygen uptake",
        (_, Feature::InspiredOxygen) => "inspired oxygen",
        (_, Feature::HeartRate) => "heart rate",
        (_, Feature::QpQs) => "Qp:Qs",
        (_, Feature::PulmonaryResistanceIndexed) => "PVRi, reported",
        (_, Feature::SystemicResistanceIndexed) => "SVRi, reported",
        (_, Feature::Weight) => "weight",
        (_, Feature::Height) => "height",
        (_, Feature::Age) => "age",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_quantities_have_one_short_name_and_each_is_short() {
        /// What a narrow column holds beside a value.
        const MOST: usize = 24;
        let names: BTreeSet<String> = Quantity::all().map(Quantity::short_name).collect();
        assert_eq!(names.len(), Quantity::COUNT);
        for name in names {
            assert!(name.chars().count() <= MOST, "{name}");
        }
    }

    #[test]
    fn a_report_has_each_quantity_where_a_reader_looks_for_it() {
        let group = Quantity::report_group;
        for (quantity, expected) in [
            (Quantity::WALL_THICKNESS, ReportGroup::Defect),
            (Quantity::DEFECT_VELOCITY, ReportGroup::Echo),
            (Quantity::AORTIC_CUSP_DEPTH, ReportGroup::RimsAndValves),
            (Quantity::LEFT_OUTFLOW_VELOCITY, ReportGroup::OutflowTracts),
            (Quantity::FLOW_QP_QS, ReportGroup::PressuresAndSaturations),
            (
                Quantity::PATIENT_OXYGEN_UPTAKE,
                ReportGroup::PressuresAndSaturations,
            ),
            (
                Quantity::PATIENT_INSPIRED_OXYGEN,
                ReportGroup::PressuresAndSaturations,
            ),
            (Quantity::PATIENT_HEART_RATE, ReportGroup::Child),
            (Quantity::LEFT_VENTRICLE_DIAMETER, ReportGroup::Echo),
            (Quantity::ARTERY_DIAMETER, ReportGroup::Access),
        ] {
            assert_eq!(group(quantity), expected, "{quantity}");
        }
        let used: BTreeSet<ReportGroup> = Quantity::all().map(group).collect();
        assert!(used.into_iter().eq(ReportGroup::ALL));
    }
}
