use super::ListFilter;
use super::layer::{Layer, Outcome};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::keymap::Binding;
use crate::model::Model;
use measurement::Quantity;
use sizing::Candidate;

/// What the list of keys finds.
#[derive(Clone, Debug, PartialEq)]
pub enum CommandMatch {
    /// A command by its id, to be run.
    Command(&'static str),
    /// A quantity, to be gone to.
    Quantity(Quantity),
    /// A size of the ranked list by its place on the shelf, to be selected there.
    Size(usize),
}

/// Every command with its keys: the help, and a way to run what has no key. What is
/// typed finds quantities and sizes as well.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CommandList {
    /// What was typed to find one, and which of those found is selected.
    pub filter: ListFilter,
}

impl CommandList {
    /// The commands whose name, description, id or keys hold every word typed; behind
    /// them quantities by the words of the trade, and sizes of the ranked list by name.
    pub fn found(&self, model: &Model) -> Vec<CommandMatch> {
        let bindings = model.keymap().bindings().iter();
        let is_found = |binding: &&Binding| {
            let keys: Vec<String> = binding.keys.iter().map(Key::to_string).collect();
            let text = format!("{} {} {}", binding.id, binding.text, keys.join(" "));
            self.filter.holds(&text)
        };
        let commands = bindings.filter(is_found);
        let mut found: Vec<CommandMatch> =
            commands.map(|it| CommandMatch::Command(it.id)).collect();
        let text = self.filter.editor.text();
        if text.trim().is_empty() {
            return found;
        }
        let has_row = |quantity: &Quantity| model.row_of(*quantity, None).is_some();
        let quantities = Quantity::named_by(&text).into_iter();
        found.extend(quantities.filter(has_row).map(CommandMatch::Quantity));
        let listed = model.listed().into_iter();
        let name = |one: &Candidate| format!("{} {}", one.name(), one.shape_name);
        let sizes = listed.filter(|one| self.filter.holds(&name(one)));
        found.extend(sizes.map(|one| CommandMatch::Size(one.place)));
        found
    }

    /// What the selected line does.
    fn chosen(&self, model: &Model) -> Outcome {
        match self.found(model).get(self.filter.selected) {
            None => Outcome::Close,
            Some(CommandMatch::Command(id)) => Outcome::Run(id),
            Some(CommandMatch::Quantity(quantity)) => Outcome::GoTo(*quantity),
            Some(CommandMatch::Size(place)) => Outcome::Select(*place),
        }
    }
}

impl Layer for CommandList {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        match key.code {
            KeyCode::Enter => return self.chosen(model),
            KeyCode::Esc if self.filter.editor.is_empty() => return Outcome::Close,
            KeyCode::Esc => {
                self.filter.type_in(Editor::default());
            }
            _ => {
                let last = self.found(model).len().saturating_sub(1);
                self.filter.key(key, last, model.view().visible.overlay);
            }
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        self.filter.paste(text);
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        hints(&[
            ("enter", "run, or go to it"),
            ("up", "up"),
            ("down", "down"),
            ("esc", "close"),
        ])
    }
}
