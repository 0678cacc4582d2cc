//! Published examples of propagated doubt, by this program's laws and draws.
//!
//! JCGM 101:2008 chapter 9, JCGM 100:2008 annex H.2, NIST TN 1900 example 13, a
//! logarithm of the National Physical Laboratory, and the check values of
//! algorithm AS 241. Figures are the published or the analytic ones; a test says
//! where they are `from memory`. A tolerance is half
//! the last published digit, more only where the test says why.

use measurement::{Blocks, Interval, Law, Summary, Weights, normal};
use outside::textbook_law::TextbookLaw;

/// Draws by each law from a dimension of its own, put through a model.
fn propagate<L: Into<TextbookLaw> + Copy>(
    laws: &[L],
    model: impl Fn(&[f64]) -> f64,
) -> Option<Summary> {
    let laws: Vec<TextbookLaw> = laws.iter().map(|&law| law.into()).collect();
    let draw = |blocks: &Blocks, block, index| {
        let inputs: Vec<f64> = (0..)
            .zip(&laws)
            .map(|(dimension, law)| law.quantile(blocks.uniform(block, index, dimension)))
            .collect();
        model(&inputs)
    };
    summarize(draw)
}

/// Summary of a function of the point, over 8 · 2¹⁶ points.
fn summarize(draw: impl Fn(&Blocks, usize, usize) -> f64) -> Option<Summary> {
    let blocks = Blocks::new(8 << 16, 1).ok()?;
    let outputs: Vec<f64> = (0..Blocks::COUNT)
        .flat_map(|block| (0..blocks.per_block()).map(move |index| (block, index)))
        .map(|(block, index)| draw(&blocks, block, index))
        .collect();
    Summary::new(&outputs, &Weights::uniform(blocks.draws()))
}

#[track_caller]
fn near(what: &str, got: f64, published: f64, tolerance: f64) {
    println!("{what}: {got} (published {published} ± {tolerance})");
    assert!(
        (got - published).abs() <= tolerance,
        "{what}: {got}, published {published}"
    );
}

#[track_caller]
fn interval_near(what: &str, got: Interval, low: f64, high: f64, tolerance: f64) {
    near(&format!("{what}, lower end"), got.low, low, tolerance);
    near(&format!("{what}, upper end"), got.high, high, tolerance);
}

fn sum(inputs: &[f64]) -> f64 {
    inputs.iter().sum()
}

/// JCGM 101, 9.2.2.
#[test]
fn four_normal_quantities() {
    let summary = propagate(&[Law::Normal { mean: 0.0, sd: 1.0 }; 4], sum).unwrap();
    near("mean", summary.mean(), 0.0, 0.005);
    near("u", summary.sd(), 2.0, 0.005);
    interval_near("95 %", summary.symmetric_interval(0.95), -3.92, 3.92, 0.005);
}

fn rectangular(sd: f64) -> Law {
    let half = sd * 3.0_f64.sqrt();
    Law::Rectangular {
        low: -half,
        high: half,
    }
}

/// JCGM 101, 9.2.3; the interval's exact end is 2√3 (2 − 0.6^¼).
#[test]
fn four_rectangular_quantities() {
    let summary = propagate(&[rectangular(1.0); 4], sum).unwrap();
    near("mean", summary.mean(), 0.0, 0.005);
    near("u", summary.sd(), 2.0, 0.005);
    interval_near("95 %", summary.symmetric_interval(0.95), -3.88, 3.88, 0.005);
    let exact = 2.0 * 3.0_f64.sqrt() * (2.0 - 0.6_f64.sqrt().sqrt());
    interval_near(
        "95 %, exact",
        summary.symmetric_interval(0.95),
        -exact,
        exact,
        0.005,
    );
}

/// JCGM 101, 9.2.4 (from memory); the exact u is √103.
#[test]
fn one_rectangular_quantity_dominates() {
    let one = rectangular(1.0);
    let summary = propagate(&[one, one, one, rectangular(10.0)], sum).unwrap();
    near("u", summary.sd(), 10.1, 0.05);
    near("u, exact", summary.sd(), 103.0_f64.sqrt(), 0.005);
    interval_near("95 %", summary.symmetric_interval(0.95), -17.0, 17.0, 0.05);
}

/// JCGM 101, 9.3: inputs and published figures from memory, milligrams and
/// kilograms a cubic metre.
#[test]
fn mass_calibration() {
    let nominal = 100_000.0;
    let reference_density_of_air = 1.2;
    let laws = [
        Law::Normal {
            mean: nominal,
            sd: 0.050,
        },
        Law::Normal {
            mean: 1.234,
            sd: 0.020,
        },
        Law::Rectangular {
            low: 1.10,
            high: 1.30,
        },
        Law::Rectangular {
            low: 7000.0,
            high: 9000.0,
        },
        Law::Rectangular {
            low: 7950.0,
            high: 8050.0,
        },
    ];
    let summary = propagate(&laws, |x| {
        let buoyancy = (x[2] - reference_density_of_air) * (1.0 / x[3] - 1.0 / x[4]);
        (x[0] + x[1]) * (1.0 + buoyancy) - nominal
    })
    .unwrap();
    // The published run has a sampling error of 0.0001 itself.
    near("mean", summary.mean(), 1.2341, 0.0002);
    near("u", summary.sd(), 0.0754, 0.0002);
    // A shortest interval of a symmetric law slides freely: a run of 4 million
    // draws gave 1.0843 and 1.3833. Its width does not.
    let interval = summary.shortest_interval(0.95);
    interval_near("95 %", interval, 1.0834, 1.3825, 0.0020);
    near(
        "width",
        interval.high - interval.low,
        1.3825 - 1.0834,
        0.0010,
    );
}

/// JCGM 101, 9.4: δY = X1² + X2², u = 0.005 each, values in millionths.
fn comparison_loss(x1: f64, correlation: f64) -> Option<Summary> {
    let u = 0.005;
    let laws = [
        Law::Normal { mean: x1, sd: u },
        Law::Normal { mean: 0.0, sd: u },
    ];
    let own = (1.0 - correlation * correlation).sqrt();
    summarize(|blocks, block, index| {
        let first = blocks.normal(block, index, 0);
        let second = correlation * first + own * blocks.normal(block, index, 1);
        let [x1, x2] = [laws[0].at_normal(first), laws[1].at_normal(second)];
        1e6 * (x1 * x1 + x2 * x2)
    })
}

/// Mean x1² + 2u² and standard deviation √(4 x1² u² + 4 u⁴ (1 + r²)), exact.
fn exact_comparison_loss(x1: f64, correlation: f64) -> (f64, f64) {
    let variance = 0.005_f64 * 0.005;
    let spread = x1 * x1 * variance + variance * variance * (1.0 + correlation * correlation);
    (1e6 * (x1 * x1 + 2.0 * variance), 1e6 * 2.0 * spread.sqrt())
}

/// JCGM 101, 9.4.2. Ends of the shortest interval are those of a run of 4 million
/// draws and wander by a percent of the width.
#[test]
fn comparison_loss_of_independent_inputs() {
    let rows = [
        (0.0, 50.0, 50.0, 0.0, 150.0),
        (0.010, 150.0, 111.8034, 0.0, 366.0),
        (0.050, 2550.0, 502.4938, 1591.0, 3546.0),
    ];
    for (x1, mean, u, low, high) in rows {
        let summary = comparison_loss(x1, 0.0).unwrap();
        near("mean", summary.mean(), mean, 0.05);
        near("u", summary.sd(), u, 0.05);
        let interval = summary.shortest_interval(0.95);
        interval_near("95 %", interval, low, high, 0.5 + 0.01 * (high - low));
        near(
            "width",
            interval.high - interval.low,
            high - low,
            0.005 * (high - low),
        );
    }
}

/// JCGM 101, 9.4.3 (r = 0.9), against the analytic mean and standard deviation.
#[test]
fn comparison_loss_of_correlated_inputs() {
    for correlation in [0.0, 0.9] {
        for x1 in [0.0, 0.010, 0.050] {
            let summary = comparison_loss(x1, correlation).unwrap();
            let (mean, sd) = exact_comparison_loss(x1, correlation);
            near("mean", summary.mean(), mean, 0.0005 * sd);
            near("u", summary.sd(), sd, 0.0005 * sd);
        }
    }
}

/// JCGM 101, 9.5, inputs of its table 10 from memory: nanometres and degrees
/// Celsius.
#[test]
fn gauge_block() {
    let nominal = 50_000_000.0;
    let laws = [
        TextbookLaw::StudentT {
            mean: 50_000_623.0,
            scale: 25.0,
            freedom: 18.0,
        },
        TextbookLaw::StudentT {
            mean: 215.0,
            scale: 6.0,
            freedom: 24.0,
        },
        TextbookLaw::StudentT {
            mean: 0.0,
            scale: 4.0,
            freedom: 5.0,
        },
        TextbookLaw::StudentT {
            mean: 0.0,
            scale: 7.0,
            freedom: 8.0,
        },
        TextbookLaw::Own(Law::Rectangular {
            low: 9.5e-6,
            high: 13.5e-6,
        }),
        TextbookLaw::Own(Law::Normal {
            mean: -0.1,
            sd: 0.2,
        }),
        TextbookLaw::Arcsine {
            low: -0.5,
            high: 0.5,
        },
        TextbookLaw::CurvedTrapezoid {
            low: -1.0e-6,
            high: 1.0e-6,
            doubt: 0.1e-6,
        },
        TextbookLaw::CurvedTrapezoid {
            low: -0.050,
            high: 0.050,
            doubt: 0.025,
        },
    ];
    let summary = propagate(&laws, |x| {
        let standard = x[0];
        let difference = x[1] + x[2] + x[3];
        let warmth = x[5] + x[6];
        let grown = standard * (1.0 + x[4] * (warmth - x[8]));
        (grown + difference) / (1.0 + (x[4] + x[7]) * warmth) - nominal
    })
    .unwrap();
    near("mean", summary.mean(), 838.0, 0.5);
    near("u", summary.sd(), 36.0, 0.5);
    interval_near("99 %", summary.shortest_interval(0.99), 745.0, 932.0, 0.5);
}

/// JCGM 100, H.2: volts, milliamperes and radians, observed together five times
/// (observations from memory); correlated normal means.
#[test]
fn resistance_and_reactance() {
    const VOLTS: [f64; 5] = [5.007, 4.994, 5.005, 4.990, 4.999];
    const MILLIAMPERES: [f64; 5] = [19.663, 19.639, 19.640, 19.685, 19.678];
    const RADIANS: [f64; 5] = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
    let mean = |seen: [f64; 5]| seen.iter().sum::<f64>() / 5.0;
    let covariance_of_means = |one: [f64; 5], other: [f64; 5]| {
        let (m, n) = (mean(one), mean(other));
        one.iter()
            .zip(other)
            .map(|(x, y)| (x - m) * (y - n))
            .sum::<f64>()
            / (5.0 * 4.0)
    };
    let law = |seen| Law::Normal {
        mean: mean(seen),
        sd: covariance_of_means(seen, seen).sqrt(),
    };
    let [voltage, current, phase] = [VOLTS, MILLIAMPERES, RADIANS].map(law);
    let correlation =
        |one, other| covariance_of_means(one, other) / (law(one).sd() * law(other).sd());
    // Cholesky factor of the correlation matrix.
    let [l10, l20] = [MILLIAMPERES, RADIANS].map(|seen| correlation(VOLTS, seen));
    let l11 = (1.0 - l10 * l10).sqrt();
    let l21 = (correlation(MILLIAMPERES, RADIANS) - l10 * l20) / l11;
    let l22 = (1.0 - l20 * l20 - l21 * l21).sqrt();
    let output = |model: fn(f64, f64) -> f64| {
        summarize(|blocks, block, index| {
            let z: [f64; 3] = [0, 1, 2].map(|dimension| blocks.normal(block, index, dimension));
            let ohms = 1e3 * voltage.at_normal(z[0]) / current.at_normal(l10 * z[0] + l11 * z[1]);
            model(ohms, phase.at_normal(l20 * z[0] + l21 * z[1] + l22 * z[2]))
        })
        .unwrap()
    };
    let resistance = output(|ohms, phase| ohms * phase.cos());
    let reactance = output(|ohms, phase| ohms * phase.sin());
    let impedance = output(|ohms, _| ohms);
    near("R", resistance.mean(), 127.732, 0.0005);
    near("X", reactance.mean(), 219.847, 0.0005);
    near("Z", impedance.mean(), 254.260, 0.0005);
    // One in the last digit: the published u is the scatter of the five values of
    // each output (of X 0.295 49), while the means are propagated here (0.295 58).
    near("u(R)", resistance.sd(), 0.071, 0.001);
    near("u(X)", reactance.sd(), 0.295, 0.001);
    near("u(Z)", impedance.sd(), 0.236, 0.001);
}

/// NIST TN 1900, example 13: t laws with 3 degrees of freedom whose standard
/// deviations are the stated ones. Their fourth moment is infinite, so u of any
/// run, the published one too, wanders by 2 %.
#[test]
fn thermal_expansion() {
    let t3 = |mean, sd: f64| TextbookLaw::StudentT {
        mean,
        scale: sd / 3.0_f64.sqrt(),
        freedom: 3.0,
    };
    let laws = [
        t3(1.4999, 0.0001),
        t3(1.5021, 0.0002),
        t3(288.15, 0.02),
        t3(373.10, 0.05),
    ];
    let summary = propagate(&laws, |x| 1e6 * (x[1] - x[0]) / (x[0] * (x[3] - x[2]))).unwrap();
    near("α, millionths", summary.mean(), 17.268, 0.01);
    near("u", summary.sd(), 1.74, 0.035);
}

/// y = ln x, x rectangular from 0.1 to 1.1; the shortest interval's exact ends
/// are ln 0.15 and ln 1.1.
#[test]
fn logarithm_of_a_rectangular_quantity() {
    let laws = [Law::Rectangular {
        low: 0.1,
        high: 1.1,
    }];
    let summary = propagate(&laws, |x| x[0].ln()).unwrap();
    near("mean", summary.mean(), -0.665, 0.0005);
    near("u", summary.sd(), 0.606, 0.0005);
    let interval = summary.shortest_interval(0.95);
    // Published from plain draws; the exact lower end is −1.897.
    interval_near("95 %", interval, -1.895, 0.095, 0.0025);
    interval_near("95 %, exact", interval, 0.15_f64.ln(), 1.1_f64.ln(), 0.0005);
}

/// Check values of PPND16, Wichura 1988 (from memory).
#[test]
fn normal_quantile_check_values() {
    let values = [
        (0.25, -0.674_489_750_196_081_7),
        (0.001, -3.090_232_306_167_814),
        (1e-20, -9.262_340_089_798_408),
    ];
    for (p, z) in values {
        near("z", normal::quantile(p), z, 2e-15 * f64::abs(z));
    }
}
