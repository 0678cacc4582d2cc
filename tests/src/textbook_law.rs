//! Laws that published examples use and no quantity of a case has (JCGM 101:2008, 6.4).

mod curved_trapezoid;
mod student_t;

use measurement::Law;
use std::f64::consts::PI;

/// The law of an input of a published example.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TextbookLaw {
    /// A law that quantities of a case have as well.
    Own(Law),
    /// Scaled and shifted t: from few repeated indications (6.4.9).
    StudentT {
        /// Centre.
        mean: f64,
        /// Scale: the standard uncertainty the readings gave.
        scale: f64,
        /// Degrees of freedom.
        freedom: f64,
    },
    /// Curvilinear trapezoid: rectangular with inexactly prescribed limits (6.4.3).
    CurvedTrapezoid {
        /// Lower limit, itself in doubt.
        low: f64,
        /// Upper limit, itself in doubt.
        high: f64,
        /// How far either limit may be off, at most half of `high` − `low`.
        doubt: f64,
    },
    /// Arc sine, U-shaped: a quantity that cycles between limits (6.4.6).
    Arcsine {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
}

impl TextbookLaw {
    /// The value that is not exceeded with probability `p`, 0 to 1.
    pub fn quantile(&self, p: f64) -> f64 {
        match *self {
            Self::Own(law) => law.quantile(p),
            Self::StudentT {
                mean,
                scale,
                freedom,
            } => mean + scale * student_t::quantile(p, freedom),
            Self::CurvedTrapezoid { low, high, doubt } => {
                let (middle, half) = middle_and_half(low, high);
                middle + curved_trapezoid::quantile(p, half, doubt)
            }
            Self::Arcsine { low, high } => {
                let (middle, half) = middle_and_half(low, high);
                middle - half * libm::cos(PI * p)
            }
        }
    }
}

impl From<Law> for TextbookLaw {
    fn from(law: Law) -> Self {
        Self::Own(law)
    }
}

fn middle_and_half(low: f64, high: f64) -> (f64, f64) {
    (0.5 * (low + high), 0.5 * (high - low))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean and standard deviation by a midpoint sum over the quantile, against the
    /// closed forms of JCGM 101, 6.4.3.4, 6.4.6.3 and 6.4.9.4.
    #[test]
    fn moments_are_those_of_the_closed_forms() {
        let of_t = TextbookLaw::StudentT {
            mean: 2.0,
            scale: 0.5,
            freedom: 8.0,
        };
        let of_limits = TextbookLaw::CurvedTrapezoid {
            low: -1.0,
            high: 3.0,
            doubt: 0.5,
        };
        let of_cycle = TextbookLaw::Arcsine {
            low: -1.0,
            high: 3.0,
        };
        let points = 20_000;
        for (law, mean, sd) in [
            (of_t, 2.0, 0.5 * (8.0_f64 / 6.0).sqrt()),
            (of_limits, 1.0, (4.0_f64 / 3.0 + 0.25 / 9.0).sqrt()),
            (of_cycle, 1.0, 2.0_f64.sqrt()),
        ] {
            let at = |i: i32| law.quantile((f64::from(i) + 0.5) / f64::from(points));
            let average = (0..points).map(at).sum::<f64>() / f64::from(points);
            let square = (0..points).map(|i| (at(i) - average).powi(2));
            let spread = (square.sum::<f64>() / f64::from(points)).sqrt();
            assert!((average - mean).abs() < 2e-4, "{law:?}: {average}");
            assert!((spread - sd).abs() < 2e-3, "{law:?}: {spread}");
        }
    }
}
