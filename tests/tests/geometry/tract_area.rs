//! The open share of an outflow tract against areas found by adding up strips.
//!
//! The bound: with 20,000 strips the midpoint sum of a half-circle's width errs
//! by less than 10⁻⁸ of its square, which the shares must meet.

use geometry::OutflowTract;
use std::f64::consts::PI;

const STRIPS: u32 = 20_000;

const BOUND: f64 = 1e-8;

/// ∫ width over [from, to] by midpoints; so spaced that the strips are finest at
/// both ends, where a circle's width has no slope.
fn area(from: f64, to: f64, width: impl Fn(f64) -> f64) -> f64 {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    let step = PI / f64::from(STRIPS);
    let strip = |index| {
        let (sin, cos) = ((f64::from(index) + 0.5) * step).sin_cos();
        width(middle - half * cos) * half * sin * step
    };
    (0..STRIPS).map(strip).sum()
}

/// What a stiff disc takes: the space behind its chord, times a factor, and the
/// part inside the tract of the slab on the chord.
fn stiff(tract: f64, radius: f64, layer: f64, dead_space_factor: f64) -> f64 {
    let chord = radius.min(tract);
    let circle = |x: f64| 2.0 * (tract * tract - x * x).max(0.0).sqrt();
    let at = -(tract * tract - chord * chord).sqrt();
    let behind = area(-tract, at, circle);
    let top = (at + layer).min(tract);
    let corner = (-at).clamp(at, top.max(at));
    let within = |x: f64| circle(x).min(2.0 * chord);
    let slab = area(at, corner, within) + area(corner, top.max(corner), within);
    dead_space_factor * behind + slab
}

/// What a disc as cloth takes: the ring `layer` deep, over an arc of 2R.
fn cloth(tract: f64, radius: f64, layer: f64) -> f64 {
    let angle = (2.0 * radius / tract).min(2.0 * PI);
    area((tract - layer).max(0.0), tract, |r| r * angle)
}

fn check(depth: f64, width: f64, radius: f64, layer: f64) {
    let tract = OutflowTract { depth, width };
    let round = 0.5 * (depth * width).sqrt();
    let full = PI * round * round;
    let deep = layer.min(2.0 * round);
    for (conformability, factor) in [(0.0, 1.0), (0.0, 0.6), (1.0, 1.0), (0.35, 0.8)] {
        let taken = conformability * cloth(round, radius, deep)
            + (1.0 - conformability) * stiff(round, radius, deep, factor);
        let want = (1.0 - taken / full).max(0.0);
        let got = tract.open_share(radius, layer, conformability, factor);
        assert!(
            (got - want).abs() < BOUND,
            "{depth} by {width}, R {radius}, layer {layer}, κ {conformability}: {got}, not {want}"
        );
    }
}

#[test]
fn shares_of_common_sizes() {
    for radius in [2.0, 3.5, 5.0, 5.9] {
        for layer in [0.4, 1.2, 2.5, 5.0, 8.0, 11.0] {
            check(10.0, 14.4, radius, layer);
        }
    }
}

#[test]
fn shares_at_the_edges() {
    // ρ_t = 6: a chord of the tract's own width, and wider.
    for radius in [6.0, 6.0 - 1e-9, 7.0, 20.0] {
        for layer in [0.0, 1e-9, 1.0, 6.0, 12.0, 40.0] {
            check(9.0, 16.0, radius, layer);
        }
    }
    // No layer, a layer past the far side, no disc.
    for (radius, layer) in [
        (3.0, 0.0),
        (3.0, 1e-12),
        (3.0, 12.0),
        (3.0, 13.0),
        (0.0, 2.0),
    ] {
        check(9.0, 16.0, radius, layer);
    }
    // The top corners on the circle: y = 2√(ρ² − b²), with b = 3.6 and 4.8.
    for (radius, layer) in [(3.6, 9.6), (4.8, 7.2)] {
        for beside in [-1e-9, 0.0, 1e-9] {
            check(9.0, 16.0, radius, layer + beside);
        }
    }
}
