use crate::procedure::{ObservationKind, Seen, Takes};
use measurement::observation::{AnswerLaw, ValueLaw};
use measurement::{Answer, Regurgitation};

/// The law of a kind of observation, as a house has it.
#[derive(Clone, Debug, PartialEq)]
pub struct ObservationRow {
    /// What is seen.
    pub what: ObservationKind,
    /// Its law.
    pub law: ObservationLaw,
    /// Its source.
    pub source: String,
}

/// How likely something is to be seen where a value was modelled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ObservationLaw {
    /// Of a value.
    Value(ValueLaw),
    /// Of a yes or no: a grade or a width counts as yes where it is one at all.
    Answer(AnswerLaw),
}

impl ObservationLaw {
    /// What was seen as this law takes it: a value, or an answer.
    ///
    /// One entry serves criterion and weight: any width of a jet over 0 and any new
    /// regurgitation of a trace or more is a yes.
    pub fn taken(&self, seen: Seen, before: Option<Seen>) -> Option<Seen> {
        match (self, seen) {
            (Self::Value(_), Seen::Value(_))
            | (Self::Answer(_), Seen::Answer(Answer::Yes | Answer::No)) => Some(seen),
            (Self::Answer(_), Seen::Value(width)) => Some(answer(width > 0.0)),
            (Self::Answer(_), Seen::Grade(grade)) => {
                let before = before.filter(|before| before.is_told());
                let nothing = Seen::Grade(Regurgitation::None);
                let order = seen.against(before.unwrap_or(nothing))?;
                Some(answer(grade != Regurgitation::None && order.is_gt()))
            }
            _ => None,
        }
    }

    /// The likelihood of what was taken, where a value was modelled.
    pub fn likelihood(&self, modelled: f64, taken: Seen) -> f64 {
        match (self, taken) {
            (Self::Value(law), Seen::Value(value)) => law.likelihood(modelled, value),
            (Self::Answer(law), Seen::Answer(answer)) => law.likelihood(modelled, answer),
            _ => 1.0,
        }
    }

    /// The same for an observer who is never altogether wrong, never misses and never
    /// errs.
    pub fn faultless(&self, modelled: f64, taken: Seen) -> f64 {
        match (self, taken) {
            (Self::Value(law), Seen::Value(value)) => law.faultless().likelihood(modelled, value),
            (Self::Answer(law), Seen::Answer(answer)) => {
                law.faultless().likelihood(modelled, answer)
            }
            _ => 1.0,
        }
    }

    /// How little a faultless observer was to expect what was taken, where a value was
    /// modelled: the chance of as low a value and of as high a one, or of the answer
    /// twice.
    pub fn expected(&self, modelled: f64, taken: Seen) -> [f64; 2] {
        match (self, taken) {
            (Self::Value(law), Seen::Value(value)) => law.faultless().tails(modelled, value),
            (Self::Answer(law), Seen::Answer(answer)) => {
                [law.faultless().likelihood(modelled, answer); 2]
            }
            _ => [1.0; 2],
        }
    }

    /// The same law with the observer's own standard deviation.
    #[must_use]
    pub(crate) fn with_sd(self, sd: Option<f64>) -> Self {
        match (self, sd) {
            (Self::Value(law), Some(sd)) => Self::Value(ValueLaw {
                sd: measurement::observation::Spread::constant(sd),
                ..law
            }),
            _ => self,
        }
    }

    /// Whether it is of what a kind of observation takes.
    pub const fn is_of(&self, kind: ObservationKind) -> bool {
        match self {
            Self::Value(_) => {
                matches!(kind.takes(), Takes::Value) && !matches!(kind, ObservationKind::EdgeJet)
            }
            Self::Answer(_) => {
                !matches!(kind.takes(), Takes::Value | Takes::Rhythm)
                    || matches!(kind, ObservationKind::EdgeJet)
            }
        }
    }
}

const fn answer(is_so: bool) -> Seen {
    Seen::Answer(if is_so { Answer::Yes } else { Answer::No })
}
