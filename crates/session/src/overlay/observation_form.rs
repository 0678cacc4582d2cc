use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::trial_row::{degrees_of, hour_of};
use crate::{Edit, Model, Refused, trials};
use sizing::trial::{Observation, ObservationKind, Seen, Trial};
use std::ops::RangeInclusive;
use std::sync::Arc;

/// A line of the form of an observation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ObservationPart {
    /// What was seen, where that is a number.
    Value,
    /// The observer's standard deviation.
    Sd,
    /// The hour of the clock of a jet.
    Hour,
    /// The minute since puncture.
    Minute,
}

impl ObservationPart {
    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Value => "value",
            Self::Sd => "SD",
            Self::Hour => "o'clock",
            Self::Minute => "minute",
        }
    }
}

/// What was seen, to be corrected line by line.
pub type ObservationForm = Form<Observation, ObservationPart>;

/// The minutes of a day: no procedure is longer.
const MOST_MINUTES: f64 = 1440.0;

impl ObservationForm {
    pub(crate) fn new(seen: Observation, is_later: bool) -> Self {
        let number = |value: Option<f64>| {
            FormEntry::typed(value.map_or_else(String::new, |value| value.to_string()))
        };
        let mut lines = Vec::new();
        if let Seen::Value(value) = seen.seen {
            lines.push((ObservationPart::Value, number(Some(value))));
            lines.push((ObservationPart::Sd, number(seen.sd)));
        }
        if seen.what == ObservationKind::EdgeJet {
            let hour = seen
                .clock_position
                .map(|degrees| f64::from(hour_of(degrees)));
            lines.push((ObservationPart::Hour, number(hour)));
        }
        // A follow-up counts days, and on a day its minute is nobody's matter.
        if !is_later {
            lines.push((ObservationPart::Minute, number(seen.min)));
        }
        Self::with(seen, lines)
    }

    /// What is corrected, short enough for a line.
    pub fn title(&self) -> String {
        format!("correct what was seen: {}", self.of.what.label())
    }

    /// What an empty line means.
    pub const fn beside(part: ObservationPart) -> &'static str {
        match part {
            ObservationPart::Value => "",
            ObservationPart::Sd => "empty: your centre's",
            ObservationPart::Hour => "1 to 12 o'clock; empty: all round",
            ObservationPart::Minute => "since puncture; empty: not known",
        }
    }

    fn within(
        &self,
        part: ObservationPart,
        unit: &str,
        range: RangeInclusive<f64>,
    ) -> Result<Option<f64>, FormError<ObservationPart>> {
        match self.number(part, unit) {
            Ok(None) => Ok(None),
            Ok(Some(value)) if range.contains(&value) => Ok(Some(value)),
            _ => {
                let (from, to) = (range.start(), range.end());
                Err(wrong(
                    part,
                    &format!("expected a number from {from} to {to}"),
                ))
            }
        }
    }
}

fn wrong(part: ObservationPart, says: &str) -> FormError<ObservationPart> {
    FormError::on(part, part.label(), says)
}

impl FormSubject<ObservationPart> for Observation {
    fn read(form: &ObservationForm, model: &Model) -> Result<Task, FormError<ObservationPart>> {
        let mut seen = form.of.clone();
        let kind = seen.what;
        let unit = kind.unit().map_or("", measurement::Unit::symbol);
        if let Seen::Value(_) = seen.seen {
            let value = form.within(ObservationPart::Value, unit, kind.least()..=kind.most())?;
            let (least, most) = (kind.least(), kind.most());
            let says = format!("expected a number from {least} to {most} {unit}");
            let value = value.ok_or_else(|| wrong(ObservationPart::Value, &says))?;
            seen.seen = Seen::Value(value);
            seen.sd = form.within(ObservationPart::Sd, unit, 0.0..=kind.most())?;
            if seen.sd == Some(0.0) {
                return Err(wrong(ObservationPart::Sd, "expected more than 0"));
            }
        }
        if kind == ObservationKind::EdgeJet {
            let hour = form.within(ObservationPart::Hour, "", 0.0..=12.0)?;
            seen.clock_position = hour.map(degrees_of);
        }
        let trials = &model.document().case().procedure.trials;
        let is_its = |trial: &&Trial| trial.seen.iter().any(|one| one.id == seen.id);
        let (from, to) = trials
            .iter()
            .find(is_its)
            .map_or((0.0, MOST_MINUTES), |trial| {
                (trial.opened_min, trial.closed_min.unwrap_or(MOST_MINUTES))
            });
        let is_later = !form
            .lines
            .iter()
            .any(|(part, _)| *part == ObservationPart::Minute);
        if !is_later {
            seen.min = form.within(ObservationPart::Minute, "min", from..=to)?;
        }
        if seen == form.of {
            return Err(Refused::SameObservation.into());
        }
        let mut procedure = model.document().case().procedure.clone();
        let there = procedure.observation_mut(&seen.id);
        let there = there.map_err(Refused::from)?;
        let called = format!("corrected: {}, {}", kind.label(), seen.seen.says(kind));
        let row = trials::row_of(&seen, is_later);
        *there = seen;
        Ok(Task::Edit(Edit::Procedure {
            procedure: Arc::new(procedure),
            called,
            row,
        }))
    }
}
