use super::censored::fit;
use super::wilson::TWO_SIDED;
use super::{Difference, student_quantile};
use crate::normal;

/// The agreement of readings with what was seen, by Bland and Altman: 95 of 100
/// differences lie between the limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    /// The number of differences.
    pub count: usize,
    /// The mean difference: by how much the reading is too large.
    pub mean: f64,
    /// The 95 % interval of the mean.
    pub mean_interval: [f64; 2],
    /// The standard error of the mean.
    pub mean_error: f64,
    /// The standard deviation of the differences, with n − 1.
    pub sd: f64,
    /// The limits of agreement, mean ∓ 1.96 SD.
    pub limits: [f64; 2],
    /// The 95 % interval of each limit.
    pub limit_intervals: [[f64; 2]; 2],
}

/// The fewest differences of which an agreement is given: the quantile of t is right from
/// 5 degrees of freedom on.
const FEWEST: usize = 6;

/// The agreement of readings with what was seen (Bland & Altman, Lancet 1986;i:307, and
/// Statistical Methods in Medical Research 1999;8:135 for the limits' own error,
/// √(1/n + 1.96²/2(n − 1)) SD; from memory). Differences known as a bound count by the
/// normal law's likelihood; without them the figures are Bland and Altman's. `None` with
/// under six differences, or where the likelihood has no one summit.
pub fn agreement(differences: &[Difference]) -> Option<Agreement> {
    let count = differences.len();
    if count < FEWEST {
        return None;
    }
    let fit = fit(differences)?;
    // The likelihood divides by n; readers expect n − 1.
    let correction = count as f64 / (count - 1) as f64;
    let sd = fit.sd * correction.sqrt();
    let [of_mean, of_sd, mixed] = fit.variances;
    let (of_mean, of_sd) = (of_mean * correction, of_sd * correction * correction);
    let mixed = mixed * correction * correction.sqrt();
    let (z, freedom) = (normal::quantile(TWO_SIDED), (count - 1) as f64);
    let t = student_quantile(TWO_SIDED, freedom);
    let about = |value: f64, variance: f64| {
        let half = t * variance.max(0.0).sqrt();
        [value - half, value + half]
    };
    let limits = [-z, z].map(|z| fit.mean + z * sd);
    let errors = [-z, z].map(|z| of_mean + z * z * of_sd + 2.0 * z * mixed);
    Some(Agreement {
        count,
        mean: fit.mean,
        mean_interval: about(fit.mean, of_mean),
        mean_error: of_mean.sqrt(),
        sd,
        limits,
        limit_intervals: [about(limits[0], errors[0]), about(limits[1], errors[1])],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::split_mix::split_mix;

    fn deviate(number: u64) -> f64 {
        normal::quantile((split_mix(3, number) >> 11) as f64 / (1_u64 << 53) as f64)
    }

    /// Contacts that are dropped or called 0 would write their selection into a rule.
    #[test]
    fn bounds_count_as_bounds() {
        let values: Vec<f64> = (0..4000).map(|it| 0.3 + 0.8 * deviate(it)).collect();
        let cut = |most: f64| -> Vec<Difference> {
            let each = values.iter().map(|&value| {
                if value < most {
                    Difference::Exactly(value)
                } else {
                    Difference::AtLeast(most)
                }
            });
            each.collect()
        };
        for most in [9.0, 1.5, 0.5, 0.0] {
            let found = agreement(&cut(most)).unwrap();
            let error = 4.0 * found.mean_error;
            assert!((found.mean - 0.3).abs() < error, "{most}: {found:?}");
            assert!((found.sd - 0.8).abs() < 0.06, "{most}: {found:?}");
            assert!(found.mean_error >= 0.8 / 4000.0_f64.sqrt() * 0.95);
        }
        let dropped: Vec<f64> = values.iter().copied().filter(|it| *it < 0.5).collect();
        assert!(dropped.iter().sum::<f64>() / (dropped.len() as f64) < 0.0);
    }

    #[test]
    fn a_bound_below_mirrors_one_above() {
        let some = [0.4, -0.2, 0.9, 0.1, 1.3, -0.6, 0.7];
        let each = |sign: f64| -> Vec<Difference> {
            let mut all: Vec<Difference> = some
                .iter()
                .map(|it| Difference::Exactly(sign * it))
                .collect();
            all.push(if sign > 0.0 {
                Difference::AtLeast(0.8)
            } else {
                Difference::AtMost(-0.8)
            });
            all
        };
        let [one, other] = [1.0, -1.0].map(|sign| agreement(&each(sign)).unwrap());
        assert!((one.mean + other.mean).abs() < 1e-9);
        assert!((one.sd - other.sd).abs() < 1e-9);
        assert!((one.limits[0] + other.limits[1]).abs() < 1e-9);
        let mirrored = other.limit_intervals[1];
        assert!((one.limit_intervals[0][0] + mirrored[1]).abs() < 1e-9);
    }

    /// The likelihood's own curvature, by differences of it.
    #[test]
    fn variances_are_those_of_the_likelihood() {
        let mut all: Vec<Difference> = (0..30).map(|it| Difference::Exactly(deviate(it))).collect();
        all.extend([0.5, 1.0, 0.2].map(Difference::AtLeast));
        all.extend([-0.4, 0.3].map(Difference::AtMost));
        let fit = fit(&all).unwrap();
        let log = |mean: f64, sd: f64| -> f64 {
            let each = all.iter().map(|one| match one {
                Difference::Exactly(it) => (normal::density((it - mean) / sd) / sd).ln(),
                Difference::AtLeast(it) => normal::probability((mean - it) / sd).ln(),
                Difference::AtMost(it) => normal::probability((it - mean) / sd).ln(),
            });
            each.sum()
        };
        let (m, s, h) = (fit.mean, fit.sd, 1e-4);
        let second = |along: [f64; 2]| {
            let at = |step: f64| log(m + step * along[0], s + step * along[1]);
            -(at(h) - 2.0 * at(0.0) + at(-h)) / (h * h)
        };
        let (of_mean, of_sd) = (second([1.0, 0.0]), second([0.0, 1.0]));
        let mixed = 0.5 * (second([1.0, 1.0]) - of_mean - of_sd);
        let determinant = of_mean * of_sd - mixed * mixed;
        let expected = [of_sd, of_mean, -mixed].map(|it| it / determinant);
        for (found, expected) in fit.variances.iter().zip(expected) {
            assert!(
                (found - expected).abs() < 1e-4 * expected.abs() + 1e-6,
                "{found} {expected}"
            );
        }
    }

    #[test]
    fn nothing_is_said_of_few_or_of_bounds_alone() {
        assert_eq!(agreement(&[Difference::Exactly(1.0); 5]), None);
        assert_eq!(agreement(&[Difference::Exactly(1.0); 9]), None);
        assert_eq!(agreement(&[Difference::AtLeast(1.0); 9]), None);
    }
}
