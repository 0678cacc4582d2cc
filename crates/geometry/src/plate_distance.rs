mod chords;
mod closed;
mod pair;
mod rim;

use crate::{Accuracy, Mm, Plate, RoundPlate, Vec3};
use pair::Pair;

/// How far two plates stand apart, and where they come nearest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Separation {
    /// The distance, 0 when the plates meet.
    pub distance: Mm,
    /// The nearest point of the round plate.
    pub on_round: Vec3,
    /// The nearest point of the elliptical plate; `on_round` itself, within
    /// the accuracy, when they meet.
    pub on_plate: Vec3,
}

/// The distance between a round and an elliptical plate, at most `accuracy`
/// above the true one, in every pose.
///
/// With D the round plate (centre p, unit normal m, radius ρ), the distance of
/// a point z from D is closed form: h = m·(z − p), w = z − p − h m, r = |w|, and
/// f(z)² = h² + max(0, r − ρ)². f is convex; the plates' distance is its least
/// value over the ellipse A = {c + X x + Y y : x² + y² ≤ 1}, X and Y being the
/// semi-axes as vectors.
///
/// 1. Closed form where D crosses A's plane in a chord that meets A, or where
///    D's nearest point to that plane stands over A.
/// 2. Else the least value is on A's rim, z(φ) = c + X cos φ + Y sin φ: Newton's
///    method on ½f², with the rim's direction (cos φ, sin φ) turned by the step
///    so that no trigonometric function is called.
/// 3. f lies above its tangent plane at any z: with g = ∇f(z) and
///    G = (g·X, g·Y), f ≥ f(z) + g·(c − z) − |G| all over A. So
///    f(z) − (G·(x, y) + |G|) bounds the distance from below (it is the dual
///    bound g·(c − p) − ρ|e| − |G|, e the part of g along D, in the form that
///    does not cancel when D's interior is nearest). The answer is accepted only
///    when the two bounds agree; a wrong basin cannot pass, and the rim point
///    −G/|G| where the tangent plane is lowest is where the search starts anew.
/// 4. Should that fail, a nested bisection over A's chords, which convexity
///    alone carries to the end.
pub fn plate_distance(round: &RoundPlate, plate: &Plate, accuracy: Accuracy) -> Separation {
    if let Some(separation) = closed::separation(round, plate) {
        return separation;
    }
    let pair = Pair::new(round, plate);
    let nearest =
        rim::nearest(&pair, accuracy.mm()).unwrap_or_else(|| chords::nearest(&pair, accuracy.mm()));
    let on_plate = round.centre + nearest.from_round;
    Separation {
        distance: nearest.distance,
        on_round: on_plate - nearest.away,
        on_plate,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LIES: RoundPlate = RoundPlate {
        centre: Vec3::ZERO,
        normal: Vec3::new(1.0, 0.0, 0.0),
        radius: 3.0,
    };

    fn flat(centre: Vec3, semi_first: Mm, semi_second: Mm) -> Plate {
        Plate {
            centre,
            first: Vec3::new(0.0, 1.0, 0.0),
            second: Vec3::new(0.0, 0.0, 1.0),
            semi_first,
            semi_second,
        }
    }

    fn distance(round: &RoundPlate, plate: &Plate) -> Mm {
        plate_distance(round, plate, Accuracy::DEFAULT).distance
    }

    fn unit(vector: Vec3) -> Option<Vec3> {
        let length = vector.length();
        (length > 0.1).then(|| vector * (1.0 / length))
    }

    fn any_vector(reach: Mm) -> impl Strategy<Value = Vec3> {
        (-reach..reach, -reach..reach, -reach..reach).prop_map(|(n, u, v)| Vec3::new(n, u, v))
    }

    fn any_unit() -> impl Strategy<Value = Vec3> {
        any_vector(1.0).prop_filter_map("too short to point anywhere", unit)
    }

    /// Any pose; a third of the plates are needles, some are segments.
    fn any_pose() -> impl Strategy<Value = (RoundPlate, Plate)> {
        let ratio = prop_oneof![Just(0.0), Just(0.02), 0.02..1.0];
        let radius = prop_oneof![1 => Just(0.0), 4 => 0.1..8.0];
        (
            any_unit(),
            radius,
            any_vector(15.0),
            any_unit(),
            any_unit(),
            0.1..10.0,
            ratio,
        )
            .prop_filter_map(
                "axes too nearly parallel",
                |(normal, radius, c, x, y, a, ratio)| {
                    let second = unit(x.cross(y))?;
                    let plate = Plate {
                        centre: c,
                        first: x,
                        second,
                        semi_first: a,
                        semi_second: a * ratio,
                    };
                    Some((
                        RoundPlate {
                            centre: Vec3::ZERO,
                            normal,
                            radius,
                        },
                        plate,
                    ))
                },
            )
    }

    #[test]
    fn side_by_side_in_one_plane() {
        assert!((distance(&LIES, &flat(Vec3::new(0.0, 10.0, 0.0), 4.0, 2.0)) - 3.0).abs() < 1e-6);
        assert!((distance(&LIES, &flat(Vec3::new(0.0, 0.0, 10.0), 4.0, 2.0)) - 5.0).abs() < 1e-6);
        assert_eq!(
            distance(&LIES, &flat(Vec3::new(0.0, 6.0, 0.0), 4.0, 2.0)),
            0.0
        );
        assert_eq!(distance(&LIES, &flat(Vec3::ZERO, 1.0, 0.5)), 0.0);
        assert_eq!(distance(&LIES, &flat(Vec3::ZERO, 9.0, 8.0)), 0.0);
    }

    #[test]
    fn one_above_the_other() {
        assert_eq!(
            distance(&LIES, &flat(Vec3::new(2.0, 1.0, 0.0), 1.0, 1.0)),
            2.0
        );
        assert_eq!(
            distance(&LIES, &flat(Vec3::new(2.0, 4.0, 0.0), 4.0, 2.0)),
            2.0
        );
        let apart = distance(&LIES, &flat(Vec3::new(4.0, 10.0, 0.0), 4.0, 2.0));
        assert!((apart - 5.0).abs() < 1e-6, "{apart}");
    }

    #[test]
    fn points_and_segments() {
        let point = RoundPlate {
            radius: 0.0,
            ..LIES
        };
        let segment = flat(Vec3::new(3.0, 8.0, 0.0), 4.0, 0.0);
        assert!((distance(&point, &segment) - 5.0).abs() < 1e-6);
        assert!((distance(&LIES, &flat(Vec3::new(4.0, 6.0, 0.0), 0.0, 0.0)) - 5.0).abs() < 1e-6);
        // A segment square to the disc, through it.
        let through = Plate {
            first: Vec3::new(1.0, 0.0, 0.0),
            ..flat(Vec3::ZERO, 4.0, 0.0)
        };
        assert!(distance(&LIES, &through) <= 1e-6);
    }

    proptest! {
        #[test]
        fn the_nearest_points_are_where_they_should_be((round, plate) in any_pose()) {
            let found = plate_distance(&round, &plate, Accuracy::DEFAULT);
            let gap = (found.on_round - found.on_plate).length();
            prop_assert!((gap - found.distance).abs() < 1e-9, "{gap} {}", found.distance);
            let from_round = found.on_round - round.centre;
            prop_assert!(from_round.dot(round.normal).abs() < 1e-9);
            prop_assert!(from_round.length() < round.radius + 1e-9);
            let from_plate = found.on_plate - plate.centre;
            let (x, y) = (from_plate.dot(plate.first), from_plate.dot(plate.second));
            prop_assert!(from_plate.dot(plate.normal()).abs() < 1e-9);
            prop_assert!(x.abs() <= plate.semi_first + 1e-9 && y.abs() <= plate.semi_second + 1e-9);
            let (a, b) = (plate.semi_first, plate.semi_second);
            prop_assert!(libm::hypot(x * b, y * a) <= a * b + 1e-9 * a);
        }

        #[test]
        fn both_searches_agree((round, plate) in any_pose()) {
            let accuracy = Accuracy::DEFAULT.mm();
            let pair = Pair::new(&round, &plate);
            let by_chords = chords::nearest(&pair, accuracy).distance;
            let gap = by_chords - distance(&round, &plate);
            prop_assert!(gap.abs() <= accuracy, "{gap:e}");
            if let Some(by_rim) = rim::nearest(&pair, accuracy) {
                prop_assert!(by_rim.distance >= by_chords - accuracy);
            }
        }

        #[test]
        fn everything_k_times_larger_is_k_times_as_far(
            (round, plate) in any_pose(), k in 0.1..10.0_f64,
        ) {
            let large_round =
                RoundPlate { centre: round.centre * k, radius: round.radius * k, ..round };
            let large_plate = Plate {
                centre: plate.centre * k,
                semi_first: plate.semi_first * k,
                semi_second: plate.semi_second * k,
                ..plate
            };
            let gap = distance(&large_round, &large_plate) - k * distance(&round, &plate);
            prop_assert!(gap.abs() <= 1e-6 * k.max(1.0) + 1e-12, "{gap:e}");
        }

        #[test]
        fn a_move_changes_it_by_no_more_than_itself(
            (round, plate) in any_pose(), step in any_vector(1.0),
        ) {
            let moved = Plate { centre: plate.centre + step, ..plate };
            let change = distance(&round, &moved) - distance(&round, &plate);
            prop_assert!(change.abs() <= step.length() + 1e-6, "{change}");
        }
    }
}
