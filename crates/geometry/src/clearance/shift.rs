use crate::{Accuracy, HingedPlate, Mm, RoundPlate, Vec3};

/// Sine of the angle below which disc and annulus plate count as parallel: all
/// of the disc then passes the plate at one shift, to within rounding.
const PARALLEL: f64 = 1e-9;

/// The largest x ≥ 0 at which the disc D, moved back by x along r̂, meets the
/// annulus plate A, at most `accuracy` below the true one; `None` when it does
/// at none.
///
/// A point y of D reaches A's plane after the shift x(y) = r̂·y − cot λ ĥ·y
/// (ĥ out of the wall, y from the hinge), and lands in A if
/// (ĥ·y / (a sin λ) − 1)² + (t̂·y / b)² ≤ 1, with a, b the plate's semi-axes. So x is
/// the largest value of a linear function over the part of D that lands in A.
/// Let ξ run along D where x rises fastest and ζ across, where it stays. On
/// every line of constant ξ, D is the interval |ζ| ≤ √(ρ² − ξ²), and the points
/// that land in A are the interval |ζ − η| ≤ √(q − κ²)/q, where η and κ are
/// linear in ξ. They overlap where
///
/// W(ξ) = √(ρ² − ξ²) + √(q − κ²)/q − |η| ≥ 0,
///
/// and W is concave. The largest such ξ is the upper end of W's domain (D's own
/// farthest point, or the farthest that lands in A), or else is found by
/// bisection, where the tangent of W cuts off what convexity forbids.
pub(super) fn largest(disc: &RoundPlate, plate: &HingedPlate, accuracy: Accuracy) -> Option<Mm> {
    // In the directions (out, r̂, t̂) from the hinge, as n, u, v.
    let centre = plate.seen_from_hinge(disc.centre);
    let normal = plate.along_hinge(disc.normal);
    let (cotangent, tall, wide) = (plate.cotangent(), plate.height(), plate.plate().semi_second);

    let square = Vec3::new(-cotangent, 1.0, 0.0);
    let steepest = square - normal * normal.dot(square);
    let rate = steepest.length();
    let at_centre = centre.u - cotangent * centre.n;
    if at_centre + rate * disc.radius < 0.0 {
        return None;
    }
    let (rate, along) = if rate > PARALLEL * square.length() {
        (rate, steepest * (1.0 / rate))
    } else {
        (0.0, Vec3::new(0.0, 0.0, 1.0))
    };
    let across = normal.cross(along);

    let landing = Landing::new(
        [centre.n / tall - 1.0, centre.v / wide],
        [along.n / tall, along.v / wide],
        [across.n / tall, across.v / wide],
        disc.radius,
    );
    let least = if rate > 0.0 {
        -at_centre / rate
    } else if at_centre >= 0.0 {
        -disc.radius
    } else {
        return None;
    };
    landing
        .largest(least, accuracy.mm() / rate.max(1.0))
        .map(|place| (at_centre + rate * place).max(0.0))
}

/// W of [`largest`].
struct Landing {
    radius: Mm,
    /// q.
    square: f64,
    /// κ at ξ = 0, and for each millimetre of ξ.
    offset: [f64; 2],
    /// η at ξ = 0, and for each millimetre of ξ.
    middle: [f64; 2],
}

impl Landing {
    /// From where D's centre lands in units of A's semi-axes, and how that
    /// moves along ξ and ζ.
    fn new(centre: [f64; 2], along: [f64; 2], across: [f64; 2], radius: Mm) -> Self {
        let dot = |a: [f64; 2], b: [f64; 2]| a[0] * b[0] + a[1] * b[1];
        let cross = |a: [f64; 2], b: [f64; 2]| a[0] * b[1] - a[1] * b[0];
        let square = dot(across, across);
        Self {
            radius,
            square,
            offset: [cross(centre, across), cross(along, across)],
            middle: [-dot(centre, across) / square, -dot(along, across) / square],
        }
    }

    /// The largest ξ ≥ `least` with W ≥ 0, at most `accuracy` below the true
    /// one.
    fn largest(&self, least: Mm, accuracy: Mm) -> Option<Mm> {
        let (low, mut high) = self.domain()?;
        let mut low = low.max(least);
        if low > high {
            return None;
        }
        if self.overlap(high).0 >= 0.0 {
            return Some(high);
        }
        let mut found = None;
        while high - low > accuracy {
            let place = 0.5 * (low + high);
            if place <= low || place >= high {
                break;
            }
            let (overlap, slope) = self.overlap(place);
            if overlap >= 0.0 {
                low = place;
                found = Some(place);
            } else if slope < 0.0 {
                high = place - overlap / slope;
            } else {
                low = place - overlap / slope;
            }
        }
        found
    }

    /// Where both roots of W are real.
    fn domain(&self) -> Option<(Mm, Mm)> {
        let limit = self.square.sqrt();
        let [start, slope] = self.offset;
        if slope == 0.0 {
            return (start.abs() <= limit).then_some((-self.radius, self.radius));
        }
        let (one, other) = ((-limit - start) / slope, (limit - start) / slope);
        let low = one.min(other).max(-self.radius);
        let high = one.max(other).min(self.radius);
        (low <= high).then_some((low, high))
    }

    /// W and its slope.
    fn overlap(&self, place: Mm) -> (Mm, f64) {
        let offset = self.offset[0] + self.offset[1] * place;
        let middle = self.middle[0] + self.middle[1] * place;
        let disc = ((self.radius - place) * (self.radius + place))
            .max(0.0)
            .sqrt();
        let landed = (self.square - offset * offset).max(0.0).sqrt();
        // A root that stays 0 has no slope; 0/0 must not speak for it.
        let slope_of = |rise: f64, root: f64| if rise == 0.0 { 0.0 } else { rise / root };
        let slope = -slope_of(place, disc)
            - slope_of(offset * self.offset[1], self.square * landed)
            - self.middle[1] * middle.signum();
        (disc + landed / self.square - middle.abs(), slope)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{AnnulusPlate, Ellipse, Face, Opening, SeatedDisc, Tilt, Vec2, degrees};
    use proptest::prelude::*;
    use std::f64::consts::{PI, TAU};

    /// The largest shift of a disc parallel to the wall: the plate is then a
    /// straight edge of half-width w at the disc's height.
    fn largest_if_flat(disc: &SeatedDisc, valve: &AnnulusPlate, plate: &HingedPlate) -> Option<Mm> {
        let height = disc.core_height();
        let along = (disc.centre - plate.hinge()).dot(plate.radial());
        let across = plate.radial().cross(disc.centre - plate.hinge());
        let share = height / plate.height() - 1.0;
        let half = 0.5 * valve.diameter_across * (1.0 - share * share).sqrt();
        let off_edge = across - across.clamp(-half, half);
        let core = disc.core_radius();
        let shift = along + (core * core - off_edge * off_edge).sqrt() - height * plate.cotangent();
        (shift >= 0.0).then_some(shift)
    }

    /// A plate 10 mm high and 8 mm wide on a hinge 4 mm from the centre along u.
    fn plate(lean: f64) -> HingedPlate {
        let valve = AnnulusPlate {
            face: Face::Left,
            clock_position: 0.0,
            rim: 2.0,
            diameter: 10.0,
            diameter_across: 8.0,
            annulus_angle: degrees(lean),
            cusp_depth: 0.0,
        };
        valve.hinged(&Opening {
            centre: Vec2::ZERO,
            edge: Ellipse::circle(2.0),
        })
    }

    /// A disc square to the wall, parallel to a plate that stands square on it, passes
    /// the plate at the one shift that lies between them.
    #[test]
    fn a_disc_parallel_to_the_plate_passes_it_at_one_shift() {
        let plate = plate(90.0);
        let disc = |n: f64, u: f64, v: f64| RoundPlate {
            centre: Vec3::new(n, 4.0 + u, v),
            normal: Vec3::new(0.0, 1.0, 0.0),
            radius: 3.0,
        };
        let found = |n, u, v| largest(&disc(n, u, v), &plate, Accuracy::DEFAULT);
        for shift in [1e-6, 0.25, 2.0, 30.0] {
            let there = found(5.0, shift, 0.0).unwrap();
            assert!((there - shift).abs() < 1e-9, "{there} for {shift}");
        }
        // Short of the plate there is nothing to draw back from.
        for short in [-0.25, -2.0, -30.0] {
            assert_eq!(found(5.0, short, 0.0), None, "{short}");
        }
        // It lands up to 3 mm beside the plate, 4 mm wide there, and over its far edge.
        for (n, v, lands) in [
            (5.0, 6.9, true),
            (5.0, -6.9, true),
            (5.0, 7.1, false),
            (5.0, -7.1, false),
            (12.9, 0.0, true),
            (13.1, 0.0, false),
        ] {
            let there = found(n, 2.0, v);
            assert_eq!(there.is_some(), lands, "{n} {v}");
            assert!(there.is_none_or(|there| (there - 2.0).abs() < 1e-9));
        }
    }

    /// The largest shift among points of the disc that land in the plate made larger by
    /// a share of it; `None`: none of them lands.
    fn largest_of_points(disc: &RoundPlate, plate: &HingedPlate, share: f64) -> Option<Mm> {
        let aside = disc.normal.cross(Vec3::new(0.3, -0.5, 0.8));
        let first = aside * (1.0 / aside.length());
        let second = disc.normal.cross(first);
        let (tall, wide) = (plate.height(), plate.plate().semi_second);
        let mut found: Option<Mm> = None;
        for ring in 0..=RINGS {
            let out = disc.radius * f64::from(ring) / f64::from(RINGS);
            for step in 0..ROUND {
                let (sin, cos) = (f64::from(step) * TAU / f64::from(ROUND)).sin_cos();
                let point = disc.centre + first * (out * cos) + second * (out * sin);
                let at = plate.seen_from_hinge(point);
                let (n, v) = (at.n / tall - 1.0, at.v / wide);
                let shift = at.u - plate.cotangent() * at.n;
                if n * n + v * v <= (1.0 + share) * (1.0 + share) && shift >= 0.0 {
                    found = Some(found.map_or(shift, |most| most.max(shift)));
                }
            }
        }
        found
    }

    const RINGS: u32 = 80;
    const ROUND: u32 = 400;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(150))]

        /// A disc turned any way against a plate that leans any way, by its points.
        #[test]
        fn a_tilted_disc_is_drawn_back_as_far_as_its_points_ask(
            (n, u, v) in (-1.0..9.0, -4.0..10.0, -6.0..6.0),
            (a, b, c) in (-1.0..1.0, -1.0..1.0, -1.0..1.0_f64),
            radius in 1.0..5.0, lean in 40.0..140.0,
        ) {
            let normal = Vec3::new(a, b, c);
            prop_assume!(normal.length() > 0.1);
            let disc = RoundPlate {
                centre: Vec3::new(n, u, v),
                normal: normal * (1.0 / normal.length()),
                radius,
            };
            let plate = plate(lean);
            let found = largest(&disc, &plate, Accuracy::DEFAULT);
            if let Some(least) = largest_of_points(&disc, &plate, 0.0) {
                prop_assert!(found.is_some_and(|found| found >= least - 1e-6), "{found:?} {least}");
            }
            // No point of the disc is farther than this from one of those looked at.
            let apart = radius * (0.5 / f64::from(RINGS) + PI / f64::from(ROUND));
            let share = apart / plate.height().min(plate.plate().semi_second);
            let rate = (1.0 + plate.cotangent() * plate.cotangent()).sqrt();
            if let Some(found) = found {
                let most = largest_of_points(&disc, &plate, share);
                let most = most.map_or(apart * rate, |most| most + apart * rate);
                prop_assert!(found <= most, "{found} {most}");
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        #[test]
        fn a_flat_disc_has_a_closed_form(
            (radius, thickness, stand_off) in (1.0..10.0, 0.0..2.0, 0.0..2.0),
            (u, v) in (-6.0..6.0, -6.0..6.0),
            (rim, diameter, share) in (0.0..4.0, 6.0..20.0, 0.1..1.0),
            annulus_angle in degrees(45.0)..degrees(135.0),
        ) {
            let disc = SeatedDisc {
                face: Face::Right,
                radius,
                thickness,
                stand_off,
                centre: Vec2::new(u, v),
                tilt: Tilt::NONE,
            };
            let valve = AnnulusPlate {
                face: Face::Right,
                clock_position: 0.7,
                rim,
                diameter,
                diameter_across: diameter * share,
                annulus_angle,
                cusp_depth: 0.0,
            };
            let opening = Opening { centre: Vec2::ZERO, edge: Ellipse::circle(2.0) };
            let plate = valve.hinged(&opening);
            let expected = largest_if_flat(&disc, &valve, &plate);
            let found = largest(&disc.core(), &plate, Accuracy::DEFAULT);
            if let (Some(found), Some(expected)) = (found, expected) {
                prop_assert!((found - expected).abs() < 1e-6);
            } else {
                prop_assert_eq!(found, expected);
            }
        }
    }
}
