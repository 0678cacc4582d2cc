use super::{Band, RuleAddress, RuleKind, Stated};
use measurement::Unit;
use std::ops::RangeInclusive;

/// A rule of the house overridden for one case.
#[derive(Clone, Debug, PartialEq)]
pub struct Exception {
    /// The rule.
    pub rule: RuleAddress,
    /// What counts in its place.
    pub instead: Stated,
    /// Why; it says something.
    pub because: String,
}

/// One thing that an exception says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExceptionPart {
    /// The value under which a shape is stopped.
    StopLow,
    /// The value over which a shape is stopped.
    StopHigh,
    /// The value under which caution is called for.
    CautionLow,
    /// The value over which caution is called for.
    CautionHigh,
    /// The value of a parameter, or what is assumed.
    Value,
    /// The standard deviation of what is assumed.
    Sd,
    /// The reason.
    Because,
}

impl ExceptionPart {
    /// Its name on forms.
    pub const fn label(self) -> &'static str {
        match self {
            Self::StopLow => "limit under",
            Self::StopHigh => "limit over",
            Self::CautionLow => "warning under",
            Self::CautionHigh => "warning over",
            Self::Value => "value",
            Self::Sd => "SD",
            Self::Because => "because",
        }
    }
}

/// Something wrong with an exception.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("expected {expected}")]
pub struct ExceptionFault {
    /// Where.
    pub part: ExceptionPart,
    /// What was expected there.
    pub expected: String,
}

impl Exception {
    /// Everything that is wrong with it, whatever the house says.
    pub fn faults(&self) -> Vec<ExceptionFault> {
        let mut faults = match (self.instead, self.rule.kind()) {
            (Stated::Limits { stop, caution }, RuleKind::Limit(unit)) => {
                limit_faults(stop, caution, unit)
            }
            (Stated::Value(value), RuleKind::Parameter(info)) => {
                let within = info.least..=info.most;
                Vec::from_iter(outside(ExceptionPart::Value, value, within, info.unit))
            }
            (Stated::Assumed { value, sd }, RuleKind::Assumed(quantity)) => {
                let (info, unit) = (quantity.info(), quantity.unit());
                let within = info.least..=info.most;
                let mut faults = Vec::from_iter(outside(ExceptionPart::Value, value, within, unit));
                let most = info.most - info.least;
                if !(sd > 0.0 && sd <= most) {
                    let expected = format!("a number above 0, at most {most} {unit}");
                    faults.push(fault(ExceptionPart::Sd, expected));
                }
                faults
            }
            _ => vec![fault(ExceptionPart::Value, "what such a rule states")],
        };
        if self.because.trim().is_empty() {
            faults.push(fault(ExceptionPart::Because, "a reason"));
        }
        faults
    }
}

fn fault(part: ExceptionPart, expected: impl Into<String>) -> ExceptionFault {
    let expected = expected.into();
    ExceptionFault { part, expected }
}

fn outside(
    part: ExceptionPart,
    value: f64,
    within: RangeInclusive<f64>,
    unit: Unit,
) -> Option<ExceptionFault> {
    // NaN is within no limits.
    let (least, most) = (within.start(), within.end());
    let expected = format!("a number from {least} to {most} {unit}");
    (!within.contains(&value)).then(|| fault(part, expected))
}

/// A limit out of range, a low one over its high one, a caution beyond its stop.
fn limit_faults(stop: Band, caution: Band, unit: Unit) -> Vec<ExceptionFault> {
    use ExceptionPart::{CautionHigh, CautionLow, StopHigh, StopLow};
    let each = [
        (StopLow, stop.low),
        (StopHigh, stop.high),
        (CautionLow, caution.low),
        (CautionHigh, caution.high),
    ];
    let ranged = each
        .into_iter()
        .filter_map(|(part, limit)| outside(part, limit?, -Band::MOST..=Band::MOST, unit));
    let mut faults: Vec<ExceptionFault> = ranged.collect();
    let pairs = [
        (StopHigh, stop.low, stop.high),
        (CautionHigh, caution.low, caution.high),
    ];
    for (part, low, high) in pairs {
        if let (Some(low), Some(high)) = (low, high)
            && low > high
        {
            faults.push(fault(part, format!("at least the low limit, {low}")));
        }
    }
    if let (Some(stop), Some(caution)) = (stop.low, caution.low)
        && caution < stop
    {
        let expected = format!("at least the limit, {stop}: a warning comes before it");
        faults.push(fault(CautionLow, expected));
    }
    if let (Some(stop), Some(caution)) = (stop.high, caution.high)
        && caution > stop
    {
        let expected = format!("at most the limit, {stop}: a warning comes before it");
        faults.push(fault(CautionHigh, expected));
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(rule: &str, instead: Stated) -> Vec<(ExceptionPart, String)> {
        let exception = Exception {
            rule: rule.parse().unwrap(),
            instead,
            because: "why".into(),
        };
        let faults = exception.faults().into_iter();
        faults.map(|fault| (fault.part, fault.expected)).collect()
    }

    fn band(low: impl Into<Option<f64>>, high: impl Into<Option<f64>>) -> Band {
        Band {
            low: low.into(),
            high: high.into(),
        }
    }

    #[test]
    fn limits_stand_in_order_and_within_what_is_accepted() {
        let limits = |stop, caution| faults("waist_fit", Stated::Limits { stop, caution });
        assert_eq!(limits(band(0.0, 4.0), band(0.5, 2.5)), []);
        assert_eq!(limits(Band::NONE, Band::NONE), []);
        let parts = |faults: Vec<(ExceptionPart, String)>| -> Vec<ExceptionPart> {
            faults.into_iter().map(|(part, _)| part).collect()
        };
        let (low, high) = (ExceptionPart::CautionLow, ExceptionPart::CautionHigh);
        assert_eq!(
            parts(limits(band(4.0, 0.0), Band::NONE)),
            [ExceptionPart::StopHigh]
        );
        assert_eq!(parts(limits(band(1.0, 4.0), band(0.5, 4.5))), [low, high]);
        assert_eq!(parts(limits(Band::NONE, band(2.5, 0.5))), [high]);
        let wild = limits(band(f64::NAN, 1e4), Band::NONE);
        assert_eq!(wild.len(), 2, "{wild:?}");
        assert_eq!(wild[0].1, "a number from -1000 to 1000 mm");
    }

    #[test]
    fn a_value_keeps_to_the_range_of_its_parameter_or_quantity() {
        assert_eq!(faults("tilt_sd", Stated::Value(10.0)), []);
        let said = faults("tilt_sd", Stated::Value(31.0));
        let expected = "a number from 0 to 30 deg".to_owned();
        assert_eq!(said, [(ExceptionPart::Value, expected)]);
        let assumed = |value, sd| faults("aortic.annulus_angle", Stated::Assumed { value, sd });
        assert_eq!(assumed(80.0, 20.0), []);
        assert_eq!(assumed(80.0, 0.0)[0].0, ExceptionPart::Sd);
        assert_eq!(assumed(-900.0, 5.0)[0].0, ExceptionPart::Value);
    }

    #[test]
    fn what_its_rule_does_not_state_and_no_reason_are_faults() {
        assert_eq!(
            faults(
                "tilt_sd",
                Stated::Assumed {
                    value: 1.0,
                    sd: 1.0
                }
            )
            .len(),
            1
        );
        assert!("no_such_rule".parse::<RuleAddress>().is_err());
        let exception = Exception {
            rule: "tie".parse().unwrap(),
            instead: Stated::Value(1.0),
            because: " ".into(),
        };
        assert_eq!(exception.faults()[0].part, ExceptionPart::Because);
    }
}
