//! The one address of everything that is read.

mod of_valve;
mod report;
mod table;
mod trade_words;

pub use report::ReportGroup;

use crate::{Site, Unit, Valve};
use std::fmt;
use std::sync::LazyLock;

/// The family of law that describes a quantity's doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LawKind {
    /// Log-normal by mean and standard deviation: zero is impossible.
    LogNormal,
    /// Normal, values below 0 counted as 0: zero is possible.
    NormalAtLeastZero,
    /// Normal: angles and shifts.
    Normal,
}

/// The structure a quantity belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Structure {
    /// The narrowest section of the defect.
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

/// What is read of a structure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Feature {
    /// The longer axis.
    LongAxis,
    /// The shorter axis.
    ShortAxis,
    /// The rotation of the longer axis.
    Rotation,
    /// The shift of the centre toward the reference valve.
    OffsetToward12,
    /// The shift of the centre a quarter turn clockwise of it.
    OffsetToward3,
    /// Thickness.
    Thickness,
    /// From the opening's edge to the hinge.
    Rim,
    /// The hinge's place on the clock, in degrees.
    ClockPosition,
    /// Diameter, for an annulus the one that leaves the hinge.
    Diameter,
    /// An annulus's diameter along the hinge's tangent.
    DiameterAcross,
    /// The annulus's lean against the wall.
    AnnulusAngle,
    /// The bulge of the closed cusps below the annulus.
    CuspDepth,
    /// Length of a leaflet, or the free length of a ventricle in the wall plane.
    Length,
    /// A tract's diameter into the cavity.
    Depth,
    /// A tract's diameter along the wall.
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
    /// Oxygen in what is breathed.
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

/// The address of one thing that is read: a structure and a feature of it.
///
/// One address serves form, nudge, undo, journal, splice, diagnostics,
/// "missing", break-even, Sobol dimension and import alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Quantity {
    index: u8,
}

/// What is known of a quantity before it is read.
#[derive(Debug)]
pub struct QuantityInfo {
    /// The structure it belongs to.
    pub structure: Structure,
    /// What is read of it.
    pub feature: Feature,
    /// Its address in files: `structure.feature`.
    pub address: &'static str,
    /// Its name in a sentence.
    pub label: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The law of its doubt.
    pub law: LawKind,
    /// The smallest value accepted.
    pub least: f64,
    /// The largest value accepted.
    pub most: f64,
    /// The fine and the coarse step by which it is nudged.
    pub steps: (f64, f64),
    /// Why it is asked for.
    pub why: &'static str,
    /// How it is read: in which view and phase, between which edges or by what.
    /// Common practice, no source.
    pub how: &'static str,
    /// The sites it is asked for; empty: every site.
    pub sites: &'static [Site],
    /// Its Sobol dimension: fixed for good, never reused.
    pub dimension: u32,
}

/// The quantities of each feature with their structures, by its place among the
/// features.
static BY_FEATURE: LazyLock<Vec<Vec<(Structure, Quantity)>>> = LazyLock::new(|| {
    let mut by_feature = Vec::new();
    for quantity in Quantity::all() {
        let place = quantity.info().feature as usize;
        if by_feature.len() <= place {
            by_feature.resize(place + 1, Vec::new());
        }
        by_feature[place].push((quantity.info().structure, quantity));
    }
    by_feature
});

impl Quantity {
    /// The quantity of a structure and a feature, if there is one.
    pub fn find(structure: Structure, feature: Feature) -> Option<Self> {
        // Asked for every number of every draw: only those of the feature are
        // looked at.
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

    /// What is known of it before it is read.
    pub fn info(self) -> &'static QuantityInfo {
        table::row(self.index())
    }

    /// Its address in files.
    pub fn address(self) -> &'static str {
        self.info().address
    }

    /// Its name in a sentence.
    pub fn label(self) -> &'static str {
        self.info().label
    }

    /// Its unit.
    pub fn unit(self) -> Unit {
        self.info().unit
    }

    /// Whether it is read for the work-up alone: no shape is judged by it.
    pub const fn is_for_workup_alone(self) -> bool {
        table::is_of_circulation(self.index())
    }

    /// Its place in arrays over all quantities.
    pub const fn index(self) -> usize {
        self.index as usize
    }

    /// How many quantities there are.
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
