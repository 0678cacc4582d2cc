//! The perimeter of an ellipse against the complete elliptic integral of the
//! second kind, 4a E(m), m = 1 − (b/a)².

use geometry::Ellipse;
use std::f64::consts::{FRAC_PI_2, PI};

/// What any two routes below may differ by, relative to the perimeter.
const ROUNDING: f64 = 5e-15;

fn perimeter(semi_major: f64, semi_minor: f64) -> f64 {
    Ellipse {
        semi_major,
        semi_minor,
        rotation: 0.3,
    }
    .perimeter()
}

fn assert_equal(a: f64, b: f64, expected: f64, source: &str) {
    let found = perimeter(a, b);
    let error = (found / expected - 1.0).abs();
    assert!(
        error <= ROUNDING,
        "{source}: a {a}, b {b}: {found} for {expected}, off by {error:e}"
    );
}

/// E(m) by the trapezoid rule, whose error falls as exp(−4n b/a): the integrand
/// is periodic and analytic.
fn integral(m: f64, intervals: u32) -> f64 {
    let step = FRAC_PI_2 / f64::from(intervals);
    let value = |i: u32| {
        let sin = (f64::from(i) * step).sin();
        (1.0 - m * sin * sin).sqrt()
    };
    let inner: f64 = (1..intervals).map(value).sum();
    step * (inner + 0.5 * (value(0) + value(intervals)))
}

/// Abramowitz & Stegun, Handbook of Mathematical Functions, table 17.1: E(m),
/// from memory, to seven decimals (memory is unsure of the table's last two).
#[expect(clippy::approx_constant, reason = "a row of a printed table")]
const TABLE_17_1: [(f64, f64); 11] = [
    (0.0, 1.570_796_3),
    (0.1, 1.530_757_6),
    (0.2, 1.489_035_1),
    (0.3, 1.445_363_1),
    (0.4, 1.399_392_1),
    (0.5, 1.350_643_9),
    (0.6, 1.298_428_0),
    (0.7, 1.241_670_6),
    (0.8, 1.178_489_9),
    (0.9, 1.104_774_7),
    (1.0, 1.0),
];

#[test]
fn tabulated_values() {
    const HALF_A_UNIT: f64 = 0.5e-7;
    for (m, expected) in TABLE_17_1 {
        let found = perimeter(1.0, (1.0 - m).sqrt()) / 4.0;
        assert!(
            (found - expected).abs() < HALF_A_UNIT,
            "E({m}): {found} for {expected}"
        );
    }
}

#[test]
fn numerical_integration() {
    for (ratio, intervals) in [
        (1.0, 64),
        (0.9, 64),
        (0.5, 64),
        (0.2, 128),
        (0.05, 512),
        (0.01, 2048),
    ] {
        let expected = 4.0 * 7.0 * integral(1.0 - ratio * ratio, intervals);
        assert_equal(7.0, 7.0 * ratio, expected, "trapezoid rule");
    }
}

/// π(a + b) Σ (½ over n)² hⁿ with h = ((a − b)/(a + b))²: Ivory's series (1796;
/// from memory).
#[test]
fn series_for_round_ellipses() {
    for step in 20..=100 {
        let (a, b) = (3.0, 0.03 * f64::from(step));
        let h = ((a - b) / (a + b)) * ((a - b) / (a + b));
        let (mut coefficient, mut power, mut sum) = (1.0, 1.0, 0.0);
        for n in 0..200 {
            sum += coefficient * coefficient * power;
            coefficient *= (0.5 - f64::from(n)) / f64::from(n + 1);
            power *= h;
        }
        assert_equal(a, b, PI * (a + b) * sum, "Ivory");
    }
}

/// E = 1 + ½(Λ − ½)k² + 3/16 (Λ − 13/12)k⁴ + …, k = b/a, Λ = ln(4/k): the
/// expansion of a near-slit (from memory).
#[test]
fn expansion_for_slits() {
    for exponent in 3..=16 {
        let k = 10_f64.powi(-exponent);
        let log = (4.0 / k).ln();
        let square = k * k;
        let expected =
            1.0 + 0.5 * (log - 0.5) * square + 3.0 / 16.0 * (log - 13.0 / 12.0) * square * square;
        assert_equal(2.0, 2.0 * k, 8.0 * expected, "near-slit");
    }
    assert_equal(2.0, 0.0, 8.0, "slit");
}
