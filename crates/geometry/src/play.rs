use crate::{Defect, Edge, Ellipse, Mm, Radians, Vec2};
use std::f64::consts::TAU;

/// The points of the wall plane that the centre of a waist can take: a filled
/// ellipse, a stretch of line or a single point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Play {
    /// The middle of the play.
    pub centre: Vec2,
    /// Semi-axis p_a, along the defect's long axis.
    pub semi_major: Mm,
    /// Semi-axis p_b, square to p_a.
    pub semi_minor: Mm,
    /// Rotation of the major axis from u toward v.
    pub rotation: Radians,
}

impl Play {
    /// The play of a waist squeezed to `waist_diameter` = d_c in a defect.
    ///
    /// With a soft edge and d_c ≤ 2b the waist slides along both axes, and the
    /// semi-axes are what it leaves of the defect's. From 2b on it rounds the
    /// defect and slides along the major axis alone, over less and less, until at
    /// d_fit it fills the defect and has no play. A stiff edge is not rounded, and the
    /// waist slides along its major axis.
    ///
    /// A reduced model: the places are an ellipse, so that in a long defect the
    /// waist may press a little into the edge near the ends of the major axis.
    pub fn of(defect: &Defect, waist_diameter: Mm) -> Self {
        let Ellipse {
            semi_major,
            semi_minor,
            rotation,
        } = defect.narrowest;
        let fit = defect.fit_diameter();
        let waist = 0.5 * waist_diameter;
        let (along, across) = match defect.edge {
            Edge::Stiff => (semi_major - waist, 0.0),
            Edge::Soft if waist_diameter >= fit => (0.0, 0.0),
            Edge::Soft if waist <= semi_minor => (semi_major - waist, semi_minor - waist),
            Edge::Soft => {
                // fit > waist_diameter > 2b here, so the share is within 0 to 1.
                let rounded = (waist - semi_minor) / (0.5 * fit - semi_minor);
                (semi_major - (semi_major - 0.5 * fit) * rounded - waist, 0.0)
            }
        };
        Self {
            centre: Vec2::ZERO,
            semi_major: along.max(0.0),
            semi_minor: across,
            rotation,
        }
    }

    /// A play of one single place.
    pub const fn at(point: Vec2) -> Self {
        Self {
            centre: point,
            semi_major: 0.0,
            semi_minor: 0.0,
            rotation: 0.0,
        }
    }

    /// The same places, each moved by `step`.
    #[must_use]
    pub fn moved(&self, step: Vec2) -> Self {
        Self {
            centre: self.centre + step,
            ..*self
        }
    }

    /// The same places, turned about the origin.
    #[must_use]
    pub(crate) fn turned(&self, angle: Radians) -> Self {
        let centre = if self.centre == Vec2::ZERO {
            Vec2::ZERO
        } else {
            self.centre.turned(angle)
        };
        Self {
            centre,
            rotation: self.rotation + angle,
            ..*self
        }
    }

    /// Whether it is a single place.
    pub fn is_place(&self) -> bool {
        self.semi_major == 0.0 && self.semi_minor == 0.0
    }

    /// The place farthest along a direction; the middle where all are equally
    /// far.
    pub fn support(&self, direction: Vec2) -> Vec2 {
        if self.is_place() {
            return self.centre;
        }
        self.centre + self.edge().support(direction)
    }

    /// The place of two numbers U and V of 0 to 1: uniform over the play where
    /// they are uniform. U tells how far out, V which way.
    pub fn point(&self, u: f64, v: f64) -> Vec2 {
        if self.is_place() {
            return self.centre;
        }
        let (sin, cos) = libm::sincos(TAU * v);
        let out = u.sqrt();
        let own = Vec2::new(self.semi_major * out * cos, self.semi_minor * out * sin);
        self.centre + own.turned(self.rotation)
    }

    /// The boundary of the play, about its middle.
    pub(crate) const fn edge(&self) -> Ellipse {
        Ellipse {
            semi_major: self.semi_major,
            semi_minor: self.semi_minor,
            rotation: self.rotation,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::degrees;
    use proptest::prelude::*;

    fn hole(edge: Edge) -> Defect {
        let narrowest = Ellipse {
            semi_major: 4.0,
            semi_minor: 2.0,
            rotation: degrees(30.0),
        };
        Defect::straight(narrowest, 3.0, edge)
    }

    #[test]
    fn a_narrow_waist_leaves_what_is_left_of_the_axes() {
        // 4 − 3/2 = 2.5 along, 2 − 3/2 = 0.5 across.
        let play = Play::of(&hole(Edge::Soft), 3.0);
        assert_eq!(
            (play.semi_major, play.semi_minor, play.rotation),
            (2.5, 0.5, degrees(30.0))
        );
    }

    #[test]
    fn the_play_goes_on_where_the_waist_meets_the_sides_and_ends_at_the_fit() {
        let defect = hole(Edge::Soft);
        let step = 1e-9;
        let (below, above) = (Play::of(&defect, 4.0), Play::of(&defect, 4.0 + step));
        assert!((below.semi_major - above.semi_major).abs() < 2.0 * step);
        assert_eq!((below.semi_minor, above.semi_minor), (0.0, 0.0));
        let fit = defect.fit_diameter();
        let last = Play::of(&defect, fit - step);
        assert!(last.semi_major > 0.0 && last.semi_major < 4.0 * step);
        assert!(Play::of(&defect, fit).is_place());
    }

    #[test]
    fn halfway_to_the_fit_it_is_as_worked_by_hand() {
        // d_c = (4 + d_fit)/2: a_s = 4 − (4 − d_fit/2)/2 = 2 + d_fit/4, less
        // d_c/2 = 1 + d_fit/4 leaves 1.
        let defect = hole(Edge::Soft);
        let play = Play::of(&defect, 0.5 * (4.0 + defect.fit_diameter()));
        assert!((play.semi_major - 1.0).abs() < 1e-14);
        assert_eq!(play.semi_minor, 0.0);
    }

    #[test]
    fn a_stiff_edge_lets_the_waist_slide_along() {
        let play = Play::of(&hole(Edge::Stiff), 4.0);
        assert_eq!((play.semi_major, play.semi_minor), (2.0, 0.0));
        assert!(Play::of(&hole(Edge::Stiff), 9.0).is_place());
    }

    #[test]
    fn a_round_hole_has_round_play_until_it_is_filled() {
        let defect = Defect::straight(Ellipse::circle(3.0), 3.0, Edge::Soft);
        let play = Play::of(&defect, 4.0);
        assert_eq!((play.semi_major, play.semi_minor), (1.0, 1.0));
        assert!(Play::of(&defect, 6.0).is_place());
    }

    proptest! {
        #[test]
        fn no_place_lies_beyond_the_support(
            u in 0.0..=1.0_f64, v in 0.0..=1.0_f64, azimuth in -4.0..4.0_f64,
            a in 0.0..5.0_f64, ratio in 0.0..=1.0_f64, rotation in -4.0..4.0_f64,
        ) {
            let play = Play {
                centre: Vec2::new(0.3, -0.2), semi_major: a, semi_minor: a * ratio, rotation,
            };
            let direction = crate::radial(azimuth);
            let beyond = play.point(u, v).dot(direction) - play.support(direction).dot(direction);
            prop_assert!(beyond < 1e-12);
        }

        #[test]
        fn more_waist_never_leaves_more_play(
            a in 0.1..5.0_f64, ratio in 0.01..=1.0_f64, waist in 0.0..9.0_f64, more in 0.0..1.0_f64,
        ) {
            let narrowest = Ellipse { semi_major: a, semi_minor: a * ratio, rotation: 0.0 };
            for edge in [Edge::Soft, Edge::Stiff] {
                let defect = Defect::straight(narrowest, 3.0, edge);
                let (wide, narrow) = (Play::of(&defect, waist + more), Play::of(&defect, waist));
                prop_assert!(wide.semi_major <= narrow.semi_major + 1e-12);
                prop_assert!(wide.semi_minor <= narrow.semi_minor);
            }
        }
    }
}
