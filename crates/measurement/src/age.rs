use std::fmt;

/// An age in years that is displayed as people say it: `3 days`, `8 weeks`, `11 months`,
/// `2.4 years`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Age(pub f64);

impl Age {
    /// The age from which years are said, not months.
    pub const SAID_IN_YEARS: f64 = 2.0;
    const SAID_IN_MONTHS: f64 = 0.25;
    const SAID_IN_WEEKS: f64 = 0.05;
}

impl fmt::Display for Age {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        const DAYS: f64 = 365.25;
        const WEEKS: f64 = DAYS / 7.0;
        const MONTHS: f64 = 12.0;
        let years = self.0;
        let (count, unit) = match years {
            _ if years < Self::SAID_IN_WEEKS => ((years * DAYS).round(), "day"),
            _ if years < Self::SAID_IN_MONTHS => ((years * WEEKS).round(), "week"),
            _ if years < Self::SAID_IN_YEARS => ((years * MONTHS).round(), "month"),
            _ => ((10.0 * years).round() / 10.0, "year"),
        };
        let plural = if count == 1.0 { "" } else { "s" };
        write!(formatter, "{count} {unit}{plural}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_age_is_said_as_people_say_it() {
        for (years, said) in [
            (0.0, "0 days"),
            (0.0027, "1 day"),
            (0.0575, "3 weeks"),
            (0.15, "8 weeks"),
            (0.9167, "11 months"),
            (2.4, "2.4 years"),
            (11.0, "11 years"),
        ] {
            assert_eq!(Age(years).to_string(), said);
        }
    }
}
