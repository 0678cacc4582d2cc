//! The quantities that checks name as their needs.

use geometry::Face;
use measurement::{Quantity, Valve};

/// What the defect's perimeter needs.
pub(super) fn throat() -> Vec<Quantity> {
    vec![
        Quantity::DEFECT_LONG_AXIS,
        Quantity::DEFECT_SHORT_AXIS,
        Quantity::DEFECT_ROTATION,
    ]
}

/// What slack and stand-off need.
pub(super) fn slack() -> Vec<Quantity> {
    both(throat(), [Quantity::WALL_THICKNESS])
}

/// What a disc's place over the opening of a face needs.
pub(super) fn opening(face: Face) -> Vec<Quantity> {
    let own = match face {
        Face::Left => [
            Quantity::LEFT_OPENING_LONG_AXIS,
            Quantity::LEFT_OPENING_SHORT_AXIS,
            Quantity::LEFT_OPENING_ROTATION,
            Quantity::LEFT_OPENING_OFFSET_TOWARD_12,
            Quantity::LEFT_OPENING_OFFSET_TOWARD_3,
        ],
        Face::Right => [
            Quantity::RIGHT_OPENING_LONG_AXIS,
            Quantity::RIGHT_OPENING_SHORT_AXIS,
            Quantity::RIGHT_OPENING_ROTATION,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_12,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_3,
        ],
    };
    both(throat(), own)
}

/// What the place of a hinge on its face needs.
pub(super) fn hinge(valve: Valve) -> Vec<Quantity> {
    let place = [Quantity::rim(valve), Quantity::clock_position(valve)];
    both(opening(crate::face_of(valve)), place)
}

/// What the section of a side's outflow tract needs.
pub(super) const fn tract(face: Face) -> [Quantity; 2] {
    match face {
        Face::Left => [Quantity::LEFT_OUTFLOW_DEPTH, Quantity::LEFT_OUTFLOW_WIDTH],
        Face::Right => [Quantity::RIGHT_OUTFLOW_DEPTH, Quantity::RIGHT_OUTFLOW_WIDTH],
    }
}

/// Two lists as one, nothing twice.
pub(super) fn both(
    mut one: Vec<Quantity>,
    other: impl IntoIterator<Item = Quantity>,
) -> Vec<Quantity> {
    for quantity in other {
        if !one.contains(&quantity) {
            one.push(quantity);
        }
    }
    one
}
