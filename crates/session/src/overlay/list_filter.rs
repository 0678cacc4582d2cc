use crate::editor::Editor;
use crate::key::{Key, KeyCode};

/// A line of text that filters a list, and the selected line of what it leaves.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ListFilter {
    /// What was typed.
    pub editor: Editor,
    /// The index of the selected line among those left.
    pub selected: usize,
}

impl ListFilter {
    /// Whether a text holds every word that was typed.
    pub(super) fn holds(&self, text: &str) -> bool {
        let (typed, text) = (self.editor.text().to_lowercase(), text.to_lowercase());
        typed.split_whitespace().all(|word| text.contains(word))
    }

    /// Moves the selection, not past the last of the lines left, `page` of which are
    /// visible at once; any other key edits the text. Whether that became another.
    pub(super) fn key(&mut self, key: Key, last: usize, page: usize) -> bool {
        self.selected = match key.code {
            KeyCode::Up => self.selected.saturating_sub(1),
            KeyCode::Down => (self.selected + 1).min(last),
            KeyCode::PageUp => self.selected.saturating_sub(page),
            KeyCode::PageDown => (self.selected + page).min(last),
            _ => {
                let mut editor = self.editor.clone();
                editor.key(key);
                return self.type_in(editor);
            }
        };
        false
    }

    /// Pastes into the text; whether that became another.
    pub(super) fn paste(&mut self, text: &str) -> bool {
        let mut editor = self.editor.clone();
        editor.paste(text);
        self.type_in(editor)
    }

    /// Puts another text in; the selection returns to the first line that it leaves.
    /// Whether the text became another.
    pub(super) fn type_in(&mut self, editor: Editor) -> bool {
        let is_other = editor.text() != self.editor.text();
        if is_other {
            self.selected = 0;
        }
        self.editor = editor;
        is_other
    }
}
