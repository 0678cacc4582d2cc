use super::{AnswerRow, FEWEST_VALUES, LookBack, ReadingRow, ValueRow};
use crate::Subject;
use crate::trial::ObservationKind;
use crate::words::percent;
use measurement::Unit;
use std::cmp::Ordering;

/// How a look-back counts, in sentences.
pub const HOW_IT_COUNTS: [&str; 3] = [
    "Every deployment counts, released or not, by the forecast that was kept when it was opened.",
    "Chances are of what would be seen, observer's error and all, and not of the geometry.",
    "A device that slipped, or lay otherwise than modelled, says nothing of the rest.",
];

impl LookBack {
    /// How many cases and deployments there are, in a sentence.
    pub fn counts(&self) -> String {
        let left_out = match self.left_out {
            0 => String::new(),
            some => format!("; {some} lay otherwise than modelled and are left out"),
        };
        let many = |count: usize, one: &str| {
            let end = if count == 1 { "" } else { "s" };
            format!("{count} {one}{end}")
        };
        let (cases, deployments) = (
            many(self.cases, "case"),
            many(self.deployments, "deployment"),
        );
        format!(
            "{cases}, {deployments}, {} released; {} with a forecast from the opening{left_out}",
            self.released, self.foretold
        )
    }
}

/// Beyond it Spiegelhalter's Z says that chances and what was seen do not agree.
const FAR: f64 = 1.96;

impl LookBack {
    /// What it comes to, in one to three sentences.
    pub fn headline(&self) -> Vec<String> {
        let judged = |row: &&AnswerRow| row.is_judged();
        let Some(all) = self.all.as_ref().filter(judged) else {
            return vec!["There are too few answers to judge the chances.".to_owned()];
        };
        let of_100 = |share: f64| format!("{:.0}", 100.0 * share);
        let [low, high] = all.pairs.interval.map(of_100);
        let seen = of_100(all.pairs.seen as f64 / all.pairs.pairs as f64);
        let foretold = of_100(all.pairs.foretold);
        let first = format!(
            "We expected a yes in {foretold} of 100; we saw one in {seen} of 100 ({low} to {high})."
        );
        let is_far = |row: &&AnswerRow| {
            let z = row.score.and_then(|score| score.z);
            let [low, high] = row.pairs.interval;
            let is_outside = !(low..=high).contains(&row.pairs.foretold);
            row.is_judged() && (is_outside || z.is_some_and(|z| z.abs() > FAR))
        };
        let far: Vec<String> = self
            .answers
            .iter()
            .filter(is_far)
            .map(AnswerRow::label)
            .collect();
        let second = if far.is_empty() {
            "No single thing came otherwise than expected by more than chance.".to_owned()
        } else {
            format!(
                "More than chance lies between expected and seen in: {}.",
                far.join("; ")
            )
        };
        let out: Vec<String> = self
            .proposals()
            .filter_map(|row| Some((row.of.label(), row.agreement?.mean)))
            .map(|(label, mean)| {
                let too = if mean > 0.0 { "large" } else { "small" };
                format!("{label}: measured {:.1} mm too {too}", mean.abs())
            })
            .collect();
        let third = if out.is_empty() {
            "No reading was out by more than chance.".to_owned()
        } else {
            format!("Readings that were out: {}.", out.join("; "))
        };
        vec![first, second, third]
    }
}

fn name(what: ObservationKind, of: Subject) -> String {
    let label = match what {
        ObservationKind::Gradient => "outflow gradient",
        _ => what.label(),
    };
    if of == Subject::Shape {
        label.to_owned()
    } else {
        format!("{label}, {}", of.label())
    }
}

impl AnswerRow {
    /// What is looked at.
    pub fn label(&self) -> String {
        match self.what {
            None => "all of these together".to_owned(),
            Some(ObservationKind::Gradient) => {
                format!("gradient over its limit, {}", self.of.label())
            }
            Some(_) => self.thing(),
        }
    }

    fn thing(&self) -> String {
        self.what
            .map_or_else(String::new, |what| name(what, self.of))
    }

    /// How often it was seen, with its interval.
    pub fn seen(&self) -> String {
        let [low, high] = self.pairs.interval.map(percent);
        let share = self.pairs.seen as f64 / self.pairs.pairs as f64;
        format!("{} ({low} to {high})", percent(share))
    }

    /// Whether there are enough pairs to judge.
    pub const fn is_judged(&self) -> bool {
        self.score.is_some()
    }
}

impl ValueRow {
    /// What is looked at.
    pub fn label(&self) -> String {
        name(self.what, self.of)
    }
}

impl ReadingRow {
    /// By how much the readings were too large or too small, in a sentence.
    pub fn says(&self) -> String {
        let Some(found) = &self.agreement else {
            return format!("too few to judge: {} of {FEWEST_VALUES}", self.pairs);
        };
        let unit = self.of.unit().symbol();
        let digits = usize::from(self.of.unit() == Unit::Mm);
        // Adding 0 after rounding turns −0 into 0.
        let rounded = |value: f64| {
            let steps = if digits == 0 { 1.0 } else { 10.0 };
            (value * steps).round() / steps + 0.0
        };
        let mean = rounded(found.mean);
        let sign = if mean < 0.0 { -1.0 } else { 1.0 };
        let mut interval = found.mean_interval.map(|end| rounded(sign * end));
        interval.sort_by(f64::total_cmp);
        let [low, high] = interval;
        let [from, to] = found.limits.map(rounded);
        let by = format!("({low:.digits$} to {high:.digits$})");
        let out = match mean.total_cmp(&0.0) {
            Ordering::Less => format!("{:.digits$} {unit} too small {by}", -mean),
            Ordering::Equal => format!("right on average {by}"),
            Ordering::Greater => format!("{mean:.digits$} {unit} too large {by}"),
        };
        format!("{out}; 95 of 100 within {from:.digits$} to {to:.digits$} {unit}")
    }

    /// What is known of it as a bound alone, in words; empty: nothing.
    pub fn bounds_say(&self) -> String {
        match (self.bounds, self.of.what) {
            (0, _) => String::new(),
            (some, ObservationKind::Waist) => format!("{some} waists were not indented"),
            (some, _) => format!("{some} were seen as 0"),
        }
    }
}
