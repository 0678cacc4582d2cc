//! Quantities: everything that can be measured, each with one address.

mod of_valve;
mod report;
mod table;
mod trade_words;

pub use report::ReportGroup;

use crate::{Site, Unit, Valve};
use std::fmt;
use std::sync::LazyLock;

/// The family of laws that describes the doubt of a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LawKind {
    /// Log-normal by mean and standard deviation; zero is impossible.
    LogNormal,
    /// Normal, with values below 0 counted as 0; zero is possible.
    NormalAtLeastZero,
    /// Normal, for angles and offsets.
    Normal,
}

/// The structure a quantity belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Structure {
    /// The narrowest part of the defect.
    Defect,
    /// The opening on the left face.
    LeftOpening,
    /// The opening on the right face.
    RightOpening,
    /// The wall at the defect.
    Wall,
    /// A neighbouring valve.
    Valve(Valve),
    /// The left outflow tract.
    LeftOutflow,
    /// The right outflow tract.
    RightOutflow,
    /// The left ventricle.
    LeftVentricle,
    /// The right ventricle.
    RightVentricle,
    /// The vein by which an antegrade sheath goes.
    Vein,
    /// The artery by which a retrograde sheath goes.
    Artery,
    /// The circulation.
    Flow,
    /// The superior vena cava.
    SuperiorVenaCava,
    /// The inferior vena cava.
    InferiorVenaCava,
    /// The right atrium.
    RightAtrium,
    /// The pulmonary artery.
    PulmonaryArtery,
    /// A pulmonary artery whose branch is closed by the catheter.
    PulmonaryWedge,
    /// A pulmonary vein.
    PulmonaryVein,
    /// The left atrium.
    LeftAtrium,
    /// The aorta, or a systemic artery.
    Aorta,
    /// The aortic arch.
    Arch,
    /// The blood.
    Blood,
    /// The child.
    Patient,
}

/// The feature of a structure that is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Feature {
    /// The long axis.
    LongAxis,
    /// The short axis.
    ShortAxis,
    /// The rotation of the long axis.
    Rotation,
    /// The offset of the centre toward the reference valve, at 12 o'clock.
    OffsetToward12,
    /// The offset of the centre toward 3 o'clock.
    OffsetToward3,
    /// Thickness.
    Thickness,
    /// The rim: from the opening's edge to the hinge.
    Rim,
    /// The clock position of the hinge, in degrees.
    ClockPosition,
    /// The diameter; of an annulus the one away from the hinge.
    Diameter,
    /// The diameter of an annulus along the tangent of its hinge.
    DiameterAcross,
    /// The angle of the annulus to the septum.
    AnnulusAngle,
    /// The depth of the closed cusps below the annulus.
    CuspDepth,
    /// Length of a leaflet, or the free length of a ventricle in the wall plane.
    Length,
    /// The diameter of an outflow tract into the cavity.
    Depth,
    /// The diameter of an outflow tract along the wall.
    Width,
    /// Peak velocity.
    Velocity,
    /// The integral of velocity over one ejection.
    VelocityIntegral,
    /// Systolic pressure.
    SystolicPressure,
    /// Diastolic pressure, of a ventricle at the end of diastole.
    DiastolicPressure,
    /// Mean pressure.
    MeanPressure,
    /// Pressure lost along a vessel.
    Gradient,
    /// Oxygen saturation.
    Saturation,
    /// Oxygen tension.
    OxygenTension,
    /// Haemoglobin.
    Haemoglobin,
    /// Oxygen uptake.
    OxygenUptake,
    /// Inspired oxygen.
    InspiredOxygen,
    /// Heart rate.
    HeartRate,
    /// Pulmonary over systemic flow.
    QpQs,
    /// Pulmonary resistance, indexed to body surface.
    PulmonaryResistanceIndexed,
    /// Systemic resistance, indexed to body surface.
    SystemicResistanceIndexed,
    /// Weight.
    Weight,
    /// Height.
    Height,
    /// Age.
    Age,
}

/// A quantity that can be measured: one feature of one structure.
///
/// Its one address, such as `aortic.rim`, serves forms, undo, the journal, diagnostics,
/// break-even and random draws alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Quantity {
    index: u8,
}

/// The name, unit, range and law of a quantity.
#[derive(Debug)]
pub struct QuantityInfo {
    /// The structure that the quantity belongs to.
    pub structure: Structure,
    /// The feature of the structure.
    pub feature: Feature,
    /// The address in files: `structure.feature`.
    pub address: &'static str,
    /// The name in a sentence.
    pub label: &'static str,
    /// The unit.
    pub unit: Unit,
    /// The family of its law.
    pub law: LawKind,
    /// The smallest value accepted.
    pub least: f64,
    /// The largest value accepted.
    pub most: f64,
    /// The fine and the coarse step of a nudge.
    pub steps: (f64, f64),
    /// Why the quantity is asked for.
    pub why: &'static str,
    /// How to measure it: in which view and phase, between which edges or by what.
    /// Common practice, no source.
    pub how: &'static str,
    /// The sites at which it is asked for; empty for every site.
    pub sites: &'static [Site],
    /// The Sobol dimension, fixed for good and never reused.
    pub dimension: u32,
}

/// The quantities of each feature with their structures, by the index of the feature.
static BY_FEATURE: LazyLock<Vec<Vec<(Structure, Quantity)>>> = LazyLock::new(|| {
    let mut by_feature = Vec::new();
    for quantity in Quantity::all() {
        let index = quantity.info().feature as usize;
        if by_feature.len() <= index {
            by_feature.resize(index + 1, Vec::new());
        }
        by_feature[index].push((quantity.info().structure, quantity));
    }
    by_feature
});

impl Quantity {
    /// The quantity of a structure and a feature, if there is one.
    pub fn find(structure: Structure, feature: Feature) -> Option<Self> {
        // Every number of every draw asks for its quantity, so only those of the feature
        // are searched.
        let alike = BY_FEATURE.get(feature as usize)?;
        alike
            .iter()
            .find(|(of, _)| *of == structure)
            .map(|&(_, quantity)| quantity)
    }

    /// The quantity with an address such as `aortic.rim`.
    pub fn from_address(address: &str) -> Option<Self> {
        Self::all().find(|quantity| quantity.address() == address)
    }

    /// Every quantity, in the order in which they are asked.
    pub fn all() -> impl ExactSizeIterator<Item = Self> {
        (0..Self::COUNT).map(|index| Self {
            index: u8::try_from(index).unwrap_or(u8::MAX),
        })
    }

    /// The name, unit, range and law of the quantity.
    pub fn info(self) -> &'static QuantityInfo {
        table::row(self.index())
    }

    /// The address of the quantity in files.
    pub fn address(self) -> &'static str {
        self.info().address
    }

    /// The name of the quantity in a sentence.
    pub fn label(self) -> &'static str {
        self.info().label
    }

    /// The unit of the quantity.
    pub fn unit(self) -> Unit {
        self.info().unit
    }

    /// Whether only the work-up uses the quantity, and no check of a device does.
    pub const fn is_for_workup_alone(self) -> bool {
        table::is_of_circulation(self.index())
    }

    /// Index of the quantity in arrays over all of them.
    pub const fn index(self) -> usize {
        self.index as usize
    }

    /// The number of quantities.
    pub const COUNT: usize = table::COUNT;
}

impl fmt::Display for Quantity {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.label())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a few lines of a narrow form hold.
    const MOST_CHARACTERS: usize = 160;

    #[test]
    fn how_each_is_read_is_one_short_phrase() {
        for quantity in Quantity::all() {
            let how = quantity.info().how;
            let length = how.chars().count();
            assert!((1..=MOST_CHARACTERS).contains(&length), "{quantity}");
            assert!(!how.ends_with('.') && how.trim() == how, "{quantity}");
        }
    }
}
