use crate::house_rules::Band;
use crate::placements::Placements;
use crate::resolve::Basis;
use crate::{Answer, Harm, Row, Setting, State, Subject, words};
use measurement::{Chance, Feature, Prolapse, Quantity, Unit};
use std::cmp::Ordering;

/// One check of one subject for one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The check's id.
    pub check: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Its name where a column is narrow.
    pub short: &'static str,
    /// What a value under zero is called.
    pub below: Option<&'static str>,
    /// What a patient is harmed by where a limit of it is broken.
    pub harm: Harm,
    /// Its subject.
    pub of: Subject,
    /// Its unit.
    pub unit: Unit,
    /// The margin that counts as one.
    pub scale: f64,
    /// How it came out.
    pub state: State,
    /// The value as read; `None` where it is not assessed.
    pub value: Option<f64>,
    /// What stops.
    pub stop: Band,
    /// What calls for caution.
    pub caution: Band,
    /// The chance that its stop holds; `None` without draws or without a stop.
    pub chance: Option<Chance>,
    /// The readings that are missing.
    pub missing: Vec<Quantity>,
    /// The rotation of the defect at which it is worst, in degrees; `None` where it
    /// was read or does not matter.
    pub rotation: Option<f64>,
    /// The outcome in plain words.
    pub says: String,
    /// What is always said beside it.
    pub aside: Option<&'static str>,
}

impl Outcome {
    /// Margin to the stop: negative where it is broken.
    pub fn margin_stop(&self) -> Option<f64> {
        self.value.and_then(|value| self.stop.margin(value))
    }

    /// Margin to the caution: negative where it is broken.
    pub fn margin_caution(&self) -> Option<f64> {
        self.value.and_then(|value| self.caution.margin(value))
    }

    /// The outcome with the limit that it breaks and by how much.
    pub fn says_with_limit(&self) -> String {
        if self.unit == Unit::Grade {
            // A grade is a word: no number says by how much it is over a limit.
            return self.says.clone();
        }
        let band = match self.state {
            State::Stop => self.stop,
            State::Caution => self.caution,
            State::Ok | State::NotAssessed => return self.says.clone(),
        };
        let broken = self
            .value
            .and_then(|value| Some((value, band.broken(value)?)));
        let Some((value, limit)) = broken else {
            return self.says.clone();
        };
        let by = self.margin_amount(value - limit);
        let side = match self.state {
            State::Caution => "inside the warning margin",
            _ if value < limit => "under the limit",
            _ => "over the limit",
        };
        format!("{}; {by} {side} ({})", self.says, self.limit_amount(limit))
    }

    /// The decimals with which a value of its unit is usually shown.
    fn usual_decimals(&self) -> usize {
        match self.unit {
            Unit::Share | Unit::Ratio => 2,
            Unit::MmHg | Unit::Grade => 0,
            _ => 1,
        }
    }

    /// The value in no more digits than are measured, as it stands beside its name:
    /// one under zero that has a name of its own bears no sign. Where it rounds to the
    /// other side of a limit it says on which side it lies, as a chance does: `< 0.5 mm`.
    pub fn value_amount(&self) -> Option<String> {
        let value = self.value?;
        let shown = rounded(value, self.usual_decimals());
        let hidden = [self.stop, self.caution].into_iter().find_map(|band| {
            let is_hidden = band.is_broken(shown) != band.is_broken(value);
            let limit = band.broken(value).or_else(|| band.broken(shown));
            limit.filter(|_| is_hidden)
        });
        let sign = if value < 0.0 && self.below.is_some() {
            -1.0
        } else {
            1.0
        };
        let (value, hidden) = (sign * value, hidden.map(|limit| sign * limit));
        Some(match hidden {
            Some(0.0) => self.least_amount(value),
            Some(limit) if value < limit => format!("< {}", self.limit_amount(limit)),
            Some(limit) => format!("> {}", self.limit_amount(limit)),
            None => self.amount(value, self.usual_decimals()),
        })
    }

    /// A limit in its unit, as the rules write it.
    fn limit_amount(&self, limit: f64) -> String {
        match self.unit {
            Unit::Share => self.amount(limit, 2),
            Unit::Ratio => limit.to_string(),
            unit => format!("{limit} {unit}"),
        }
    }

    /// A margin without its sign, in no more digits than are measured: one that would
    /// round to nothing is `< 0.1 mm`. One of a ratio, which has no unit, says so.
    pub fn margin_amount(&self, margin: f64) -> String {
        let amount = self.least_amount(margin);
        match self.unit {
            Unit::Ratio => format!("{amount} (ratio)"),
            _ => amount,
        }
    }

    /// An amount without its sign, `< 0.1 mm` where it would round to nothing.
    fn least_amount(&self, margin: f64) -> String {
        let decimals = self.usual_decimals();
        let margin = margin.abs();
        if margin > 0.0 && rounded(margin, decimals) == 0.0 {
            let least = (0..decimals).fold(1.0, |least, _| least / 10.0);
            return format!("< {}", self.amount(least, decimals));
        }
        self.amount(margin, decimals)
    }

    /// A value in its unit; a share in per cent.
    pub fn amount(&self, value: f64, decimals: usize) -> String {
        let value = rounded(value, decimals);
        match self.unit {
            Unit::Share => format!("{:.*} %", decimals.saturating_sub(2), 100.0 * value),
            Unit::Ratio => format!("{value:.decimals$}"),
            Unit::Grade => Prolapse::GRADED
                .iter()
                .find(|(grade, _)| grade.total_cmp(&value).is_eq())
                .map_or_else(|| format!("{value:.0}"), |(_, of)| of.name().to_owned()),
            unit => format!("{value:.decimals$} {unit}"),
        }
    }

    /// The order in which outcomes of one state are told: the gravest harm first, and
    /// of one harm the least margin to what they break.
    pub fn by_harm(&self, other: &Self) -> Ordering {
        let margin = |outcome: &Self| {
            let margin = match outcome.state {
                State::Stop => outcome.margin_stop(),
                _ => outcome.margin_caution(),
            };
            margin.map_or(f64::INFINITY, |margin| margin / outcome.scale)
        };
        let graver = self.harm.cmp(&other.harm);
        graver.then_with(|| margin(self).total_cmp(&margin(other)))
    }

    /// Margin to the stop, in units of the check's scale.
    pub fn scaled_margin(&self) -> Option<f64> {
        self.margin_stop().map(|margin| margin / self.scale)
    }
}

/// A value as it is shown with so many decimals; a rounded zero has no sign.
fn rounded(value: f64, decimals: usize) -> f64 {
    let shown = format!("{value:.decimals$}").parse().unwrap_or(value);
    if shown == 0.0 { 0.0 } else { shown }
}

/// Whether a cusp that prolapses, or may, keeps an axis of the defect from being
/// measured: it was read in no way that looks behind the cusp.
fn is_hidden(setting: &Setting, quantity: Quantity) -> bool {
    let is_axis = matches!(
        quantity.info().feature,
        Feature::LongAxis | Feature::ShortAxis
    );
    let is_read = matches!(setting.basis(quantity), Basis::Missing(unused) if !unused.is_empty());
    is_axis && is_read && setting.case().facts.prolapse.may_be()
}

/// The outcome of a row for a nominal seat, without its chance.
pub(crate) fn outcome(placements: &Placements, row: &Row) -> Outcome {
    let about = row.check.about();
    let worst = row.is_assessed().then(|| placements.worst(row));
    let value = worst.map(|worst| worst.value);
    Outcome {
        check: row.id(),
        title: about.title,
        short: about.short,
        below: about.below,
        harm: (about.harm)(row.of),
        of: row.of,
        unit: about.name.unit,
        scale: about.scale,
        state: value.map_or(State::NotAssessed, |value| row.state(value)),
        value,
        stop: row.stop,
        caution: row.caution,
        chance: None,
        missing: row.missing.clone(),
        rotation: worst.and_then(|worst| worst.rotation),
        says: worst.map_or_else(
            || not_assessed(placements.setting(), &row.missing),
            |worst| placements.says(row, worst),
        ),
        aside: about.aside,
    }
}

/// What is missing, and what was read but is not used.
fn not_assessed(setting: &Setting, missing: &[Quantity]) -> String {
    let hidden: Vec<String> = missing
        .iter()
        .filter(|&&quantity| is_hidden(setting, quantity))
        .map(ToString::to_string)
        .collect();
    if !hidden.is_empty() {
        let hides = match setting.case().facts.prolapse.present() {
            Answer::Yes => "the cusp hides",
            Answer::No | Answer::Unknown => "a cusp may hide",
        };
        let hidden = words::list(&hidden);
        return format!("not assessed: {hides} the defect; no edge-to-edge reading of {hidden}");
    }
    let named: Vec<String> = missing
        .iter()
        .map(|&quantity| match setting.basis(quantity) {
            Basis::Missing(unused) if !unused.is_empty() => {
                format!("{quantity} (measured only in ways your centre's rules do not use)")
            }
            _ => quantity.to_string(),
        })
        .collect();
    format!("not assessed: no reading of {}", words::list(&named))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A rim overlap of so much, with a limit under 0.5 and a warning under 1 mm.
    fn overlap(value: f64) -> Outcome {
        let band = |low| Band {
            low: Some(low),
            high: None,
        };
        let (stop, caution) = (band(0.5), band(1.0));
        let state = match (stop.is_broken(value), caution.is_broken(value)) {
            (true, _) => State::Stop,
            (false, true) => State::Caution,
            (false, false) => State::Ok,
        };
        Outcome {
            check: "rim_overlap_left",
            title: "rim overlap",
            short: "rim overlap",
            below: Some("edge bare"),
            harm: Harm::Embolisation,
            of: Subject::Shape,
            unit: Unit::Mm,
            scale: 1.0,
            state,
            value: Some(value),
            stop,
            caution,
            chance: None,
            missing: Vec::new(),
            rotation: None,
            says: "the disc overlaps".to_owned(),
            aside: None,
        }
    }

    #[test]
    fn no_length_bears_more_digits_than_are_measured() {
        let margin = |margin| overlap(1.0).margin_amount(margin);
        let margins = [0.0, 0.01, -0.04, 0.05, -0.23].map(margin);
        assert_eq!(
            margins,
            ["0.0 mm", "< 0.1 mm", "< 0.1 mm", "0.1 mm", "0.2 mm"]
        );
        let value = |value| overlap(value).value_amount().unwrap();
        assert_eq!(
            [0.72, 0.46, 0.54, 0.999, 1.04, -0.31].map(value),
            ["0.7 mm", "< 0.5 mm", "0.5 mm", "< 1 mm", "1.0 mm", "0.3 mm"]
        );
    }

    #[test]
    fn a_value_with_a_name_for_under_zero_bears_no_sign_beside_a_limit_either() {
        let limits = |low| Band {
            low: Some(low),
            high: None,
        };
        let past = |value| {
            let (stop, caution) = (limits(-2.0), limits(0.0));
            let outcome = Outcome {
                stop,
                caution,
                ..overlap(value)
            };
            outcome.value_amount().unwrap()
        };
        assert_eq!(
            [-2.03, -1.97, -0.04, 0.04, -1.5].map(past),
            ["> 2 mm", "2.0 mm", "< 0.1 mm", "0.0 mm", "1.5 mm"]
        );
    }

    #[test]
    fn a_margin_of_a_ratio_says_that_it_is_one() {
        let ratio = Outcome {
            unit: Unit::Ratio,
            ..overlap(0.41)
        };
        assert_eq!(ratio.margin_amount(-0.09), "0.09 (ratio)");
        assert_eq!(
            ratio.says_with_limit(),
            "the disc overlaps; 0.09 (ratio) under the limit (0.5)"
        );
        assert_eq!(ratio.value_amount().unwrap(), "0.41", "a value is bare");
    }

    #[test]
    fn what_breaks_a_limit_says_by_how_much_in_the_words_of_a_limit() {
        let says = |value| overlap(value).says_with_limit();
        assert_eq!(
            says(0.08),
            "the disc overlaps; 0.4 mm under the limit (0.5 mm)"
        );
        assert_eq!(
            says(0.77),
            "the disc overlaps; 0.2 mm inside the warning margin (1 mm)"
        );
        assert_eq!(says(1.2), "the disc overlaps");
    }
}
