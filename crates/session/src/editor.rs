use crate::key::{Key, KeyCode};
use unicode_segmentation::UnicodeSegmentation;

/// A line of text with a cursor.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Editor {
    before: String,
    after: String,
    /// Whether the whole line is selected: what is typed replaces it.
    selected: bool,
}

/// Longest line that is taken, in characters: far more than any name or reason.
const MOST_CHARACTERS: usize = 400;

impl Editor {
    /// A line with the cursor at its end.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            before: text.into(),
            ..Self::default()
        }
    }

    /// A line that the first typed character replaces; any other key keeps it.
    pub fn selected(text: impl Into<String>) -> Self {
        Self {
            selected: true,
            ..Self::new(text)
        }
    }

    /// The line.
    pub fn text(&self) -> String {
        format!("{}{}", self.before, self.after)
    }

    /// What stands before the cursor.
    pub fn before(&self) -> &str {
        &self.before
    }

    /// What stands behind the cursor.
    pub fn after(&self) -> &str {
        &self.after
    }

    /// Whether what is typed replaces the whole line.
    pub const fn is_selected(&self) -> bool {
        self.selected
    }

    /// Whether nothing stands in it.
    pub const fn is_empty(&self) -> bool {
        self.before.is_empty() && self.after.is_empty()
    }

    /// Changes the line or moves the cursor as a key asks; `false` where the key
    /// means nothing to a line.
    pub fn key(&mut self, key: Key) -> bool {
        let was_selected = std::mem::take(&mut self.selected);
        if let Some(character) = key.printed() {
            if was_selected {
                self.before.clear();
            }
            self.insert(character);
            return true;
        }
        match key {
            Key {
                code: KeyCode::Char('u'),
                ctrl: true,
                alt: false,
                shift: false,
            } => {
                self.before.clear();
            }
            Key { ctrl: true, .. } | Key { alt: true, .. } => return false,
            Key { code, .. } => return self.plain(code),
        }
        true
    }

    fn plain(&mut self, code: KeyCode) -> bool {
        match code {
            KeyCode::Backspace => drop(self.previous()),
            KeyCode::Delete => drop(self.next()),
            KeyCode::Left => {
                let letter = self.previous();
                self.after.insert_str(0, &letter);
            }
            KeyCode::Right => {
                let letter = self.next();
                self.before.push_str(&letter);
            }
            KeyCode::Home => self.after = std::mem::take(&mut self.before) + &self.after,
            KeyCode::End => self.before += &std::mem::take(&mut self.after),
            _ => return false,
        }
        true
    }

    /// Takes the letter before the cursor away, with all its marks.
    fn previous(&mut self) -> String {
        let letter = self.before.graphemes(true).next_back().map_or(0, str::len);
        self.before.split_off(self.before.len() - letter)
    }

    /// Takes the letter behind the cursor away, with all its marks.
    fn next(&mut self) -> String {
        let letter = self.after.graphemes(true).next().map_or(0, str::len);
        self.after.drain(..letter).collect()
    }

    /// The letter under the cursor, with all its marks; empty at the end.
    pub fn under(&self) -> &str {
        self.after.graphemes(true).next().unwrap_or_default()
    }

    /// Inserts a pasted text: line breaks become spaces, control characters are
    /// left out.
    pub fn paste(&mut self, text: &str) {
        if std::mem::take(&mut self.selected) {
            self.before.clear();
        }
        // More than there is room for is not even looked at.
        for character in text.trim_end().chars().take(2 * MOST_CHARACTERS) {
            self.insert(if character.is_whitespace() {
                ' '
            } else {
                character
            });
        }
    }

    fn insert(&mut self, character: char) {
        let has_room = self.before.chars().count() + self.after.chars().count() < MOST_CHARACTERS;
        if has_room && !character.is_control() {
            self.before.push(character);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(start: &str, keys: &str) -> String {
        let mut editor = Editor::new(start);
        for key in keys.split(' ') {
            editor.key(key.parse().unwrap());
        }
        format!("{}|{}", editor.before(), editor.after())
    }

    #[test]
    fn keys_edit_the_line() {
        assert_eq!(typed("1.5", "backspace 6"), "1.6|");
        assert_eq!(typed("1.5", "home 2 delete"), "2|.5");
        assert_eq!(typed("1.5", "left left delete"), "1|5");
        assert_eq!(typed("1.5", "left right end"), "1.5|");
        assert_eq!(typed("1.5", "ctrl-u q U"), "qU|");
        assert_eq!(typed("", "backspace delete left right é"), "é|");
        assert_eq!(typed("e\u{301}心", "left left delete"), "|心");
        assert_eq!(typed("e\u{301}心", "backspace backspace"), "|");
    }

    #[test]
    fn what_is_typed_first_replaces_a_selected_line() {
        let typed = |keys: &str| {
            let mut editor = Editor::selected("1.5");
            for key in keys.split(' ') {
                editor.key(key.parse().unwrap());
            }
            editor.text()
        };
        assert_eq!(typed("2 0"), "20");
        assert_eq!(typed("backspace 8"), "1.8");
        assert_eq!(typed("end 3"), "1.53");
        let mut editor = Editor::selected("1.5");
        editor.paste("2.2");
        assert_eq!(editor.text(), "2.2");
    }

    #[test]
    fn a_paste_is_text_and_never_a_command() {
        let mut editor = Editor::new("a");
        editor.paste("b\u{1b}[31m\nc\r\n");
        assert_eq!(editor.text(), "ab[31m c");
        editor.paste(&"x".repeat(2 * MOST_CHARACTERS));
        assert_eq!(editor.text().chars().count(), MOST_CHARACTERS);
    }
}
