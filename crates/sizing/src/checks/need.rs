//! The quantities that checks name as their needs.

use geometry::Face;
use measurement::{Feature, Quantity, Structure, Valve};

/// The quantities of a structure's features.
pub(super) fn of(structure: Structure, features: &[Feature]) -> Vec<Quantity> {
    features
        .iter()
        .filter_map(|&feature| Quantity::find(structure, feature))
        .collect()
}

/// What the hole's perimeter needs.
pub(super) fn throat() -> Vec<Quantity> {
    of(
        Structure::Throat,
        &[Feature::Major, Feature::Minor, Feature::Turn],
    )
}

/// What slack and stand-off need.
pub(super) fn slack() -> Vec<Quantity> {
    both(throat(), of(Structure::Wall, &[Feature::Thickness]))
}

/// What a disc's place over the opening of a face needs.
pub(super) fn opening(face: Face) -> Vec<Quantity> {
    let structure = match face {
        Face::Left => Structure::LeftOpening,
        Face::Right => Structure::RightOpening,
    };
    let features = [
        Feature::Major,
        Feature::Minor,
        Feature::Turn,
        Feature::ShiftU,
        Feature::ShiftV,
    ];
    both(throat(), of(structure, &features))
}

/// What the place of a hinge on its face needs.
pub(super) fn hinge(valve: Valve) -> Vec<Quantity> {
    let place = of(Structure::Valve(valve), &[Feature::Rim, Feature::Azimuth]);
    both(opening(crate::face_of(valve)), place)
}

/// The structure of a side's outflow tract.
pub(super) const fn tract(face: Face) -> Structure {
    match face {
        Face::Left => Structure::LeftTract,
        Face::Right => Structure::RightTract,
    }
}

/// Two lists as one, nothing twice.
pub(super) fn both(mut one: Vec<Quantity>, other: Vec<Quantity>) -> Vec<Quantity> {
    for quantity in other {
        if !one.contains(&quantity) {
            one.push(quantity);
        }
    }
    one
}
