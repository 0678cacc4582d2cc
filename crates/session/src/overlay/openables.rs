use super::layer::{Layer, Outcome};
use super::{Taken, listed_beside};
use crate::command::Change;
use crate::editor::Editor;
use crate::errand::Errand;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::session::Session;
use std::path::PathBuf;

/// The cases that can be opened, those that hold what was typed; what was typed
/// may as well be the path of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Openables {
    /// What was typed.
    pub editor: Editor,
    /// The selected line of those found.
    pub selected: usize,
    /// Why the last one was not opened.
    pub error: Option<String>,
    cases: Vec<Openable>,
}

/// A case that can be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Openable {
    /// It was open before.
    Recent(PathBuf),
    /// A file of the folder where the program runs.
    Here(PathBuf),
    /// It came with the program; its name and title.
    Shipped(&'static str, String),
    /// The path that was typed.
    Typed(PathBuf),
}

impl Openable {
    /// From where it comes, in a word.
    pub const fn origin(&self) -> &'static str {
        match self {
            Self::Recent(_) => "recent",
            Self::Here(_) => "here",
            Self::Shipped(..) => "came with it",
            Self::Typed(_) => "as typed",
        }
    }

    /// Its path or name.
    pub fn name(&self) -> String {
        match self {
            Self::Recent(path) | Self::Here(path) | Self::Typed(path) => path.display().to_string(),
            Self::Shipped(name, _) => (*name).to_owned(),
        }
    }

    /// Its title, where it is known.
    pub fn title(&self) -> &str {
        match self {
            Self::Shipped(_, title) => title,
            _ => "",
        }
    }

    fn errand(&self) -> Errand {
        match self {
            Self::Recent(path) | Self::Here(path) | Self::Typed(path) => Errand::Open(path.clone()),
            Self::Shipped(name, _) => Errand::OpenShipped(name),
        }
    }
}

impl Openables {
    pub(crate) fn new(cases: Vec<Openable>, typed: &str, error: Option<String>) -> Self {
        let mut list = Self {
            editor: Editor::selected(typed),
            selected: 0,
            error,
            cases,
        };
        // What was typed and not opened is there to be mended.
        list.selected = list.found().len().saturating_sub(1) * usize::from(!typed.is_empty());
        list
    }

    /// Those that hold every word that was typed, then what was typed as a path.
    pub fn found(&self) -> Vec<Openable> {
        let text = self.editor.text();
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split_whitespace().collect();
        let holds = |case: &&Openable| {
            let all = format!("{} {}", case.name(), case.title()).to_lowercase();
            words.iter().all(|word| all.contains(word))
        };
        let mut found: Vec<Openable> = self.cases.iter().filter(holds).cloned().collect();
        let path = text.trim();
        if !path.is_empty() && !found.iter().any(|case| case.name() == path) {
            found.push(Openable::Typed(PathBuf::from(path)));
        }
        found
    }

    /// What the selected line asks to be done.
    fn chosen(&self) -> Option<Errand> {
        self.found().get(self.selected).map(Openable::errand)
    }

    fn take(&mut self, key: Key, page: usize) -> Taken {
        let found = self.found();
        let last = found.len().saturating_sub(1);
        if let Some(line) = listed_beside(key, self.selected, last, page) {
            self.selected = line;
            return Taken::Yes;
        }
        match key.code {
            KeyCode::Enter if found.is_empty() => {}
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            // The name of the selected one, to go on from it.
            KeyCode::Tab => {
                if let Some(case) = found.get(self.selected) {
                    self.type_in(Editor::new(case.name()));
                }
            }
            _ => {
                let mut editor = self.editor.clone();
                editor.key(key);
                self.type_in(editor);
            }
        }
        Taken::Yes
    }

    fn type_in(&mut self, editor: Editor) {
        if editor.text() != self.editor.text() {
            self.selected = 0;
            self.error = None;
        }
        self.editor = editor;
    }
}

impl Layer for Openables {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        match self.take(key, session.view().rooms.overlay) {
            Taken::Yes => Outcome::Stay,
            Taken::Close => Outcome::Close,
            Taken::Commit => self.chosen().map_or(Outcome::Close, |errand| {
                Outcome::Answer(Change::Errand(errand))
            }),
        }
    }

    fn paste(&mut self, text: &str) {
        let mut editor = self.editor.clone();
        editor.paste(text);
        self.type_in(editor);
    }

    fn takes_words(&self) -> bool {
        true
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        hints(&[
            ("enter", "open"),
            ("down", "next"),
            ("tab", "go on from it"),
            ("esc", "cancel"),
        ])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn list() -> Openables {
        let cases = vec![
            Openable::Recent("/cases/seven.ron".into()),
            Openable::Here("eight.ron".into()),
            Openable::Shipped("slit.ron", "A slit".into()),
        ];
        Openables::new(cases, "", None)
    }

    fn type_all(list: &mut Openables, text: &str) {
        for character in text.chars() {
            list.take(Key::plain(KeyCode::Char(character)), 5);
        }
    }

    #[test]
    fn words_find_cases_and_a_path_opens_what_is_not_listed() {
        let mut some = list();
        assert_eq!(some.chosen(), Some(Errand::Open("/cases/seven.ron".into())));
        type_all(&mut some, "a sl");
        assert_eq!(some.chosen(), Some(Errand::OpenShipped("slit.ron")));
        let mut other = list();
        type_all(&mut other, "x/9.ron");
        assert_eq!(other.found(), [Openable::Typed("x/9.ron".into())]);
        assert_eq!(other.chosen(), Some(Errand::Open("x/9.ron".into())));
    }

    #[test]
    fn the_name_of_the_selected_one_can_be_gone_on_from() {
        let mut list = list();
        list.take(Key::plain(KeyCode::Down), 5);
        list.take(Key::plain(KeyCode::Tab), 5);
        assert_eq!(list.editor.text(), "eight.ron");
        list.take(Key::plain(KeyCode::Backspace), 5);
        assert_eq!(list.editor.text(), "eight.ro");
    }

    #[test]
    fn nothing_to_open_opens_nothing() {
        let mut none = Openables::new(Vec::new(), "", None);
        assert_eq!(none.take(Key::plain(KeyCode::Enter), 5), Taken::Yes);
        assert_eq!(none.chosen(), None);
        let again = Openables::new(Vec::new(), "no.ron", Some("it is not there".into()));
        assert_eq!(again.chosen(), Some(Errand::Open("no.ron".into())));
    }
}
