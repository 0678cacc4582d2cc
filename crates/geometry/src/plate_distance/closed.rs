use super::Separation;
use crate::{Plate, RoundPlate, Vec3};

/// Sine of the angle below which the plates count as parallel: the direction in
/// which they part would be rounding, and the height it hides is less than ρ
/// times this.
const PARALLEL: f64 = 1e-12;

/// The separation where no search is needed: the plates cross, or the round
/// plate's nearest point stands over the inside of the elliptical one.
pub(super) fn separation(round: &RoundPlate, plate: &Plate) -> Option<Separation> {
    let normal = plate.normal();
    let height = normal.dot(round.centre - plate.centre);
    // Up the round plate, as its own plane allows; its length is the sine of
    // the angle between the planes.
    let up = normal - round.normal * round.normal.dot(normal);
    let sine = up.length();
    let (up, sine) = if sine > PARALLEL {
        (up * (1.0 / sine), sine)
    } else {
        (Vec3::ZERO, 0.0)
    };
    let lift = height.abs() - round.radius * sine;
    if lift < 0.0 {
        return crossing(round, plate, height, up, sine);
    }
    let side = if height < 0.0 { -1.0 } else { 1.0 };
    let on_round = round.centre - up * (round.radius * side);
    let on_plate = on_round - normal * (lift * side);
    plate.covers(on_plate).then_some(Separation {
        distance: lift,
        on_round,
        on_plate,
    })
}

/// A point that both plates share, where the elliptical plate's plane cuts the
/// round one in a chord.
fn crossing(
    round: &RoundPlate,
    plate: &Plate,
    height: f64,
    up: Vec3,
    sine: f64,
) -> Option<Separation> {
    let from_middle = height / sine;
    // Not ρ² − x²: near the rim that difference loses its digits.
    let half = ((round.radius - from_middle) * (round.radius + from_middle)).sqrt();
    let middle = round.centre - up * from_middle;
    let along = round.normal.cross(up);
    // In units of the semi-axes the plate is the unit circle. A plate without
    // width gives no number here, so no crossing, and the search finds it.
    let scaled = |vector: Vec3| {
        (
            vector.dot(plate.first) / plate.semi_first,
            vector.dot(plate.second) / plate.semi_second,
        )
    };
    let (x, y) = scaled(middle - plate.centre);
    let (dx, dy) = scaled(along);
    let nearest = (-(x * dx + y * dy) / (dx * dx + dy * dy))
        .max(-half)
        .min(half);
    let (x, y) = (x + dx * nearest, y + dy * nearest);
    let shared = middle + along * nearest;
    (x * x + y * y <= 1.0).then_some(Separation {
        distance: 0.0,
        on_round: shared,
        on_plate: shared,
    })
}
