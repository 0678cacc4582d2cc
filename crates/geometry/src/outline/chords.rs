use super::section_point::SectionPoint;
use crate::{Accuracy, Mm, Radians};
use std::f64::consts::{FRAC_PI_2, TAU};

/// The fewest chords that still look like a turn.
const FEWEST: f64 = 12.0;

/// The most chords a turn is cut into, so that a picture always ends.
const MOST: f64 = 100_000.0;

/// Equal steps of angle round a whole turn of an ellipse no longer than
/// `semi_axis`, so fine that no chord strays by more than `accuracy`.
///
/// A chord over 2φ strays from a circle by r(1 − cos φ), and from an ellipse, a
/// circle pressed flat, by less.
pub(super) fn steps_round(semi_axis: Mm, accuracy: Accuracy) -> impl Iterator<Item = Radians> {
    let share = accuracy.mm() / semi_axis.max(f64::MIN_POSITIVE);
    let half = if share < 1.0 {
        libm::acos(1.0 - share)
    } else {
        FRAC_PI_2
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "bounded"
    )]
    let count = (0.5 * TAU / half).ceil().clamp(FEWEST, MOST) as u32;
    let step = TAU / f64::from(count);
    (0..count).map(move |index| f64::from(index) * step)
}

/// How often a stretch of a curve is halved at most, so that a picture always
/// ends.
const HALVINGS: u32 = 20;

/// Points along a smooth curve from one parameter to another, so close that no
/// chord strays from it by more than `accuracy`.
pub(super) fn chords_along(
    curve: &impl Fn(f64) -> SectionPoint,
    [from, to]: [f64; 2],
    accuracy: Accuracy,
) -> Vec<SectionPoint> {
    let mut points = vec![curve(from)];
    halve(
        curve,
        [from, to],
        [curve(from), curve(to)],
        accuracy,
        HALVINGS,
        &mut points,
    );
    points
}

fn halve(
    curve: &impl Fn(f64) -> SectionPoint,
    [from, to]: [f64; 2],
    [start, end]: [SectionPoint; 2],
    accuracy: Accuracy,
    halvings: u32,
    points: &mut Vec<SectionPoint>,
) {
    let between = 0.5 * (from + to);
    let middle = curve(between);
    // The curve may stray somewhat more beside the middle of the parameter:
    // half of what is asked for is left for that.
    let close = straying(start, middle, end) <= 0.5 * accuracy.mm();
    if halvings == 0 || close && halvings < HALVINGS {
        points.push(end);
        return;
    }
    halve(
        curve,
        [from, between],
        [start, middle],
        accuracy,
        halvings - 1,
        points,
    );
    halve(
        curve,
        [between, to],
        [middle, end],
        accuracy,
        halvings - 1,
        points,
    );
}

/// Distance of `middle` from the line through `start` and `end`.
fn straying(start: SectionPoint, middle: SectionPoint, end: SectionPoint) -> Mm {
    let (n, r) = (end.n - start.n, end.r - start.r);
    let (from_n, from_r) = (middle.n - start.n, middle.r - start.r);
    let length = libm::hypot(n, r);
    if length == 0.0 {
        libm::hypot(from_n, from_r)
    } else {
        (n * from_r - r * from_n).abs() / length
    }
}
