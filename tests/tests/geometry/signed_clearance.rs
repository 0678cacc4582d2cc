//! The signed clearance against a search over the shift that knows nothing but
//! the distance of two plates.

use geometry::clearance::signed_clearance;
use geometry::{
    Accuracy, AnnulusPlate, Ellipse, Face, HingedPlate, Opening, RoundPlate, SeatedDisc, Tilt,
    Vec2, Vec3, degrees, plate_distance,
};

use outside::stream::Stream;

const SCENES: usize = 3000;

/// Beyond every disc and plate drawn here.
const FAR: f64 = 60.0;

fn point(stream: &mut Stream, reach: f64) -> Vec2 {
    Vec2::new(stream.between(-reach, reach), stream.between(-reach, reach))
}

/// Random discs beside random valves; every third disc is not tilted.
fn scenes() -> impl Iterator<Item = (SeatedDisc, AnnulusPlate, Opening)> {
    let mut stream = Stream(7);
    (0..SCENES).map(move |i| {
        let semi_major = stream.between(1.0, 5.0);
        let opening = Opening {
            centre: point(&mut stream, 1.0),
            edge: Ellipse {
                semi_major,
                semi_minor: semi_major * stream.between(0.3, 1.0),
                rotation: stream.between(0.0, 3.0),
            },
        };
        let diameter = stream.between(5.0, 20.0);
        let face = if i % 2 == 0 { Face::Left } else { Face::Right };
        let valve = AnnulusPlate {
            face,
            clock_position: degrees(stream.between(0.0, 360.0)),
            rim: stream.between(0.0, 7.0),
            diameter,
            diameter_across: diameter * stream.between(0.1, 1.0),
            annulus_angle: degrees(stream.between(45.0, 135.0)),
            cusp_depth: stream.between(0.0, 1.0),
        };
        let tilt = if i % 3 == 0 {
            Tilt::NONE
        } else {
            Tilt {
                angle: degrees(stream.between(0.0, 20.0)),
                direction: degrees(stream.between(0.0, 360.0)),
            }
        };
        let disc = SeatedDisc {
            face,
            radius: stream.between(1.0, 10.0),
            thickness: stream.between(0.0, 2.0),
            stand_off: stream.between(0.0, 3.0),
            centre: point(&mut stream, 4.0),
            tilt,
        };
        (disc, valve, opening)
    })
}

/// A thousandth of what the program asks for.
fn accuracy() -> Accuracy {
    Accuracy::new(1e-9).unwrap_or_default()
}

/// The distance of D(x) from A.
fn distance_after(shift: f64, core: &RoundPlate, plate: &HingedPlate) -> f64 {
    let moved = RoundPlate {
        centre: core.centre - Vec3::from_wall(0.0, plate.radial() * shift),
        ..*core
    };
    plate_distance(&moved, plate.plate(), accuracy()).distance
}

/// The shift x in 0 ≤ x ≤ FAR at which D(x) comes nearest A: the distance is
/// convex in x.
fn nearest_shift(core: &RoundPlate, plate: &HingedPlate) -> f64 {
    const SHARE: f64 = 0.618_033_988_749_894_9;
    const WIDTH: f64 = 1e-9;
    let (mut low, mut high) = (0.0, FAR);
    while high - low > WIDTH {
        let (left, right) = (high - SHARE * (high - low), low + SHARE * (high - low));
        let (at_left, at_right) = (
            distance_after(left, core, plate),
            distance_after(right, core, plate),
        );
        if at_left == 0.0 {
            return left;
        }
        if at_left <= at_right {
            high = right;
        } else {
            low = left;
        }
    }
    low
}

/// The largest x ≥ 0 at which D(x) meets A, by halving.
fn largest_shift(core: &RoundPlate, plate: &HingedPlate) -> Option<f64> {
    const WIDTH: f64 = 1e-9;
    let mut low = [0.0, nearest_shift(core, plate)]
        .into_iter()
        .find(|shift| distance_after(*shift, core, plate) == 0.0)?;
    let mut high = FAR;
    while high - low > WIDTH {
        let middle = 0.5 * (low + high);
        if distance_after(middle, core, plate) == 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(low)
}

#[test]
fn the_largest_shift_is_found() {
    /// The accuracy asked for, and the width of the last halving.
    const BOUND: f64 = 2e-9;
    let mut worst: f64 = 0.0;
    let (mut overlapping, mut apart) = (0, 0);
    for (disc, valve, opening) in scenes() {
        let plate = valve.hinged(&opening);
        let core = disc.core();
        let without_thickness = if let Some(shift) = largest_shift(&core, &plate) {
            overlapping += 1;
            -shift
        } else {
            apart += 1;
            distance_after(0.0, &core, &plate)
        };
        let expected = without_thickness - 0.5 * disc.thickness - valve.cusp_depth;
        let found = signed_clearance(&disc, &plate, accuracy());
        let error = (found - expected).abs();
        worst = worst.max(error);
        assert!(
            error <= BOUND,
            "{found} for {expected}: {disc:?} {valve:?} {opening:?}"
        );
    }
    println!("{overlapping} overlapping, {apart} apart; largest difference {worst:e} mm");
    assert!(overlapping > SCENES / 4 && apart > SCENES / 4);
}
