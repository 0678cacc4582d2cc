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
mod tests;
