use super::Condition;
use crate::Subject;
use measurement::{Site, Unit, is_over, is_under, over};

/// A low and a high limit, either of which may be missing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band {
    /// The value under which the limit is broken.
    pub low: Option<f64>,
    /// The value over which the limit is broken.
    pub high: Option<f64>,
}

impl Band {
    /// No limit on either side.
    pub const NONE: Self = Self {
        low: None,
        high: None,
    };

    /// Largest limit of any check, in its unit: more is a slip of the pen.
    pub const MOST: f64 = 1000.0;

    /// What it forbids, in words: `under 0.5 mm or over 4 mm`.
    pub fn says(&self, unit: Unit) -> String {
        let unit = match unit {
            // Bare numbers.
            Unit::Ratio | Unit::Share => String::new(),
            unit => format!(" {unit}"),
        };
        let low = self.low.map(|low| format!("under {low}{unit}"));
        let high = self.high.map(|high| format!("over {high}{unit}"));
        let said: Vec<String> = low.into_iter().chain(high).collect();
        said.join(" or ")
    }

    /// Whether there is no limit at all.
    pub const fn is_none(&self) -> bool {
        self.low.is_none() && self.high.is_none()
    }

    /// How far a value lies within the band: negative where it is broken, 0 on a
    /// limit; `None` without a limit.
    pub fn margin(&self, value: f64) -> Option<f64> {
        let over_low = self.low.map(|low| over(value, low));
        let under_high = self.high.map(|high| over(high, value));
        match (over_low, under_high) {
            (Some(over), Some(under)) => Some(over.min(under)),
            (one, other) => one.or(other),
        }
    }

    /// Whether a value breaks it. A value on a limit, within
    /// [`TOLERANCE`](measurement::TOLERANCE), does not; what is not a number does.
    pub(crate) fn is_broken(&self, value: f64) -> bool {
        self.margin(value)
            .is_some_and(|margin| margin < 0.0 || margin.is_nan())
    }

    /// The limit that a value breaks.
    pub fn broken(&self, value: f64) -> Option<f64> {
        let low = self.low.filter(|&low| is_under(value, low));
        low.or_else(|| self.high.filter(|&high| is_over(value, high)))
    }

    /// The band inside both.
    #[must_use]
    pub(crate) fn tightest(self, other: Self) -> Self {
        let pick = |one: Option<f64>, two: Option<f64>, of: fn(f64, f64) -> f64| match (one, two) {
            (Some(one), Some(two)) => Some(of(one, two)),
            (one, two) => one.or(two),
        };
        Self {
            low: pick(self.low, other.low, f64::max),
            high: pick(self.high, other.high, f64::min),
        }
    }
}

/// One row of limits: for a check, some sites and some circumstances.
///
/// Of several rows that apply, the tightest limit counts.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitRow {
    /// Its own name among the rows of its check, so that exceptions find it wherever
    /// it stands.
    pub id: Option<String>,
    /// The check's id, as in output: `clearance`, `rim_overlap_left`.
    pub check: String,
    /// The subjects; empty: every subject of the check.
    pub of: Vec<Subject>,
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// Circumstances, all of which must hold.
    pub when: Vec<Condition>,
    /// What stops.
    pub stop: Band,
    /// What calls for caution.
    pub caution: Band,
    /// Its source.
    pub source: String,
}

impl LimitRow {
    /// Whether it speaks of a check's subject at a site, whatever the
    /// circumstances.
    pub fn speaks_of(&self, check: &str, of: Subject, site: Site) -> bool {
        self.check == check
            && (self.of.is_empty() || self.of.contains(&of))
            && super::rows::names(&self.sites, site)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn margin_is_the_nearer_limit_and_negative_outside() {
        let band = Band {
            low: Some(0.0),
            high: Some(4.0),
        };
        assert_eq!(band.margin(1.0), Some(1.0));
        assert_eq!(band.margin(3.5), Some(0.5));
        assert_eq!(band.margin(-0.25), Some(-0.25));
        assert_eq!(Band::NONE.margin(7.0), None);
        assert!(!band.is_broken(4.0) && band.is_broken(4.5) && band.is_broken(f64::NAN));
        assert_eq!(band.margin(3.9 + 0.1 + f64::EPSILON * 4.0), Some(0.0));
        assert!(!Band::NONE.is_broken(f64::NAN));
    }

    #[test]
    fn the_tightest_of_two_bands_lies_within_both() {
        let wide = Band {
            low: Some(0.0),
            high: Some(4.0),
        };
        let capped = Band {
            low: None,
            high: Some(1.5),
        };
        assert_eq!(
            wide.tightest(capped),
            Band {
                low: Some(0.0),
                high: Some(1.5)
            }
        );
        assert_eq!(wide.tightest(capped), capped.tightest(wide));
    }
}
