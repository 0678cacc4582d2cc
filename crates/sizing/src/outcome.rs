use crate::house_rules::Band;
use crate::placements::Placements;
use crate::resolve::Basis;
use crate::{Answer, Harm, Row, Setting, State, Subject, words};
use measurement::{Chance, Feature, Prolapse, Quantity, Unit};
use std::cmp::Ordering;

/// Most decimals of a value: a micrometre is finer than any image.
const MOST_DECIMALS: usize = 3;
/// The least amount over a limit that two decimals tell from none.
const LEAST_TOLD: f64 = 0.01;

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

    /// The outcome with the limit that it breaks and by how much; and with the
    /// value where the sentence rounds it to the limit.
    pub fn says_with_limit(&self) -> String {
        if self.unit == Unit::Grade {
            // A grade is a word: no number says by how much it is over a limit.
            return self.says.clone();
        }
        let (name, band) = match self.state {
            State::Stop => ("limit", self.stop),
            State::Caution => ("warning", self.caution),
            State::Ok | State::NotAssessed => return self.says.clone(),
        };
        let broken = self
            .value
            .and_then(|value| Some((value, band.broken(value)?)));
        let Some((value, limit)) = broken else {
            return self.says.clone();
        };
        let by = (value - limit).abs();
        let decimals = self.decimals();
        let value = if decimals > self.usual_decimals() {
            format!("{}: ", self.amount(value, decimals))
        } else {
            String::new()
        };
        let by = if by < LEAST_TOLD {
            format!("less than {}", self.amount(LEAST_TOLD, 2))
        } else {
            self.amount(by, 2)
        };
        let limit = match self.unit {
            Unit::Share => self.amount(limit, 2),
            _ => limit.to_string(),
        };
        format!("{}; {value}{name} at {limit} broken by {by}", self.says)
    }

    /// The decimals with which a value of its unit is usually shown.
    fn usual_decimals(&self) -> usize {
        match self.unit {
            Unit::Share | Unit::Ratio => 2,
            Unit::MmHg | Unit::Grade => 0,
            _ => 1,
        }
    }

    /// The decimals with which the value stands on the side of each limit where
    /// it is: 0.46 and not 0.5 where 0.5 stops; never fewer than usual.
    pub fn decimals(&self) -> usize {
        let Some(value) = self.value else {
            return self.usual_decimals();
        };
        self.fewest_decimals(value, |shown| {
            let on_its_side = |band: &Band| band.is_broken(shown) == band.is_broken(value);
            on_its_side(&self.stop) && on_its_side(&self.caution)
        })
    }

    /// The decimals with which a margin is told from none.
    pub fn margin_decimals(&self, margin: f64) -> usize {
        self.fewest_decimals(margin, |shown| (shown == 0.0) == (margin == 0.0))
    }

    /// The fewest decimals with which a value, as it is then shown, tells what it
    /// is to tell.
    fn fewest_decimals(&self, value: f64, tells: impl Fn(f64) -> bool) -> usize {
        (self.usual_decimals()..MOST_DECIMALS)
            .find(|decimals| tells(rounded(value, *decimals)))
            .unwrap_or(MOST_DECIMALS)
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
