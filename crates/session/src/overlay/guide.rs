//! A case asked for question by question.

mod footer;
mod items;
mod number;
mod remark;
mod text;

pub(crate) use items::GuideItem;
pub use items::{Ask, Chapter};
pub(crate) use text::closing;
pub use text::{GuideLine, GuideText, Mark};

use super::Confirmation;
use super::layer::{Layer, Outcome};
use super::step::{After, GuideStep};
use crate::editor::Editor;
use crate::fact::choices;
use crate::hint::Hint;
use crate::key::{Key, KeyCode};
use crate::{Edit, Model, Row, amount, first_reading};
use items::{asked, given, is_open};
use measurement::{Quantity, Reading};
use sizing::{Answer, Case, Fact};
use std::sync::Arc;

/// What a defect needs, asked one question at a time with all of them in sight.
/// Every answer is in the case as soon as it is given. It takes every key but
/// those held with Ctrl.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// The questions, in their order.
    pub(crate) asked: Vec<GuideItem>,
    /// The one that is asked now.
    pub(crate) place: usize,
    /// What was typed as its value; empty where nothing was typed yet, also where the
    /// case has a value already.
    pub editor: Editor,
    /// What is wrong with what was typed.
    pub error: Option<String>,
    /// What is asked back about what was typed, before it is taken.
    pub asks: Option<Confirmation>,
    /// What is odd about the answer before, though it was taken.
    pub remark: Option<String>,
    /// The case that the questions are about.
    case: Arc<Case>,
}

impl Guide {
    /// A guide at the first open question of the open case.
    pub(crate) fn new(model: &Model) -> Self {
        let mut guide = Self {
            asked: asked(model),
            place: 0,
            editor: Editor::default(),
            error: None,
            asks: None,
            remark: None,
            case: Arc::clone(&model.document().case),
        };
        let first = guide.open_from(model, 0);
        guide.go(first);
        guide
    }

    /// Whether it is about the case as it is now.
    pub(crate) fn is_of(&self, case: &Arc<Case>) -> bool {
        Arc::ptr_eq(&self.case, case)
    }

    /// What is asked now.
    pub fn ask(&self) -> &Ask {
        self.asked
            .get(self.place)
            .map_or(&Ask::List, |asked| &asked.ask)
    }

    /// Asks what the case as it is now needs, and of that what a line of the list
    /// of readings is about.
    pub(crate) fn follow(&mut self, model: &Model, row: Option<&Row>) {
        let was = self.ask().clone();
        self.asked = asked(model);
        self.case = Arc::clone(&model.document().case);
        let about = row.and_then(|row| self.asked.iter().position(|one| one.ask.is_about(row)));
        let same = || self.asked.iter().position(|one| one.ask == was);
        let beside = || {
            let neighbour = was.neighbour()?;
            let of = |one: &GuideItem| one.ask.neighbour() == Some(neighbour);
            self.asked.iter().position(of)
        };
        let place = about.or_else(same).or_else(beside).unwrap_or(self.place);
        self.go(place);
    }

    /// Asks what is open next.
    fn go_on(&mut self, model: &Model) {
        let list = self.list();
        let next = if self.place < list {
            self.open_from(model, self.place + 1)
        } else if self.place + 1 < self.asked.len() {
            self.place + 1
        } else {
            list
        };
        self.go(next);
    }

    /// Goes on after an answer that was taken, and says what is odd in the case
    /// that was not before.
    pub(crate) fn answered(&mut self, model: &Model, before: &[String], after: After) {
        self.follow(model, model.row());
        if after == After::Next {
            self.go_on(model);
        }
        self.remark = remark::remarks(model)
            .into_iter()
            .find(|remark| !before.contains(remark));
    }

    /// What is odd in a case before an answer.
    pub(crate) fn remarks(model: &Model) -> Vec<String> {
        remark::remarks(model)
    }

    fn step(&mut self, key: Key, model: &Model) -> GuideStep {
        if let Some(asked) = self.asks.take() {
            return self.key_of_asked(asked, key);
        }
        if !self.editor.is_empty() {
            return self.key_of_typed(key, model);
        }
        if key.ctrl {
            return GuideStep::Pass;
        }
        let last = self.asked.len().saturating_sub(1);
        match key.code {
            KeyCode::Esc => return GuideStep::Close,
            KeyCode::Tab if key.shift => self.go(self.place.saturating_sub(1)),
            KeyCode::Up => self.go(self.place.saturating_sub(1)),
            KeyCode::Down | KeyCode::Tab => self.go((self.place + 1).min(last)),
            KeyCode::PageUp => self.go(self.chapter_beside(false)),
            KeyCode::PageDown => self.go(self.chapter_beside(true)),
            _ => return self.answer(key, model),
        }
        GuideStep::Stay
    }

    fn is_typed(&self) -> bool {
        matches!(self.ask(), Ask::Quantity(_))
    }

    fn answer(&mut self, key: Key, model: &Model) -> GuideStep {
        let case = model.document().case();
        match self.ask().clone() {
            Ask::Quantity(quantity) => self.key_of_empty(key, quantity, model),
            Ask::Absent(neighbour) => match key.code {
                KeyCode::Char('n') => {
                    GuideStep::Answer(Edit::Absent(neighbour, false), After::Same)
                }
                _ => self.other(key, model),
            },
            Ask::Fact(fact) => self.fact(key, model, fact),
            Ask::Exclusion(id) => {
                let was = case.exclusions.get(&id).copied().unwrap_or_default();
                self.question(key, model, was, |answer| {
                    Edit::Exclusion(id.clone(), Some(answer))
                })
            }
            Ask::Finding(finding) => {
                let was = case.findings.get(&finding).copied().unwrap_or_default();
                self.question(key, model, was, |answer| {
                    Edit::Finding(finding, Some(answer))
                })
            }
            Ask::List => match key.code {
                KeyCode::Enter => GuideStep::Close,
                _ => self.other(key, model),
            },
        }
    }

    /// A key that means the same wherever nothing is typed.
    fn other(&mut self, key: Key, model: &Model) -> GuideStep {
        match key.code {
            KeyCode::Enter => self.go_on(model),
            KeyCode::Char('u') => return GuideStep::Undo,
            _ => self.error = Some("Enter goes on, up goes back, u undoes, esc closes".to_owned()),
        }
        GuideStep::Stay
    }

    fn question(
        &mut self,
        key: Key,
        model: &Model,
        was: Answer,
        edit: impl Fn(Answer) -> Edit,
    ) -> GuideStep {
        let answer = match key.code {
            KeyCode::Char('y') => Answer::Yes,
            KeyCode::Char('n') => Answer::No,
            KeyCode::Char('?') => Answer::Unknown,
            KeyCode::Enter | KeyCode::Char('u') => return self.other(key, model),
            _ => {
                self.error = Some("y yes, n no, ? not known, u undo".to_owned());
                return GuideStep::Stay;
            }
        };
        if answer == was {
            self.go_on(model);
            return GuideStep::Stay;
        }
        // What stops every shape is said before anything else is asked.
        let stops = answer == Answer::Yes && matches!(self.ask(), Ask::Exclusion(_));
        let after = if stops { After::Same } else { After::Next };
        GuideStep::Answer(edit(answer), after)
    }

    /// A key on the question after a fact.
    fn fact(&mut self, key: Key, model: &Model, fact: Fact) -> GuideStep {
        if matches!(key.code, KeyCode::Enter | KeyCode::Char('u')) {
            return self.other(key, model);
        }
        let offered = choices(fact);
        let letter = key.printed();
        let Some(choice) = offered.iter().find(|one| Some(one.key) == letter) else {
            let keys: Vec<String> = offered
                .iter()
                .map(|one| format!("{} {}", one.key, one.says))
                .collect();
            self.error = Some(keys.join(", "));
            return GuideStep::Stay;
        };
        if choice.value == model.document().case().facts.get(fact) {
            self.go_on(model);
            return GuideStep::Stay;
        }
        GuideStep::Answer(Edit::Fact(choice.value), After::Next)
    }

    /// Where the list stands among the questions: what stands behind it is
    /// optional.
    pub(crate) fn list(&self) -> usize {
        let is_list = |one: &GuideItem| one.ask == Ask::List;
        self.asked.iter().position(is_list).unwrap_or(0)
    }

    /// The first open question from a place on that the list needs; else the list.
    fn open_from(&self, model: &Model, from: usize) -> usize {
        let list = self.list();
        (from..list)
            .find(|&place| is_open(model, &self.asked[place]))
            .unwrap_or(list)
    }

    /// The first question of the chapter beside.
    fn chapter_beside(&self, forward: bool) -> usize {
        let chapter = |place: usize| self.asked.get(place).map(|one| one.chapter);
        let begins = |place: &usize| *place == 0 || chapter(*place) != chapter(place - 1);
        let beside = if forward {
            (self.place + 1..self.asked.len()).find(begins)
        } else {
            (0..self.place).rev().find(begins)
        };
        beside.unwrap_or(self.place)
    }

    fn go(&mut self, place: usize) {
        self.place = place.min(self.asked.len().saturating_sub(1));
        self.error = None;
        self.asks = None;
        self.remark = None;
        self.editor = Editor::default();
    }
}

impl Layer for Guide {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        match self.step(key, model) {
            GuideStep::Stay => Outcome::Stay,
            GuideStep::Pass => Outcome::Pass,
            step => Outcome::Guide(step),
        }
    }

    fn paste(&mut self, text: &str) {
        if self.is_typed() {
            // What is pasted after a question is the right value.
            if self.asks.take().is_some() {
                self.editor = Editor::default();
            }
            self.editor.paste(text);
            self.error = None;
        }
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        self.hints()
    }
}

/// The reading that serves, or a new one of what was typed so far.
fn taken(model: &Model, quantity: Quantity, text: &str) -> Reading {
    given(model, quantity).cloned().unwrap_or_else(|| {
        let value = amount::typed(quantity, text).unwrap_or(quantity.info().least);
        first_reading::reading(model.document(), quantity, value)
    })
}
