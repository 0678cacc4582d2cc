//! On what ground a line stands, and how far off it may be.

use geometry::Mm;
use measurement::{Feature, Quantity, Structure};
use sizing::Setting;
use sizing::resolve::Basis;

/// Whether every feature of a structure was measured, or follows one that was.
/// What is assumed is drawn dashed.
pub(super) fn is_measured(setting: &Setting, structure: Structure, features: &[Feature]) -> bool {
    features
        .iter()
        .filter_map(|&feature| Quantity::find(structure, feature))
        .all(|quantity| stands_on_reading(setting, quantity))
}

/// Whether the form of the defect was measured; a round one needs no rotation.
pub(super) fn is_defect_measured(setting: &Setting) -> bool {
    const AXES: &[Feature] = &[Feature::LongAxis, Feature::ShortAxis];
    let throat = setting.anatomy().defect.narrowest;
    let is_round = throat.semi_major == throat.semi_minor;
    is_measured(setting, Structure::Defect, AXES)
        && (is_round || is_measured(setting, Structure::Defect, &[Feature::Rotation]))
}

fn stands_on_reading(setting: &Setting, quantity: Quantity) -> bool {
    match setting.basis(quantity) {
        Basis::Read(_) | Basis::Nil => true,
        Basis::Follows(other) => stands_on_reading(setting, *other),
        Basis::Assumed { .. } | Basis::Absent | Basis::Missing(_) => false,
    }
}

/// The standard deviation of a feature; `None` where it has no value of its own or
/// no doubt.
pub(super) fn doubt(setting: &Setting, structure: Structure, feature: Feature) -> Option<Mm> {
    let quantity = Quantity::find(structure, feature)?;
    let law = setting.resolved()[quantity.index()].law?;
    Some(law.sd()).filter(|sd| *sd > 0.0 && sd.is_finite())
}
