//! The number field of a guide. While it is empty, letters are commands; once it
//! holds anything, every printable key belongs to it, and what was typed is dropped
//! by Esc alone.

use super::items::given;
use super::{After, Ask, Guide, GuideStep, taken};
use crate::key::{Key, KeyCode};
use crate::overlay::{Confirmation, ConfirmationAnswer};
use crate::{Edit, Editor, Model, amount, first_reading};
use measurement::{Quantity, Reading};
use sizing::resolve::neighbour_of;

impl Guide {
    /// A key at the empty field of a quantity.
    pub(super) fn key_of_empty(
        &mut self,
        key: Key,
        quantity: Quantity,
        model: &Model,
    ) -> GuideStep {
        match key.printed() {
            Some('n') => return self.not_there(quantity),
            Some('u') => return GuideStep::Undo,
            Some('e') => return form(quantity, model),
            Some(letter) if !amount::begins_number(letter) => {
                let not_there = neighbour_of(quantity.info().structure).map(|_| "n out of reach, ");
                self.error = Some(format!(
                    "type a number, or: {}e how it was measured, u undo, esc close",
                    not_there.unwrap_or_default()
                ));
            }
            None if key.code == KeyCode::Enter => self.go_on(model),
            _ => {
                self.edit(key);
            }
        }
        GuideStep::Stay
    }

    /// A key while something is typed.
    pub(super) fn key_of_typed(&mut self, key: Key, model: &Model) -> GuideStep {
        let typed = self.editor.text();
        let typed = typed.trim();
        match key.code {
            KeyCode::Enter => return self.take(model),
            KeyCode::Esc => {
                self.error = Some(format!("\"{typed}\" was not taken; esc again closes"));
                self.editor = Editor::default();
            }
            _ if self.edit(key) => {}
            _ => self.error = Some(format!("Enter takes \"{typed}\", esc drops it")),
        }
        GuideStep::Stay
    }

    /// A key while a question about what was typed waits for its answer.
    pub(super) fn key_of_asked(&mut self, asked: Confirmation, key: Key) -> GuideStep {
        match Confirmation::answer(key) {
            ConfirmationAnswer::Keep => return GuideStep::Answer(asked.edit, After::Next),
            ConfirmationAnswer::Drop => {
                self.editor = Editor::default();
                self.error = Some("dropped; type the right value".to_owned());
            }
            ConfirmationAnswer::Correct => {
                self.editor = Editor::selected(self.editor.text());
                self.edit(key);
            }
            ConfirmationAnswer::Nothing => self.asks = Some(asked),
        }
        GuideStep::Stay
    }

    /// Whether the field made something of a key.
    fn edit(&mut self, key: Key) -> bool {
        let is_edited = self.editor.key(key);
        if is_edited {
            self.error = None;
        }
        is_edited
    }

    /// Takes what was typed as the value of the quantity that is asked for.
    fn take(&mut self, model: &Model) -> GuideStep {
        let Ask::Quantity(quantity) = *self.ask() else {
            return GuideStep::Stay;
        };
        let info = quantity.info();
        let text = self.editor.text();
        let value =
            amount::typed(quantity, &text).filter(|value| (info.least..=info.most).contains(value));
        let Some(value) = value else {
            self.error = Some(format!("expected {}", amount::range(quantity)));
            return GuideStep::Stay;
        };
        let edit = given(model, quantity).map_or_else(
            || {
                let reading = first_reading::reading(model.document(), quantity, value);
                Edit::Insert(model.document().case().readings.len(), reading)
            },
            |reading| {
                Edit::Replace(Reading {
                    value,
                    ..reading.clone()
                })
            },
        );
        self.asks = Confirmation::of(&edit, model);
        if self.asks.is_some() {
            // One thing at a time: the question is about what was typed now.
            self.remark = None;
            return GuideStep::Stay;
        }
        GuideStep::Answer(edit, After::Next)
    }

    fn not_there(&mut self, quantity: Quantity) -> GuideStep {
        if let Some(neighbour) = neighbour_of(quantity.info().structure) {
            return GuideStep::Answer(Edit::Absent(neighbour, true), After::Next);
        }
        self.error = Some("only a valve or an outflow tract can be out of reach".to_owned());
        GuideStep::Stay
    }
}

/// The form of the reading that serves, or of a new one.
fn form(quantity: Quantity, model: &Model) -> GuideStep {
    let given = given(model, quantity);
    let value = given.map(|reading| amount::number(quantity, reading.value));
    let reading = taken(model, quantity, "");
    GuideStep::Form {
        is_new: given.is_none(),
        reading: Box::new(reading),
        value: value.unwrap_or_default(),
    }
}
