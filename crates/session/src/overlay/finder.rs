use super::ListFilter;
use super::layer::{Layer, Outcome};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::model::Model;
use crate::row::Row;
use measurement::Quantity;

/// A quantity is found by the words of the trade, whether it was measured or not; it
/// takes every key.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Finder {
    /// What was typed to find one, and which of those found is selected.
    pub filter: ListFilter,
}

impl Finder {
    /// The quantities that have a line and that the words typed name; without words
    /// every one, in the order of the list.
    pub fn found(&self, model: &Model) -> Vec<Quantity> {
        let text = self.filter.editor.text();
        let has_row = |quantity: &Quantity| model.row_of(*quantity, None).is_some();
        if !text.trim().is_empty() {
            let named = Quantity::named_by(&text).into_iter();
            return named.filter(has_row).collect();
        }
        let mut all: Vec<Quantity> = model.rows().iter().filter_map(Row::quantity).collect();
        all.dedup();
        all
    }
}

impl Layer for Finder {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        let found = self.found(model);
        match key.code {
            KeyCode::Enter => {
                let selected = found.get(self.filter.selected);
                return selected.map_or(Outcome::Stay, |one| Outcome::GoTo(*one));
            }
            KeyCode::Esc if self.filter.editor.is_empty() => return Outcome::Close,
            KeyCode::Esc => {
                self.filter.type_in(Editor::default());
            }
            _ => {
                let last = found.len().saturating_sub(1);
                self.filter.key(key, last, model.view().visible.overlay);
            }
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        self.filter.paste(text);
    }

    fn footer(&self, _model: &Model) -> Vec<Hint> {
        hints(&[
            ("enter", "go to it, or type its value"),
            ("up", "up"),
            ("down", "down"),
            ("esc", "close"),
        ])
    }
}
