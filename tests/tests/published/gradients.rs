//! Published and worked pressure gradients.
//!
//! Sources: Rao, Vessel Plus 2022;6:24 (doi
//! 10.20517/2574-1209.2021.91) for the tricuspid jet; the others are the stated
//! formulas worked by hand.

use measurement::{MPerS, MmHg};
use physiology::{
    BLOOD_DENSITY, bernoulli, bernoulli_coefficient, cost_of_narrowing, effective_share, is_closed,
    simplified_bernoulli,
};

/// What binary rounding leaves of a decimal worked by hand.
const ROUNDING: f64 = 1e-12;

#[track_caller]
fn near(got: MmHg, wanted: f64, tolerance: f64) {
    assert!(
        (got.value() - wanted).abs() <= tolerance,
        "{got:?}, not {wanted}"
    );
}

/// 3.74 m/s is published as 56 mmHg; 4 · 3.74² = 55.9504.
#[test]
fn tricuspid_jet() {
    near(simplified_bernoulli(MPerS(3.74)), 56.0, 0.5);
    near(simplified_bernoulli(MPerS(3.74)), 55.9504, ROUNDING);
}

/// Right ventricular systolic pressure behind a defect: systemic less 4 v².
#[test]
fn right_ventricle_from_the_jet_through_the_defect() {
    let systemic = MmHg(90.0);
    near(systemic - simplified_bernoulli(MPerS(4.2)), 19.44, ROUNDING);
    near(systemic - simplified_bernoulli(MPerS(3.0)), 54.0, ROUNDING);
}

/// v1 1.2 and v2 4.2 m/s: 64.8 mmHg.
#[test]
fn velocity_upstream_counts() {
    near(bernoulli(MPerS(1.2), MPerS(4.2)), 64.8, ROUNDING);
}

/// ρ/(2 · 133.322) at 1060 kg/m³ is 3.975, which the trade rounds to 4.
#[test]
fn coefficient_for_blood() {
    assert!((bernoulli_coefficient(BLOOD_DENSITY) - 3.975).abs() < 0.0005);
}

/// Half the tract open, v1 1.5 m/s, by hand. Sharp edge, c0 0.63: C = 0.63 +
/// 0.37/8 = 0.67625, share 0.338125, 9 (1/0.338125² − 1) = 69.7205 mmHg. Rounded
/// edge, c0 0.8: C = 0.825, share 0.4125, 9 (1/0.4125² − 1) = 43.8926 mmHg.
#[test]
fn narrowed_tract() {
    assert!((effective_share(0.5, 0.63) - 0.338_125).abs() < ROUNDING);
    near(
        cost_of_narrowing(MPerS(1.5), 0.5, 0.63, 0.05),
        69.7205,
        5e-5,
    );
    near(cost_of_narrowing(MPerS(1.5), 0.5, 0.8, 0.05), 43.8926, 5e-5);
    assert!(is_closed(0.06, 0.8, 0.05) && !is_closed(0.07, 0.8, 0.05));
}
