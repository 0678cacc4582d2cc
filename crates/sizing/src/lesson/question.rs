use std::collections::BTreeSet;

/// A question with what may be answered and what is right.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The question.
    pub asks: String,
    /// What may be answered.
    pub choices: Choices,
    /// What is right.
    pub right: Right,
    /// The answer in a few words.
    pub answer: String,
    /// Why, in one sentence.
    pub why: String,
    /// The size in the picture.
    pub shows: String,
}

/// What may be answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Choices {
    /// One of these.
    One(Vec<String>),
    /// Any of these, or none.
    Any(Vec<String>),
    /// A number in a unit.
    Number(&'static str),
}

/// What is right.
#[derive(Clone, Debug, PartialEq)]
pub enum Right {
    /// Any one of these choices, by index.
    OneOf(BTreeSet<usize>),
    /// These choices and no other, by index.
    All(BTreeSet<usize>),
    /// A number this near.
    Near {
        /// The number.
        value: f64,
        /// How far off an answer may be.
        within: f64,
    },
    /// A chance in per cent, which has a score beside right and wrong.
    Chance {
        /// The chance in per cent.
        value: f64,
        /// How far off an answer may be, in per cent.
        within: f64,
    },
}

/// An answer that was given.
#[derive(Clone, Debug, PartialEq)]
pub enum GivenAnswer {
    /// Choices, by index.
    Chosen(BTreeSet<usize>),
    /// A number.
    Number(f64),
}

/// What an answer is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Whether it is right.
    pub is_right: bool,
    /// The Brier score that an answer in per cent would have on average, from 0 (best)
    /// to 1 (Brier, Mon Weather Rev 78 (1950), from memory); `None` of any other.
    pub brier: Option<f64>,
}

/// Why the program has no answer to a question.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoAnswer {
    /// The catalogue lacks the size.
    #[error("no size `{0}` in the catalogue")]
    NoSize(String),
    /// Nothing is in stock.
    #[error("nothing is in stock today")]
    NothingInStock,
    /// The list puts every size that is asked about into one group.
    #[error("none of these sizes stands first: they cannot be told apart")]
    Tied,
    /// No reading is likely to change the state.
    #[error("no single reading is likely to turn the verdict")]
    NothingDecides,
    /// The check has no limit for the size.
    #[error("{check} of the {of} has no limit for {size} in this case")]
    NotAsked {
        /// The check's id.
        check: String,
        /// Its subject.
        of: &'static str,
        /// The size.
        size: String,
    },
    /// What the check needs was not measured.
    #[error("{check} of the {of} is not assessed: a reading is missing")]
    NotAssessed {
        /// The check's id.
        check: String,
        /// Its subject.
        of: &'static str,
    },
    /// The case lacks the reading, or has set it aside.
    #[error("no reading `{0}` in use in this case")]
    NoReading(String),
    /// The check is inside its limit before anything is moved.
    #[error("{0} is inside its limit already: there is nothing to move")]
    InsideAlready(String),
    /// No value of the reading brings the check inside its limit.
    #[error("no value of `{0}` brings the check inside its limit")]
    NeverInside(String),
    /// The case has no chances.
    #[error("no chance is given: the case is not rated")]
    NoChance,
}

impl Question {
    /// The question as it is read: the teacher's words, if there are any, and after them
    /// what exactly is asked for, where that is a number.
    pub fn asked<'a>(&'a self, words: Option<&'a str>) -> Vec<&'a str> {
        match (words, &self.choices) {
            (None, _) => vec![&self.asks],
            (Some(words), Choices::Number(_)) => vec![words, &self.asks],
            (Some(words), Choices::One(_) | Choices::Any(_)) => vec![words],
        }
    }

    /// What an answer is worth.
    pub fn mark(&self, given: &GivenAnswer) -> Mark {
        let (is_right, brier) = match (&self.right, given) {
            (Right::OneOf(right), GivenAnswer::Chosen(chosen)) => {
                (chosen.len() == 1 && chosen.is_subset(right), None)
            }
            (Right::All(right), GivenAnswer::Chosen(chosen)) => (chosen == right, None),
            (Right::Near { value, within }, GivenAnswer::Number(number)) => {
                ((number - value).abs() <= *within, None)
            }
            (Right::Chance { value, within }, GivenAnswer::Number(number)) => (
                (number - value).abs() <= *within,
                Some(brier(number / 100.0, value / 100.0)),
            ),
            (Right::OneOf(_) | Right::All(_), GivenAnswer::Number(_))
            | (Right::Near { .. } | Right::Chance { .. }, GivenAnswer::Chosen(_)) => (false, None),
        };
        Mark { is_right, brier }
    }

    /// An answer that is right.
    pub fn right_answer(&self) -> GivenAnswer {
        match &self.right {
            Right::OneOf(right) => GivenAnswer::Chosen(right.iter().take(1).copied().collect()),
            Right::All(right) => GivenAnswer::Chosen(right.clone()),
            Right::Near { value, .. } | Right::Chance { value, .. } => GivenAnswer::Number(*value),
        }
    }
}

/// The Brier score that is to be expected of a chance that is said where another holds.
fn brier(said: f64, holds: f64) -> f64 {
    holds * (said - 1.0).powi(2) + (1.0 - holds) * said.powi(2)
}

#[cfg(test)]
mod tests {
    use super::brier;

    #[test]
    fn a_guessed_chance_is_scored_by_hand() {
        // Of 10 times 8 hold: each of them scores 0.3², each other 0.7².
        assert!((brier(0.7, 0.8) - (8.0 * 0.09 + 2.0 * 0.49) / 10.0).abs() < 1e-12);
        assert!(brier(0.8, 0.8) < brier(0.7, 0.8));
        assert_eq!(brier(1.0, 1.0), 0.0);
    }
}
