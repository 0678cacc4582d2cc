use crate::{Mm, Radians, Vec2, radial};
use std::f64::consts::PI;

/// An ellipse about the origin of its own plane.
///
/// Nothing here needs `semi_minor` to be the smaller. A semi-axis of 0 makes
/// it a slit, two make it a point: every answer is then the limit of ever
/// narrower ellipses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse {
    /// Semi-axis a.
    pub semi_major: Mm,
    /// Semi-axis b ≤ a.
    pub semi_minor: Mm,
    /// Rotation ω of the major axis from u toward v.
    pub rotation: Radians,
}

impl Ellipse {
    /// Below this ratio of its axes an ellipse measures 4a all round: the next
    /// term, ½ (b/a)² (ln(4a/b) − ½) of 4a, no longer shows in an `f64`.
    const SLIT: f64 = 1e-9;

    /// A circle about the origin.
    pub const fn circle(radius: Mm) -> Self {
        Self {
            semi_major: radius,
            semi_minor: radius,
            rotation: 0.0,
        }
    }

    /// Distance ρ(θ) of the edge from the centre at azimuth θ.
    ///
    /// A slit has its semi-axis along itself, and 0 in every other direction.
    pub fn polar_radius(&self, azimuth: Radians) -> Mm {
        let (a, b) = (self.semi_major, self.semi_minor);
        let (sin, cos) = libm::sincos(azimuth - self.rotation);
        let width = libm::hypot(b * cos, a * sin);
        if width == 0.0 {
            a.max(b)
        } else {
            a * b / width
        }
    }

    /// The point of the edge at an eccentric anomaly, counted from the major
    /// axis.
    pub fn point(&self, anomaly: Radians) -> Vec2 {
        let (sin, cos) = libm::sincos(anomaly);
        Vec2::new(self.semi_major * cos, self.semi_minor * sin).turned(self.rotation)
    }

    /// The length of the edge, right to a few units in the last place.
    ///
    /// Gauss's arithmetic-geometric mean: with aₙ, bₙ its steps, M their limit
    /// and cₙ² = aₙ² − bₙ², the perimeter is (2π/M)(a² − Σ 2ⁿ⁻¹ cₙ²)
    /// (Abramowitz & Stegun 17.6.3 and 17.6.4, from memory). A slit is measured
    /// there and back: 4a.
    pub fn perimeter(&self) -> Mm {
        let long = self.semi_major.max(self.semi_minor);
        let short = self.semi_major.min(self.semi_minor);
        if short <= Self::SLIT * long {
            return 4.0 * long;
        }
        // On the unit scale, so that no square can overflow.
        let (mut a, mut b) = (1.0, short / long);
        let mut square = 0.5 * (1.0 + b * b);
        let mut weight = 1.0;
        loop {
            let half_gap = 0.5 * (a - b);
            let term = weight * half_gap * half_gap;
            let rest = square - term;
            (a, b) = (0.5 * (a + b), (a * b).sqrt());
            if rest >= square {
                return 2.0 * PI * long * square / a;
            }
            square = rest;
            weight *= 2.0;
        }
    }

    /// The diameter of the circle with the same perimeter.
    pub(crate) fn equal_perimeter_diameter(&self) -> Mm {
        self.perimeter() / PI
    }

    /// The enclosed area, mm².
    pub fn area(&self) -> f64 {
        PI * self.semi_major * self.semi_minor
    }

    /// Whether a point lies inside or on the edge.
    pub fn contains(&self, point: Vec2) -> bool {
        let own = point.turned(-self.rotation);
        let (a, b) = (self.semi_major, self.semi_minor);
        // The bounds settle a slit, for which the products are all 0.
        own.u.abs() <= a && own.v.abs() <= b && libm::hypot(own.u * b, own.v * a) <= a * b
    }

    /// The point of the ellipse farthest along a direction of any length; its
    /// centre where all points are equally far.
    pub fn support(&self, direction: Vec2) -> Vec2 {
        let along = radial(self.rotation);
        let (a, b) = (self.semi_major, self.semi_minor);
        let (x, y) = (a * along.dot(direction), b * along.cross(direction));
        let length = libm::hypot(x, y);
        if length == 0.0 {
            return Vec2::ZERO;
        }
        along * (a * x / length) + Vec2::new(-along.v, along.u) * (b * y / length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::degrees;
    use proptest::prelude::*;

    fn any_ellipse() -> impl Strategy<Value = Ellipse> {
        (0.0..20.0, 0.0..=1.0, -4.0..4.0).prop_map(|(a, ratio, rotation)| Ellipse {
            semi_major: a,
            semi_minor: a * ratio,
            rotation,
        })
    }

    #[test]
    fn a_circle_is_round() {
        let circle = Ellipse::circle(3.0);
        assert_eq!(circle.perimeter(), 6.0 * PI);
        assert_eq!(circle.equal_perimeter_diameter(), 6.0);
        assert_eq!(circle.area(), 9.0 * PI);
        assert!((circle.polar_radius(1.0) - 3.0).abs() < 1e-15);
    }

    #[test]
    fn a_slit_has_answers_everywhere() {
        let slit = Ellipse {
            semi_major: 4.0,
            semi_minor: 0.0,
            rotation: 0.0,
        };
        assert_eq!(slit.perimeter(), 16.0);
        assert_eq!(slit.polar_radius(0.0), 4.0);
        assert_eq!(slit.polar_radius(1.0), 0.0);
        assert_eq!(slit.support(Vec2::new(0.0, 1.0)), Vec2::ZERO);
        assert_eq!(slit.support(Vec2::new(-2.0, 1.0)), Vec2::new(-4.0, 0.0));
        assert!(slit.contains(Vec2::new(3.0, 0.0)));
        assert!(!slit.contains(Vec2::new(5.0, 0.0)));
        let point = Ellipse::circle(0.0);
        assert_eq!((point.perimeter(), point.polar_radius(0.3)), (0.0, 0.0));
        assert!(point.contains(Vec2::ZERO));
    }

    #[test]
    fn the_perimeter_is_smooth_where_the_slit_takes_over() {
        let just_open = |ratio| Ellipse {
            semi_major: 1.0,
            semi_minor: ratio,
            rotation: 0.0,
        };
        let gap = just_open(1.001e-9).perimeter() - just_open(0.999e-9).perimeter();
        assert!(gap.abs() < 1e-14, "{gap:e}");
    }

    proptest! {
        #[test]
        fn exchanged_axes_are_a_quarter_turn(ellipse in any_ellipse(), azimuth in -4.0..4.0_f64) {
            let exchanged = Ellipse {
                semi_major: ellipse.semi_minor,
                semi_minor: ellipse.semi_major,
                rotation: ellipse.rotation + degrees(90.0),
            };
            prop_assert_eq!(ellipse.perimeter(), exchanged.perimeter());
            let gap = ellipse.polar_radius(azimuth) - exchanged.polar_radius(azimuth);
            prop_assert!(gap.abs() < 1e-6, "{gap:e}");
        }

        #[test]
        fn the_perimeter_lies_between_its_elementary_bounds(ellipse in any_ellipse()) {
            let (a, b) = (ellipse.semi_major, ellipse.semi_minor);
            let perimeter = ellipse.perimeter();
            let slack = 1e-14 * a;
            prop_assert!(perimeter >= PI * (a + b) - slack);
            prop_assert!(perimeter >= 4.0 * a - slack);
            prop_assert!(perimeter <= PI * (2.0 * (a * a + b * b)).sqrt() + slack);
        }

        #[test]
        fn the_edge_is_where_its_polar_radius_says(ellipse in any_ellipse(), anomaly in -4.0..4.0_f64) {
            let point = ellipse.point(anomaly);
            prop_assume!(ellipse.semi_minor > 1e-3);
            let azimuth = libm::atan2(point.v, point.u);
            let gap = point.length() - ellipse.polar_radius(azimuth);
            prop_assert!(gap.abs() < 1e-9, "{gap:e}");
            prop_assert!(ellipse.contains(point * (1.0 - 1e-9)));
            prop_assert!(!ellipse.contains(point * (1.0 + 1e-9)));
        }

        #[test]
        fn no_point_lies_beyond_the_support(
            ellipse in any_ellipse(), anomaly in -4.0..4.0_f64, azimuth in -4.0..4.0_f64,
        ) {
            let direction = radial(azimuth);
            let most = ellipse.support(direction).dot(direction);
            prop_assert!(ellipse.point(anomaly).dot(direction) <= most + 1e-12);
        }
    }
}
