use crate::Change;
use crate::key::{Key, KeyCode};

/// A question with a few answers, each on a key; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is asked.
    pub asks: String,
    /// What it is about, line by line.
    pub about: Vec<String>,
    /// The answers.
    pub choices: Vec<Choice>,
    /// What Esc does, which leaves it unanswered; `None`: it has to be answered.
    pub wait: Option<&'static str>,
}

/// An answer to a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its key.
    pub key: char,
    /// What it does, in a few words.
    pub does: &'static str,
    /// What it changes.
    pub(crate) change: Change,
}

/// What a question makes of a key.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Answered {
    /// It was answered.
    With(Change),
    /// It was closed without an answer.
    NotNow,
    /// It still waits.
    NotYet,
}

impl Question {
    /// A question that Esc leaves unanswered.
    pub(crate) fn new(asks: impl Into<String>, choices: Vec<Choice>) -> Self {
        Self {
            asks: asks.into(),
            about: Vec::new(),
            choices,
            wait: Some("stay"),
        }
    }

    pub(crate) fn key(&self, key: Key) -> Answered {
        let letter = key.printed();
        let choice = self.choices.iter().find(|one| Some(one.key) == letter);
        match choice {
            Some(choice) => Answered::With(choice.change.clone()),
            None if key.code == KeyCode::Esc && self.wait.is_some() => Answered::NotNow,
            None => Answered::NotYet,
        }
    }
}
