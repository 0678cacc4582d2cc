//! Directions as unit vectors: going round without angles.

use crate::Vec2;
use std::iter;

/// The directions from one unit vector round to another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub(super) from: Vec2,
    pub(super) to: Vec2,
    /// Whether it takes up half a turn or more.
    pub(super) wide: bool,
}

/// (cos, sin) of 22.5°, the widest piece.
const STEP: Vec2 = Vec2::new(0.923_879_532_511_286_7, 0.382_683_432_365_089_8);

/// Pieces in half a turn.
const HALF_TURN: u32 = 8;

impl Stretch {
    /// All directions, from the first axis.
    pub(super) const WHOLE: Self = Self {
        from: Vec2::new(1.0, 0.0),
        to: Vec2::new(1.0, 0.0),
        wide: true,
    };

    /// Pieces of 22.5° one after another, the last one up to that.
    pub(super) fn pieces(&self) -> impl Iterator<Item = [Vec2; 2]> {
        // Beyond these the end lies within half a turn ahead, and is met as soon
        // as it is near.
        let mut sure = if self.wide { HALF_TURN } else { 0 };
        let mut next = Some(self.from);
        let end = self.to;
        iter::from_fn(move || {
            let from = next?;
            if sure == 0 && from.dot(end) >= STEP.u {
                next = None;
                return Some([from, end]);
            }
            sure = sure.saturating_sub(1);
            let to = turned(from, STEP);
            next = Some(to);
            Some([from, to])
        })
    }

    /// Whether a direction lies on it.
    pub(super) fn contains(&self, unit: Vec2) -> bool {
        if self.wide {
            !(self.to.cross(unit) > 0.0 && unit.cross(self.from) > 0.0)
        } else {
            lies_between(unit, self.from, self.to)
        }
    }
}

/// Whether a direction lies on the way from one to another that is less than half
/// a turn ahead.
pub(super) fn lies_between(direction: Vec2, from: Vec2, to: Vec2) -> bool {
    from.cross(direction) >= 0.0 && direction.cross(to) >= 0.0
}

/// A vector turned by the angle between the first axis and `by`.
pub(super) fn turned(vector: Vec2, by: Vec2) -> Vec2 {
    Vec2::new(
        vector.u * by.u - vector.v * by.v,
        vector.u * by.v + vector.v * by.u,
    )
}

/// The unit vector along a vector that is not zero.
pub(super) fn unit(vector: Vec2) -> Vec2 {
    vector * (1.0 / vector.length())
}

/// The direction halfway between two that are less than half a turn apart.
pub(super) fn middle(from: Vec2, to: Vec2) -> Vec2 {
    unit(from + to)
}

/// Where the tangents of the unit circle at two directions meet that are less than
/// half a turn apart.
pub(super) fn tangents_meet(from: Vec2, to: Vec2) -> Vec2 {
    (from + to) * (1.0 / (1.0 + from.dot(to)))
}

/// tan of half the angle from one direction to another: twice it is a little
/// more than the angle.
pub(super) fn half_tangent(from: Vec2, to: Vec2) -> f64 {
    from.cross(to) / (1.0 + from.dot(to))
}

/// The direction past another by the angle with this half-tangent.
pub(super) fn past(from: Vec2, half_tangent: f64) -> Vec2 {
    let square = half_tangent * half_tangent;
    let step = Vec2::new(1.0 - square, 2.0 * half_tangent) * (1.0 / (1.0 + square));
    turned(from, step)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::radial;
    use proptest::prelude::*;
    use std::f64::consts::{FRAC_PI_8, PI, TAU};

    proptest! {
        #[test]
        fn pieces_lead_from_one_end_to_the_other(start in -4.0..4.0_f64, width in 0.0..=TAU) {
            let stretch = Stretch {
                from: radial(start),
                to: radial(start + width),
                wide: width >= PI,
            };
            let mut covered = 0.0;
            let mut end = stretch.from;
            for [from, to] in stretch.pieces() {
                prop_assert_eq!(from, end);
                let angle = 2.0 * half_tangent(from, to).atan();
                prop_assert!(angle < FRAC_PI_8 + 1e-12);
                covered += angle;
                end = to;
            }
            prop_assert_eq!(end, stretch.to);
            prop_assert!((covered - width).abs() < 1e-12);
        }

        #[test]
        fn it_contains_what_lies_between_its_ends(
            start in -4.0..4.0_f64, width in 0.0..TAU, past_start in 0.0..TAU,
        ) {
            prop_assume!((past_start - width).abs() > 1e-9 && past_start > 1e-9);
            let stretch = Stretch {
                from: radial(start),
                to: radial(start + width),
                wide: width >= PI,
            };
            prop_assert_eq!(stretch.contains(radial(start + past_start)), past_start < width);
        }
    }

    #[test]
    fn the_whole_turn_is_sixteen_pieces_or_a_rounding_more() {
        assert!((16..=17).contains(&Stretch::WHOLE.pieces().count()));
        assert!(Stretch::WHOLE.contains(Vec2::new(0.6, -0.8)));
    }
}
