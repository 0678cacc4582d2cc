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

/// A disc parallel to a plate that leans passes it at one shift as well.
#[test]
fn a_disc_parallel_to_a_leaning_plate_passes_it_at_one_shift() {
    for lean in [50.0, 75.0, 110.0] {
        let plate = plate(lean);
        let (sin, cos) = degrees(lean).sin_cos();
        let disc = |n: f64, u: f64, v: f64| RoundPlate {
            centre: Vec3::new(n, 4.0 + plate.cotangent() * n + u, v),
            normal: Vec3::new(-cos, sin, 0.0),
            radius: 3.0,
        };
        for (shift, v) in [(0.25, 0.0), (2.0, 3.0), (2.0, -6.9), (30.0, 6.9)] {
            let there = largest(&disc(5.0 * sin, shift, v), &plate, Accuracy::DEFAULT);
            assert!(
                there.is_some_and(|there| (there - shift).abs() < 1e-6),
                "{lean} {there:?}"
            );
        }
        for v in [-7.1, 7.1] {
            let beside = largest(&disc(5.0 * sin, 2.0, v), &plate, Accuracy::DEFAULT);
            assert_eq!(beside, None, "{lean}");
        }
    }
}

/// A disc that stands on its edge toward the plate, square to it: the plate is then
/// a line as high as it is beside the disc's plane.
#[test]
fn a_disc_on_its_edge_meets_the_plate_along_a_line() {
    let plate = plate(90.0);
    let found = |n: f64, v: f64| {
        let disc = RoundPlate {
            centre: Vec3::new(n, 6.0, v),
            normal: Vec3::new(0.0, 0.0, 1.0),
            radius: 3.0,
        };
        largest(&disc, &plate, Accuracy::DEFAULT)
    };
    // Its farthest point is 5 mm past the hinge; 2 mm above the plate's end or below
    // its hinge √(3² − 2²) of it are left.
    for (n, v, expected) in [
        (5.0, 0.0, 5.0),
        (5.0, 3.9, 5.0),
        (5.0, -3.9, 5.0),
        (12.0, 0.0, 2.0 + 5.0_f64.sqrt()),
        (-2.0, 0.0, 2.0 + 5.0_f64.sqrt()),
    ] {
        let there = found(n, v).unwrap();
        assert!((there - expected).abs() < 2e-6, "{n} {v}: {there}");
    }
    for (n, v) in [(5.0, 4.1), (5.0, -4.1), (13.1, 0.0), (-3.1, 0.0)] {
        assert_eq!(found(n, v), None, "{n} {v}");
    }
}

/// The shift is at most the accuracy below the true one, however coarse that is.
#[test]
fn a_coarse_accuracy_is_kept() {
    for lean in [35.0, 60.0, 120.0, 145.0] {
        for step in 0..60 {
            let tilt = 0.05 * f64::from(step);
            let disc = RoundPlate {
                centre: Vec3::new(1.0 + 0.1 * f64::from(step), 7.0, 2.5),
                normal: Vec3::new(tilt.cos(), tilt.sin() * 0.8, tilt.sin() * 0.6),
                radius: 3.0,
            };
            let found = |accuracy| {
                largest(&disc, &plate(lean), Accuracy::new(accuracy).unwrap()).unwrap_or(0.0)
            };
            let (fine, coarse) = (found(1e-9), found(0.3));
            assert!(
                (0.0..=0.3).contains(&(fine - coarse)),
                "{lean} {step}: {fine} {coarse}"
            );
        }
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
