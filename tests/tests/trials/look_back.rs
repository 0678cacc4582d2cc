//! The statistics of look-back against published figures and sums by hand.

use measurement::look_back::{
    Agreement, Difference, ForetoldPair, agreement, brier, propose_bias, spiegelhalter_z,
    student_quantile, wilson,
};
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Peak flow by two meters, 17 subjects, L/min: Bland & Altman, Lancet 1986;i:307, table
/// of the first readings (from memory).
const LARGE_METER: [f64; 17] = [
    494.0, 395.0, 516.0, 434.0, 476.0, 557.0, 413.0, 442.0, 650.0, 433.0, 417.0, 656.0, 267.0,
    478.0, 178.0, 423.0, 427.0,
];
const SMALL_METER: [f64; 17] = [
    512.0, 430.0, 520.0, 428.0, 500.0, 600.0, 364.0, 380.0, 658.0, 445.0, 432.0, 626.0, 260.0,
    477.0, 259.0, 350.0, 451.0,
];

fn peak_flow() -> Agreement {
    let pairs = LARGE_METER.iter().zip(SMALL_METER);
    let differences: Vec<Difference> = pairs
        .map(|(large, small)| Difference::Exactly(large - small))
        .collect();
    agreement(&differences).expect("an agreement")
}

/// Printed there: mean −2.1, SD 38.8, interval of the mean −22.0 to 17.8.
#[test]
fn bland_and_altman_s_peak_flow_is_as_printed() {
    let found = peak_flow();
    assert!((found.mean - -2.12).abs() < 0.005, "{found:?}");
    assert!((found.sd - 38.77).abs() < 0.005, "{found:?}");
    for (value, printed) in found.mean_interval.iter().zip([-22.0, 17.8]) {
        // The paper rounds t to 2.12.
        assert!((value - printed).abs() < 0.06, "{found:?}");
    }
}

/// By hand: SD × √(1/17 + 1.96²/32) = 38.765 × 0.42292, t 2.1199.
#[test]
fn the_limits_of_agreement_have_their_own_interval() {
    let found = peak_flow();
    let half = 2.1199 * 38.765 * (1.0_f64 / 17.0 + 1.959_964_f64.powi(2) / 32.0).sqrt();
    for (limit, interval) in found.limits.iter().zip(found.limit_intervals) {
        assert!(
            (interval[1] - limit - half).abs() < 0.01,
            "{interval:?} {half}"
        );
        assert!(
            (limit - interval[0] - half).abs() < 0.01,
            "{interval:?} {half}"
        );
    }
    assert!((found.limits[0] - (-2.1176 - 1.959_964 * 38.7651)).abs() < 0.01);
}

/// Summed by hand.
#[test]
fn brier_and_spiegelhalter_by_hand() {
    let chances = [
        0.9, 0.8, 0.95, 0.6, 0.7, 0.3, 0.99, 0.5, 0.85, 0.2, 0.75, 0.9,
    ];
    let seen = [1, 1, 1, 0, 1, 0, 1, 1, 1, 0, 0, 1];
    let pairs: Vec<ForetoldPair> = chances
        .into_iter()
        .zip(seen)
        .map(|(chance, seen)| ForetoldPair {
            chance,
            seen: seen == 1,
        })
        .collect();
    let score = brier(&pairs).expect("a score");
    assert!((score - 0.123_133).abs() < 5e-7, "{score}");
    let z = spiegelhalter_z(&pairs).expect("a variance");
    assert!((z - -0.447_205).abs() < 5e-7, "{z}");
}

/// 9 of 12 by the formula worked by hand; of none and of all the ends are 0 and 1.
#[test]
fn wilson_s_interval_by_hand() {
    let [low, high] = wilson(9, 12);
    assert!((low - 0.467_695).abs() < 5e-7, "{low}");
    assert!((high - 0.911_058).abs() < 5e-7, "{high}");
    assert_eq!(wilson(0, 20)[0], 0.0);
    assert!((wilson(0, 20)[1] - 0.161_125).abs() < 5e-6);
    assert_eq!(wilson(20, 20)[1], 1.0);
}

/// Against statrs, a general-purpose library.
#[test]
fn quantiles_of_student_s_law_are_those_of_a_library() {
    for freedom in 5..400 {
        let law = StudentsT::new(0.0, 1.0, f64::from(freedom)).expect("a law");
        let exact = law.inverse_cdf(0.975);
        let found = student_quantile(0.975, f64::from(freedom));
        let accuracy = if freedom < 19 { 1e-3 } else { 1e-6 };
        assert!(
            (found - exact).abs() < accuracy,
            "{freedom}: {found} {exact}"
        );
    }
}

/// A mean of 0.615 with SD 0.277726 over 20 is shrunk to 0.605657: by hand,
/// 0.615 × 0.25 / (0.25 + 0.277726² / 20).
#[test]
fn a_proposal_is_shrunk_as_by_hand() {
    let found = Agreement {
        count: 20,
        mean: 0.615,
        sd: 0.277_726,
        mean_error: 0.277_726 / 20.0_f64.sqrt(),
        mean_interval: [0.485, 0.745],
        limits: [0.07, 1.16],
        limit_intervals: [[0.0, 0.2], [1.0, 1.3]],
    };
    let row = propose_bias(&found, 0.25).expect("a proposal");
    assert!((row.too_large_by - 0.605_657).abs() < 5e-7, "{row:?}");
    assert_eq!(row.sd, 0.2);
    let wide = Agreement { sd: 0.8, ..found };
    let row = propose_bias(&wide, 0.34).expect("a proposal");
    assert!((row.sd - 0.3_f64.sqrt()).abs() < 1e-12);
    let few = Agreement { count: 19, ..found };
    assert_eq!(propose_bias(&few, 0.25), None);
    let with_zero = Agreement {
        mean_interval: [-0.01, 1.2],
        ..found
    };
    assert_eq!(propose_bias(&with_zero, 0.25), None);
}
