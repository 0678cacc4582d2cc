//! The page as plain data, from which alone text, JSON and screen are written.

use crate::limits::Bearing;
use measurement::{Interval, Quantity, Unit};

/// A section of the page: lines in order under a title.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The id of the section, the same in every run.
    pub id: &'static str,
    /// The title.
    pub title: &'static str,
    /// A sentence that holds of all lines; may be empty.
    pub says: String,
    /// The lines.
    pub lines: Vec<Line>,
}

/// A value with its unit and the number of decimals that are significant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// The value.
    pub value: f64,
    /// The unit.
    pub unit: Unit,
    /// The number of decimals shown.
    pub decimals: usize,
}

/// The state of a line, which is never shown by colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// A figure or a fact, neither good nor bad.
    Plain,
    /// A published limit is met.
    Met,
    /// A published limit is not met.
    NotMet,
    /// What the line depends on was not measured.
    NotKnown,
    /// A figure that is uncertain for the reason in its note.
    Warned,
    /// A figure that the program refuses to give, for the reason in its note.
    Refused,
    /// Two values that cannot both be right.
    Contradiction,
}

/// One line of a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The id of the line, the same in every run.
    pub id: String,
    /// The subject of the line.
    pub label: String,
    /// The value as measured, where the line has one.
    pub amount: Option<Amount>,
    /// The interval that holds 95 % of the draws, in the same unit.
    pub interval: Option<Interval>,
    /// The share of the draws in which it is met.
    pub chance: Option<f64>,
    /// The state of the line.
    pub state: State,
    /// The note beside it; may be empty.
    pub note: String,
    /// The source; may be empty.
    pub source: String,
    /// The bearing of a line of guidance.
    pub bearing: Option<Bearing>,
    /// The quantities that contradict each other, of a contradiction.
    pub on: Vec<Quantity>,
}

impl Section {
    pub(crate) const fn new(id: &'static str, title: &'static str, lines: Vec<Line>) -> Self {
        Self {
            id,
            title,
            says: String::new(),
            lines,
        }
    }
}

impl Line {
    /// A line of words alone.
    pub(crate) fn plain(id: impl Into<String>, label: impl Into<String>) -> Self {
        Self {
            id: id.into(),
            label: label.into(),
            amount: None,
            interval: None,
            chance: None,
            state: State::Plain,
            note: String::new(),
            source: String::new(),
            bearing: None,
            on: Vec::new(),
        }
    }

    /// The line with the quantities that contradict each other.
    pub(crate) fn on(mut self, quantities: &[Quantity]) -> Self {
        self.on = quantities.to_vec();
        self
    }

    pub(crate) const fn state(mut self, state: State) -> Self {
        self.state = state;
        self
    }

    pub(crate) fn note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }

    pub(crate) fn source(mut self, source: impl Into<String>) -> Self {
        self.source = source.into();
        self
    }

    /// Its value and interval: `2.4 (1.9 to 3.1) L/min/m²`; empty without one.
    pub fn told(&self) -> String {
        let Some(amount) = self.amount else {
            return String::new();
        };
        let value = amount.number(amount.value);
        let interval = self.interval.map_or_else(String::new, |it| {
            format!(" ({} to {})", amount.number(it.low), amount.number(it.high))
        });
        format!("{value}{interval} {}", amount.unit.symbol())
            .trim_end()
            .to_owned()
    }

    /// Whether a published limit holds of the case, and how likely that is:
    /// `no (< 1 % likely)`; empty for a line of another kind.
    pub fn standing(&self) -> String {
        let word = match self.state {
            State::Met => "yes",
            State::NotMet => "no",
            _ => return String::new(),
        };
        self.chance.map_or_else(
            || self.state.word().to_owned(),
            |chance| format!("{word} ({} likely)", likely(chance)),
        )
    }
}

/// A chance as whole per cent; next to none and next to all are said as bounds.
fn likely(chance: f64) -> String {
    let percent = 100.0 * chance;
    if percent < 1.0 {
        "< 1 %".to_owned()
    } else if percent > 99.0 {
        "> 99 %".to_owned()
    } else {
        format!("{percent:.0} %")
    }
}

impl Amount {
    /// A figure with its decimals; a rounded zero bears no sign.
    pub fn number(&self, value: f64) -> String {
        let text = format!("{value:.*}", self.decimals);
        match text.strip_prefix('-') {
            Some(rest) if rest.chars().all(|it| matches!(it, '0' | '.')) => rest.to_owned(),
            _ => text,
        }
    }
}

impl State {
    /// The sign for it, where there is room for no more.
    pub const fn glyph(self) -> &'static str {
        match self {
            Self::Plain => "·",
            Self::Met => "✓",
            Self::NotMet => "–",
            Self::NotKnown => "?",
            Self::Warned => "!",
            Self::Refused => "✗",
            Self::Contradiction => "≠",
        }
    }

    /// The word for it in output; empty for a plain line.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plain => "",
            Self::Met => "met",
            Self::NotMet => "not met",
            Self::NotKnown => "not known",
            Self::Warned => "warning",
            Self::Refused => "refused",
            Self::Contradiction => "does not add up",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_tells_value_interval_and_unit() {
        let mut line = Line::plain("x", "x");
        assert_eq!(line.told(), "");
        line.amount = Some(Amount {
            value: 2.44,
            unit: Unit::MmHg,
            decimals: 1,
        });
        assert_eq!(line.told(), "2.4 mmHg");
        line.interval = Some(Interval {
            low: -0.01,
            high: 3.0,
        });
        assert_eq!(line.told(), "2.4 (0.0 to 3.0) mmHg");
    }

    #[test]
    fn a_limit_that_never_holds_does_not_read_as_always_met() {
        let line = |state, chance| {
            let mut line = Line::plain("x", "x").state(state);
            line.chance = chance;
            line.standing()
        };
        assert_eq!(line(State::NotMet, Some(0.0)), "no (< 1 % likely)");
        assert_eq!(line(State::NotMet, Some(0.314)), "no (31 % likely)");
        assert_eq!(line(State::Met, Some(1.0)), "yes (> 99 % likely)");
        assert_eq!(line(State::NotMet, None), "not met");
        assert_eq!(line(State::Plain, Some(0.5)), "");
    }
}
