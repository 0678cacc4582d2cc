//! The normal law fitted to values of which some are known only as a bound.

use super::Difference;
use crate::normal;

/// The likeliest normal law, with the variances of its mean and SD.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Fit {
    pub(super) mean: f64,
    /// By the likelihood: with n, not n − 1.
    pub(super) sd: f64,
    /// The variances of mean and SD, and their covariance.
    pub(super) variances: [f64; 3],
}

/// Steps of the search at most; without a bound one is enough.
const MOST_STEPS: usize = 10_000;
/// A step under this share of the SD ends the search.
const SETTLED: f64 = 1e-12;

/// The mean and SD under which the values are likeliest: by expectation and maximisation
/// (Dempster, Laird & Rubin, Journal of the Royal Statistical Society B 1977;39:1, from
/// memory); the variances by the observed information. `None` with under two whole
/// values, or where those do not differ.
pub(super) fn fit(values: &[Difference]) -> Option<Fit> {
    let whole = values.iter().filter_map(|value| match value {
        Difference::Exactly(value) => Some(*value),
        Difference::AtLeast(_) | Difference::AtMost(_) => None,
    });
    let whole: Vec<f64> = whole.collect();
    if whole.len() < 2 {
        return None;
    }
    let mut mean = whole.iter().sum::<f64>() / whole.len() as f64;
    let mut sd = spread(
        whole.iter().map(|value| (value - mean).powi(2)),
        whole.len(),
    );
    if sd <= 0.0 {
        return None;
    }
    let count = values.len();
    for _ in 0..MOST_STEPS {
        let expected: Vec<[f64; 2]> = values.iter().map(|one| moments(*one, mean, sd)).collect();
        let next = expected.iter().map(|[first, _]| first).sum::<f64>() / count as f64;
        let squares = expected
            .iter()
            .map(|[first, variance]| variance + (first - next).powi(2));
        let next_sd = spread(squares, count);
        let moved = (next - mean).abs() + (next_sd - sd).abs();
        (mean, sd) = (next, next_sd);
        if moved <= SETTLED * sd {
            break;
        }
    }
    let variances = variances(values, mean, sd)?;
    Some(Fit {
        mean,
        sd,
        variances,
    })
}

fn spread(squares: impl Iterator<Item = f64>, count: usize) -> f64 {
    (squares.sum::<f64>() / count as f64).sqrt()
}

/// The expected value of a difference and its variance, given what is known of it.
fn moments(one: Difference, mean: f64, sd: f64) -> [f64; 2] {
    match one {
        Difference::Exactly(value) => [value, 0.0],
        Difference::AtLeast(bound) => {
            let (at, mills) = above(bound, mean, sd);
            let variance = 1.0 + at * mills - mills * mills;
            [mean + sd * mills, sd * sd * variance.max(0.0)]
        }
        Difference::AtMost(bound) => {
            let [first, variance] = moments(Difference::AtLeast(-bound), -mean, sd);
            [-first, variance]
        }
    }
}

/// A bound as a standard normal deviate, and its inverse Mills ratio: the density over the
/// probability above it.
fn above(bound: f64, mean: f64, sd: f64) -> (f64, f64) {
    /// From here on the probability loses its digits, and the density over it is the
    /// deviate and a little.
    const FAR: f64 = 30.0;
    let at = (bound - mean) / sd;
    let mills = if at > FAR {
        at + 1.0 / at
    } else {
        normal::density(at) / normal::probability(-at)
    };
    (at, mills)
}

/// The inverse of the observed information of mean and SD.
fn variances(values: &[Difference], mean: f64, sd: f64) -> Option<[f64; 3]> {
    // Minus the second derivatives of the log-likelihood, in units of 1/sd².
    let mut information = [0.0; 3];
    for value in values {
        let (at, sign) = match *value {
            Difference::Exactly(value) => {
                let z = (value - mean) / sd;
                let each = [1.0, 3.0 * z * z - 1.0, 2.0 * z];
                add(&mut information, each);
                continue;
            }
            Difference::AtLeast(bound) => (above(bound, mean, sd), 1.0),
            // Mirrored about 0: the mean's sign turns, and so does the mixed term.
            Difference::AtMost(bound) => (above(-bound, -mean, sd), -1.0),
        };
        let (at, mills) = at;
        let slope = mills * (mills - at);
        let each = [
            slope,
            at * (2.0 * mills + at * slope),
            sign * (mills + at * slope),
        ];
        add(&mut information, each);
    }
    let [of_mean, of_sd, mixed] = information;
    let determinant = of_mean * of_sd - mixed * mixed;
    let unit = sd * sd / determinant;
    let inverse = [of_sd * unit, of_mean * unit, -mixed * unit];
    (determinant > 0.0 && inverse.iter().all(|one| one.is_finite())).then_some(inverse)
}

fn add(all: &mut [f64; 3], each: [f64; 3]) {
    for (all, each) in all.iter_mut().zip(each) {
        *all += each;
    }
}
