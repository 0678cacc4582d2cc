use super::pair::{Pair, Rim, View, against};
use crate::Mm;

/// Starting points before the search gives up: of 200,000 random poses some 300
/// needed a second one, and one went past the third.
const STARTS: usize = 3;

/// Steps from one starting point: Newton's method takes about four, and where
/// D's rim bends the curvature a few halvings come first.
const STEPS: usize = 16;

/// The longest step, as the tangent of the angle by which φ turns.
const LONGEST_STEP: f64 = 1.0;

/// The point of A's rim nearest D, or `None` when no start led to a point that
/// is proved nearest within `accuracy`.
pub(super) fn nearest(pair: &Pair, accuracy: Mm) -> Option<View> {
    let start = pair.lowest_on_rim();
    let mut view = pair.view(start);
    if view.excess(start) <= accuracy {
        return Some(view);
    }
    for _ in 0..STARTS {
        let start = against(view.slope);
        view = match descent(pair, start, accuracy) {
            Ok(nearest) => return Some(nearest),
            Err(last) => last,
        };
    }
    None
}

/// Newton's method down the rim, held between the nearest points from which
/// it went forward and back; the last view when it ends in a wrong basin.
fn descent(pair: &Pair, start: Rim, accuracy: Mm) -> Result<View, View> {
    let (mut behind, mut ahead) = (None, None);
    let mut rim = start;
    let mut view = pair.view(rim);
    for _ in 0..STEPS {
        if view.excess(rim) <= accuracy {
            return Ok(view);
        }
        let step = pair.rim_step(&view, rim).clamp(-LONGEST_STEP, LONGEST_STEP);
        if step >= 0.0 {
            behind = Some(rim);
        } else {
            ahead = Some(rim);
        }
        rim = turned(rim, step);
        if let (Some(behind), Some(ahead)) = (behind, ahead)
            && (cross(behind, rim) < 0.0 || cross(rim, ahead) < 0.0)
        {
            rim = against((-behind.0 - ahead.0, -behind.1 - ahead.1));
        }
        view = pair.view(rim);
    }
    Err(view)
}

/// A rim point turned by the angle with the given tangent.
fn turned((cos, sin): Rim, step: f64) -> Rim {
    let scale = 1.0 / (1.0 + step * step).sqrt();
    ((cos - step * sin) * scale, (sin + step * cos) * scale)
}

/// Positive when `other` lies less than half a turn ahead.
fn cross(one: Rim, other: Rim) -> f64 {
    one.0 * other.1 - one.1 * other.0
}
