use super::layer::{Layer, Outcome};
use super::task::Task;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::model::Model;

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
    /// What is said of a key that answers nothing; empty before the first.
    pub refused: String,
}

/// An answer to a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its key.
    pub key: char,
    /// What it does, in a few words.
    pub does: &'static str,
    /// What is done.
    pub(crate) task: Task,
}

impl Question {
    /// A question that Esc leaves unanswered.
    pub(crate) fn new(asks: impl Into<String>, choices: Vec<Choice>) -> Self {
        Self {
            asks: asks.into(),
            about: Vec::new(),
            choices,
            wait: Some("stay"),
            refused: String::new(),
        }
    }
}

impl Layer for Question {
    fn key(&mut self, key: Key, _session: &Model) -> Outcome {
        let letter = key.printed();
        let choice = self.choices.iter().find(|one| Some(one.key) == letter);
        match choice {
            Some(choice) => Outcome::Answer(choice.task.clone()),
            None if key.code == KeyCode::Esc && self.wait.is_some() => Outcome::Close,
            None => {
                let mut keys: Vec<String> =
                    self.choices.iter().map(|one| one.key.to_string()).collect();
                keys.extend(self.wait.map(|_| "esc".to_owned()));
                self.refused = format!("{key} is no answer here; {} is", keys.join(" or "));
                Outcome::Stay
            }
        }
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        let choices = self.choices.iter().map(|choice| Hint {
            key: choice.key.to_string(),
            does: choice.does,
        });
        let wait = self.wait.map(|wait| hints(&[("esc", wait)]));
        choices.chain(wait.into_iter().flatten()).collect()
    }
}
