use super::pair::{Pair, View};
use crate::Mm;

/// Halvings of an interval of length 2: down to the spacing of `f64` near 1.
const HALVINGS: usize = 54;

/// The point of A nearest D, by bisection over A's chords of constant x and,
/// on each, over y.
///
/// Along a chord f is convex, so the sign of its slope tells the side of the
/// least value; that least value is convex in x, and its slope is the slope of
/// f along x, or along the rim where the least value lies on the rim.
pub(super) fn nearest(pair: &Pair, accuracy: Mm) -> View {
    let (mut low, mut high) = (-1.0, 1.0);
    let mut best = pair.view((0.0, 0.0));
    for _ in 0..HALVINGS {
        let x = 0.5 * (low + high);
        let (view, y) = nearest_on_chord(pair, x);
        if view.distance < best.distance {
            best = view;
        }
        if view.excess((x, y)) <= accuracy {
            return view;
        }
        let (gx, gy) = view.slope;
        let reach = half_chord(x);
        // On the rim x² + y² = 1, y moves by −x/y for each unit of x.
        let rise = if y.abs() < reach {
            gx
        } else {
            gx * y.abs() - gy * x * y.signum()
        };
        if rise > 0.0 { high = x } else { low = x }
    }
    best
}

fn nearest_on_chord(pair: &Pair, x: f64) -> (View, f64) {
    let reach = half_chord(x);
    for (end, outward) in [(reach, 1.0), (-reach, -1.0)] {
        let view = pair.view((x, end));
        if view.slope.1 * outward <= 0.0 {
            return (view, end);
        }
    }
    let (mut low, mut high) = (-reach, reach);
    for _ in 0..HALVINGS {
        let y = 0.5 * (low + high);
        if pair.view((x, y)).slope.1 > 0.0 {
            high = y;
        } else {
            low = y;
        }
    }
    let y = 0.5 * (low + high);
    (pair.view((x, y)), y)
}

fn half_chord(x: f64) -> f64 {
    ((1.0 - x) * (1.0 + x)).sqrt()
}
