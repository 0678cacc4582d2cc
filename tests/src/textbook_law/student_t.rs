//! Student's t law about 0 with scale 1.
//!
//! The quantile is `statrs`'s and goes through the platform's logarithm: last
//! places may differ between machines.

use statrs::distribution::{ContinuousCDF, StudentsT};

/// The nearest a probability comes to 0 or 1: half a step of the draws. Further
/// out `statrs`'s inverse saturates with 1 degree of freedom.
const LEAST_TAIL: f64 = 1.0 / (1 << 24) as f64;

/// The value not exceeded with probability `p`, which is held 2⁻²⁴ from 0 and 1;
/// 0 where the degrees of freedom are not above 0.
pub(super) fn quantile(p: f64, freedom: f64) -> f64 {
    StudentsT::new(0.0, 1.0, freedom).map_or(0.0, |law| {
        law.inverse_cdf(p.clamp(LEAST_TAIL, 1.0 - LEAST_TAIL))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_and_two_degrees_have_closed_forms() {
        for p in [6e-8, 1e-6, 0.01, 0.3, 0.5, 0.500_001, 0.8, 0.999_999_94] {
            let cauchy = -1.0 / libm::tan(std::f64::consts::PI * p);
            assert!(
                (quantile(p, 1.0) - cauchy).abs() < 1e-6 * (1.0 + cauchy.abs()),
                "{p}"
            );
            let two = (2.0 * p - 1.0) / (2.0 * p * (1.0 - p)).sqrt();
            assert!(
                (quantile(p, 2.0) - two).abs() < 1e-6 * (1.0 + two.abs()),
                "{p}"
            );
        }
    }

    /// Two-sided 95 % with 7 degrees of freedom is 2.365 in every table.
    #[test]
    fn table_value() {
        assert!((quantile(0.975, 7.0) - 2.365).abs() < 5e-4);
    }

    #[test]
    fn settles_everywhere() {
        for freedom in [0.5, 1.0, 3.0, 5.0, 18.0, 50.0, 1000.0] {
            let mut before = f64::NEG_INFINITY;
            for i in 0..=2000 {
                let value = quantile(f64::from(i) / 2000.0, freedom);
                assert!(
                    value.is_finite() && value >= before,
                    "{freedom} {i} {value}"
                );
                before = value;
            }
        }
    }
}
