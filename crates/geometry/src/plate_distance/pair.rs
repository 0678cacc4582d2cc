use crate::{Mm, Plate, RoundPlate, Vec3};

/// A round plate D and an elliptical plate A, as the searches need them.
pub(super) struct Pair {
    /// m: unit normal of D.
    normal: Vec3,
    /// ρ: radius of D.
    radius: Mm,
    /// c − p: A's centre from D's.
    between: Vec3,
    /// X: A's first semi-axis as a vector.
    first: Vec3,
    /// Y: A's second semi-axis as a vector.
    second: Vec3,
}

/// (cos φ, sin φ): a point of A's rim.
pub(super) type Rim = (f64, f64);

/// A point z of A, and D as seen from there.
#[derive(Clone, Copy)]
pub(super) struct View {
    /// z − p: the point from D's centre.
    pub(super) from_round: Vec3,
    /// The point from D's nearest point.
    pub(super) away: Vec3,
    /// f(z): the length of `away`.
    pub(super) distance: Mm,
    /// G: how f rises with x and with y; 0 when the point lies in D.
    pub(super) slope: (f64, f64),
    /// r − ρ where it is positive, else 0.
    beyond: Mm,
    /// w/r where r > ρ, else 0.
    outward: Vec3,
    /// 1/r where r > ρ, else 0.
    curvature: f64,
    /// h: height of the point over D's plane.
    height: Mm,
}

impl Pair {
    pub(super) fn new(round: &RoundPlate, plate: &Plate) -> Self {
        Self {
            normal: round.normal,
            radius: round.radius,
            between: plate.centre - round.centre,
            first: plate.first * plate.semi_first,
            second: plate.second * plate.semi_second,
        }
    }

    /// D as seen from the point c + X x + Y y.
    pub(super) fn view(&self, (x, y): (f64, f64)) -> View {
        let from_round = self.between + self.first * x + self.second * y;
        let height = self.normal.dot(from_round);
        let along = from_round - self.normal * height;
        let from_axis = along.length();
        let is_beyond = from_axis > self.radius;
        let curvature = if is_beyond { 1.0 / from_axis } else { 0.0 };
        let beyond = if is_beyond {
            from_axis - self.radius
        } else {
            0.0
        };
        let outward = along * curvature;
        let away = self.normal * height + outward * beyond;
        let distance = (height * height + beyond * beyond).sqrt();
        let slope = if distance > 0.0 {
            (
                self.first.dot(away) / distance,
                self.second.dot(away) / distance,
            )
        } else {
            (0.0, 0.0)
        };
        View {
            from_round,
            away,
            distance,
            slope,
            beyond,
            outward,
            curvature,
            height,
        }
    }

    /// The rim point of A nearest D's plane.
    pub(super) fn lowest_on_rim(&self) -> Rim {
        let side = if self.normal.dot(self.between) < 0.0 {
            -1.0
        } else {
            1.0
        };
        against((
            side * self.normal.dot(self.first),
            side * self.normal.dot(self.second),
        ))
    }

    /// Newton's step of φ for ½f² on the rim; endless and downhill where ½f²
    /// does not curve up.
    pub(super) fn rim_step(&self, view: &View, (cos, sin): Rim) -> f64 {
        let velocity = self.second * cos - self.first * sin;
        let inward = self.between - view.from_round;
        let climb = self.normal.dot(velocity);
        let spread = view.outward.dot(velocity);
        let along = velocity.dot(velocity) - climb * climb;
        let bend = view.outward.dot(inward) + view.curvature * (along - spread * spread);
        let first = view.height * climb + view.beyond * spread;
        let second = climb * climb
            + view.height * self.normal.dot(inward)
            + spread * spread
            + view.beyond * bend;
        if second > 0.0 {
            -first / second
        } else {
            -f64::INFINITY.copysign(first)
        }
    }
}

impl View {
    /// The most by which `distance`, seen from (x, y), can exceed the least
    /// over A.
    pub(super) fn excess(&self, (x, y): (f64, f64)) -> Mm {
        let (gx, gy) = self.slope;
        let bound = gx * x + gy * y + (gx * gx + gy * gy).sqrt();
        bound.clamp(0.0, self.distance)
    }
}

/// The point of the unit circle farthest against a slope; (1, 0) for none.
pub(super) fn against((x, y): (f64, f64)) -> Rim {
    let length = (x * x + y * y).sqrt();
    if length > 0.0 {
        (-x / length, -y / length)
    } else {
        (1.0, 0.0)
    }
}
