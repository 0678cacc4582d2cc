//! The distance of a round from an elliptical plate, on random poses, against
//! three independent witnesses.

use geometry::{Accuracy, Plate, RoundPlate, Separation, Vec3, plate_distance};
use outside::stream::Stream;
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::details::distance_support_map_support_map;
use parry3d_f64::shape::SupportMap;

const POSES: usize = 2000;

fn direction(stream: &mut Stream) -> Vec3 {
    loop {
        let vector = Vec3::new(
            stream.between(-1.0, 1.0),
            stream.between(-1.0, 1.0),
            stream.between(-1.0, 1.0),
        );
        let length = vector.length();
        if (0.1..=1.0).contains(&length) {
            return vector * (1.0 / length);
        }
    }
}

/// Two unit vectors at right angles.
fn axes(stream: &mut Stream) -> (Vec3, Vec3) {
    loop {
        let first = direction(stream);
        let across = first.cross(direction(stream));
        if across.length() > 0.1 {
            return (first, across * (1.0 / across.length()));
        }
    }
}

/// Random poses: every fourth plate a needle, every tenth pair parallel, every
/// twentieth in one plane.
fn poses() -> impl Iterator<Item = (RoundPlate, Plate)> {
    let mut stream = Stream(2024);
    (0..POSES).map(move |i| {
        let (first, second) = axes(&mut stream);
        let semi_first = stream.between(1.0, 10.0);
        let ratio = if i % 4 == 0 {
            0.02
        } else {
            stream.between(0.02, 1.0)
        };
        let normal = if i % 10 == 0 {
            first.cross(second)
        } else {
            direction(&mut stream)
        };
        let offset = direction(&mut stream) * stream.between(0.0, 20.0);
        let centre = if i % 20 == 0 {
            offset - normal * normal.dot(offset)
        } else {
            offset
        };
        let radius = stream.between(0.2, 8.0);
        let round = RoundPlate {
            centre: Vec3::new(1.0, -2.0, 3.0),
            normal,
            radius,
        };
        let plate = Plate {
            centre: round.centre + centre,
            first,
            second,
            semi_first,
            semi_second: semi_first * ratio,
        };
        (round, plate)
    })
}

/// A thousandth of what the program asks for, so that the witnesses are put to
/// the proof as well.
fn separation(round: &RoundPlate, plate: &Plate) -> Separation {
    plate_distance(round, plate, Accuracy::new(1e-9).unwrap_or_default())
}

/// For every unit vector g the plates are at least as far apart as their
/// shadows on g. The shadow along the line of the nearest points must be as
/// long as the distance: a proof of each answer that uses no search.
#[test]
fn the_nearest_points_prove_themselves() {
    /// The accuracy asked for, and rounding.
    const BOUND: f64 = 1.1e-9;
    let mut worst: f64 = 0.0;
    for (round, plate) in poses() {
        let found = separation(&round, &plate);
        if found.distance < BOUND {
            continue;
        }
        let line = found.on_plate - found.on_round;
        let g = line * (1.0 / line.length());
        let in_round = g - round.normal * round.normal.dot(g);
        let half_shadow_of_plate =
            (plate.semi_first * plate.first.dot(g)).hypot(plate.semi_second * plate.second.dot(g));
        let shadow = g.dot(plate.centre - round.centre)
            - round.radius * in_round.length()
            - half_shadow_of_plate;
        worst = worst.max((found.distance - shadow).abs());
    }
    println!("largest gap between distance and shadow: {worst:e} mm");
    assert!(worst < BOUND, "{worst:e}");
}

/// Distance of a point from the elliptical plate, by bisection of the secular
/// equation (a x/(s + a²))² + (b y/(s + b²))² = 1.
fn distance_from_plate(point: Vec3, plate: &Plate) -> f64 {
    let from_centre = point - plate.centre;
    let height = from_centre.dot(plate.first.cross(plate.second));
    let (x, y) = (from_centre.dot(plate.first), from_centre.dot(plate.second));
    let (a, b) = (plate.semi_first, plate.semi_second);
    let outside = |s: f64| (a * x / (s + a * a)).hypot(b * y / (s + b * b)) > 1.0;
    if !outside(0.0) {
        return height.abs();
    }
    let (mut low, mut high) = (0.0, (a * x).hypot(b * y));
    while high - low > 1e-15 * (high + b * b) {
        let s = 0.5 * (low + high);
        if s <= low || s >= high {
            break;
        }
        if outside(s) { low = s } else { high = s }
    }
    let s = 0.5 * (low + high);
    height.hypot((x * s / (s + a * a)).hypot(y * s / (s + b * b)))
}

/// The least value of a convex function, by golden section.
fn least(mut low: f64, mut high: f64, width: f64, f: impl Fn(f64) -> f64) -> f64 {
    const SHARE: f64 = 0.618_033_988_749_894_9;
    let mut left = high - SHARE * (high - low);
    let mut right = low + SHARE * (high - low);
    let (mut at_left, mut at_right) = (f(left), f(right));
    while high - low > width {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - SHARE * (high - low);
            at_left = f(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + SHARE * (high - low);
            at_right = f(right);
        }
    }
    at_left.min(at_right)
}

/// The plates' distance with the roles exchanged: golden section over chords of
/// the round plate, and along each chord, of the distance from the elliptical
/// one.
fn by_golden_section(round: &RoundPlate, plate: &Plate) -> f64 {
    const WIDTH: f64 = 1e-8;
    let aside = plate.first.cross(round.normal);
    let across = if aside.length() > 0.1 {
        aside
    } else {
        plate.second.cross(round.normal)
    };
    let across = across * (1.0 / across.length());
    let along = round.normal.cross(across);
    least(-round.radius, round.radius, WIDTH, |x| {
        let reach = (round.radius * round.radius - x * x).sqrt();
        least(-reach, reach, WIDTH, |y| {
            distance_from_plate(round.centre + along * x + across * y, plate)
        })
    })
}

#[test]
fn golden_section_over_the_round_plate_agrees() {
    /// Golden section's own: the width at which it stops.
    const BOUND: f64 = 1e-8;
    let mut worst: f64 = 0.0;
    for (round, plate) in poses() {
        let ours = separation(&round, &plate).distance;
        let theirs = by_golden_section(&round, &plate);
        worst = worst.max((ours - theirs).abs());
        assert!(
            (ours - theirs).abs() <= BOUND,
            "{ours} {theirs} {round:?} {plate:?}"
        );
    }
    println!("largest difference from golden section: {worst:e} mm");
}

struct Flat {
    first: Vector,
    second: Vector,
}

impl SupportMap for Flat {
    fn local_support_point(&self, direction: Vector) -> Vector {
        let (x, y) = (self.first.dot(direction), self.second.dot(direction));
        let length = x.hypot(y);
        if length == 0.0 {
            Vector::ZERO
        } else {
            (self.first * x + self.second * y) * (1.0 / length)
        }
    }
}

fn vector(vector: Vec3) -> Vector {
    Vector::new(vector.n, vector.u, vector.v)
}

/// parry's GJK with exact supports stops when its bounds agree to about 5e-8 of
/// the distance, or no longer get closer; what it returns is never nearer than
/// the truth. Where its rounds run out it says 0, as it does for NaN: no
/// witness, and asserted not to happen.
#[test]
fn parry_agrees() {
    const PARRY: f64 = 5e-6;
    /// The accuracy asked for, and rounding.
    const OURS: f64 = 2e-9;
    let mut worst: f64 = 0.0;
    for (round, plate) in poses() {
        let ours = separation(&round, &plate).distance;
        let (first, second) = square_to(round.normal);
        let disc = Flat {
            first: vector(first) * round.radius,
            second: vector(second) * round.radius,
        };
        let ellipse = Flat {
            first: vector(plate.first) * plate.semi_first,
            second: vector(plate.second) * plate.semi_second,
        };
        let pose = Pose::from_translation(vector(plate.centre - round.centre));
        let theirs = distance_support_map_support_map(&pose, &disc, &ellipse);
        let difference = theirs - ours;
        worst = worst.max(difference.abs());
        assert!(difference > -OURS, "{ours} {theirs} {round:?} {plate:?}");
        assert!(difference < PARRY, "{ours} {theirs} {round:?} {plate:?}");
    }
    println!("largest difference from parry: {worst:e} mm");
}

/// Two unit vectors at right angles to a unit vector and to each other.
fn square_to(normal: Vec3) -> (Vec3, Vec3) {
    let helper = if normal.n.abs() < 0.8 {
        Vec3::new(1.0, 0.0, 0.0)
    } else {
        Vec3::new(0.0, 1.0, 0.0)
    };
    let first = normal.cross(helper);
    let first = first * (1.0 / first.length());
    (first, normal.cross(first))
}
