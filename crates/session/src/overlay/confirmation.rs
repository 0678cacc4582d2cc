use super::capital;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::{Edit, Model, amount};
use measurement::{Quantity, Reading, ReadingId};
use sizing::{Implausible, Setting, implausible, repeated};
use std::sync::Arc;

/// A question that a typed value asks back before it is taken: a value outside wide
/// bounds, or a reading that stands in the case already.
#[derive(Clone, Debug, PartialEq)]
pub struct Confirmation {
    /// The question, and how it is answered.
    pub asks: String,
    /// What is done where the answer is yes.
    pub(crate) edit: Edit,
}

/// What a key answers to a question about a typed value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ConfirmationAnswer {
    /// The value is right.
    Keep,
    /// It is not to be taken.
    Drop,
    /// It is being corrected by this key, which the field takes.
    Correct,
    /// Nothing: the question stays.
    Nothing,
}

impl Confirmation {
    /// What an edit of a reading asks back; `None` where nothing is odd that was not
    /// odd before, or where the edit cannot be made.
    pub(crate) fn of(edit: &Edit, model: &Model) -> Option<Self> {
        let document = model.document();
        let (Edit::Insert(_, reading) | Edit::Replace(reading)) = edit else {
            return None;
        };
        let (id, quantity, value) = (&reading.id, reading.quantity, reading.value);
        let is_same = |was: &Reading| {
            let (sd, set_aside) = (was.sd, was.set_aside.clone());
            *was == Reading {
                sd,
                set_aside,
                ..reading.clone()
            }
        };
        if document.reading(id).is_some_and(is_same) {
            return None;
        }
        let mut changed = document.clone();
        edit.apply(&mut changed).ok()?;
        let question = twice(model, &changed.case, id)
            .or_else(|| out_of_bounds(model, &changed.case, (id, quantity, value)))?;
        Some(Self {
            asks: format!("{question} y keeps it, n drops it; or type the right value."),
            edit: edit.clone(),
        })
    }

    /// What a key answers.
    pub(crate) fn answer(key: Key) -> ConfirmationAnswer {
        match (key.printed(), key.code) {
            (Some('y'), _) => ConfirmationAnswer::Keep,
            (Some('n'), _) | (_, KeyCode::Esc) => ConfirmationAnswer::Drop,
            (Some(letter), _) if amount::begins_number(letter) => ConfirmationAnswer::Correct,
            (
                _,
                KeyCode::Backspace
                | KeyCode::Delete
                | KeyCode::Left
                | KeyCode::Right
                | KeyCode::Home
                | KeyCode::End,
            ) => ConfirmationAnswer::Correct,
            _ => ConfirmationAnswer::Nothing,
        }
    }
}

/// The keys that answer one.
pub(super) fn footer() -> Vec<Hint> {
    hints(&[
        ("y", "keep it"),
        ("n", "drop it"),
        ("0-9", "the right value"),
    ])
}

/// Asks about a reading that is the same as another.
fn twice(model: &Model, changed: &sizing::Case, id: &ReadingId) -> Option<String> {
    let is_of = |one: &sizing::Repeated| one.first == *id || one.second == *id;
    let was = repeated(model.document().case()).iter().any(is_of);
    let mut now = repeated(changed).into_iter();
    let found = now.find(is_of).filter(|_| !was)?;
    Some(format!(
        "Was the {} measured twice? The same value is there already, and each would count.",
        found.quantity
    ))
}

/// Asks about a value that is outside its wide bounds, or puts others outside theirs.
fn out_of_bounds(
    model: &Model,
    changed: &Arc<sizing::Case>,
    (id, quantity, value): (&ReadingId, Quantity, f64),
) -> Option<String> {
    let before = implausible(model.setting());
    let rules = Arc::clone(&model.document().rules);
    let after = implausible(&Setting::new(Arc::clone(changed), rules));
    let is_new = |one: &&Implausible| {
        let is_same = |it: &&Implausible| it.reading == one.reading && it.value == one.value;
        before.iter().find(is_same).is_none()
    };
    let new: Vec<&Implausible> = after.iter().filter(is_new).collect();
    let asked = format!(
        "Is {} right for the {quantity}?",
        amount::said(quantity, value)
    );
    if let Some(own) = new.iter().find(|one| one.reading == *id) {
        return Some(format!("{asked} {}.", capital(&own.expected())));
    }
    let (first, more) = new.split_first()?;
    let more = match more.len() {
        0 => String::new(),
        1 => " One other value does not agree with it.".to_owned(),
        count => format!(" {count} other values do not agree with it."),
    };
    Some(format!("{asked} {}.{more}", capital(&first.says())))
}
