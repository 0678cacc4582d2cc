use super::ListFilter;
use super::layer::{Layer, Outcome};
use super::task::Task;
use crate::editor::Editor;
use crate::errand::Errand;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::model::Model;
use std::path::PathBuf;

/// The cases that can be opened, those that hold what was typed; what was typed
/// may as well be the path of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Openables {
    /// What was typed, and which of those found is selected.
    pub filter: ListFilter,
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
    /// A lesson that came with the program; its name and title.
    Lesson(&'static str, String),
    /// The path that was typed.
    Typed(PathBuf),
}

impl Openable {
    /// From where the case comes, in a word.
    pub const fn origin(&self) -> &'static str {
        match self {
            Self::Recent(_) => "recent",
            Self::Here(_) => "here",
            Self::Shipped(..) => "came with it",
            Self::Lesson(..) => "LESSON",
            Self::Typed(_) => "as typed",
        }
    }

    /// The path or name of the case.
    pub fn name(&self) -> String {
        match self {
            Self::Recent(path) | Self::Here(path) | Self::Typed(path) => path.display().to_string(),
            Self::Shipped(name, _) | Self::Lesson(name, _) => (*name).to_owned(),
        }
    }

    /// The title of the case, where it is known.
    pub fn title(&self) -> &str {
        match self {
            Self::Shipped(_, title) | Self::Lesson(_, title) => title,
            _ => "",
        }
    }

    fn errand(&self) -> Errand {
        match self {
            Self::Recent(path) | Self::Here(path) | Self::Typed(path) => Errand::Open(path.clone()),
            Self::Shipped(name, _) => Errand::OpenShipped(name),
            Self::Lesson(name, _) => Errand::OpenLesson(name),
        }
    }
}

impl Openables {
    pub(crate) fn new(cases: Vec<Openable>, typed: &str, error: Option<String>) -> Self {
        let mut list = Self {
            filter: ListFilter {
                editor: Editor::selected(typed),
                selected: 0,
            },
            error,
            cases,
        };
        // What was typed and not opened is there to be mended.
        if !typed.is_empty() {
            list.filter.selected = list.found().len().saturating_sub(1);
        }
        list
    }

    /// The cases that hold every word that was typed, then what was typed as a path.
    pub fn found(&self) -> Vec<Openable> {
        let holds = |case: &&Openable| {
            let text = format!("{} {}", case.name(), case.title());
            self.filter.holds(&text)
        };
        let mut found: Vec<Openable> = self.cases.iter().filter(holds).cloned().collect();
        let text = self.filter.editor.text();
        let path = text.trim();
        if !path.is_empty() && !found.iter().any(|case| case.name() == path) {
            found.push(Openable::Typed(PathBuf::from(path)));
        }
        found
    }

    /// What the selected line asks to be done.
    fn chosen(&self) -> Option<Errand> {
        self.found().get(self.filter.selected).map(Openable::errand)
    }

    /// Drops the error of the text before, where another one was typed.
    fn edited(&mut self, is_other: bool) {
        if is_other {
            self.error = None;
        }
    }
}

impl Layer for Openables {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        let found = self.found();
        let is_other = match key.code {
            KeyCode::Esc => return Outcome::Close,
            KeyCode::Enter if found.is_empty() => false,
            KeyCode::Enter => {
                let chosen = self.chosen().map(Task::Errand);
                return chosen.map_or(Outcome::Close, Outcome::Answer);
            }
            // The name of the selected one, to edit its name.
            KeyCode::Tab => {
                let selected = found.get(self.filter.selected);
                let name = selected.map(|case| Editor::new(case.name()));
                name.is_some_and(|name| self.filter.type_in(name))
            }
            _ => {
                let last = found.len().saturating_sub(1);
                self.filter.key(key, last, model.view().visible.overlay)
            }
        };
        self.edited(is_other);
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        let is_other = self.filter.paste(text);
        self.edited(is_other);
    }

    fn takes_words(&self) -> bool {
        true
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        hints(&[
            ("enter", "open"),
            ("down", "next"),
            ("tab", "edit its name"),
            ("esc", "cancel"),
        ])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    fn list() -> Openables {
        let cases = vec![
            Openable::Recent("/cases/seven.ron".into()),
            Openable::Here("eight.ron".into()),
            Openable::Shipped("slit.ron", "A slit".into()),
        ];
        Openables::new(cases, "", None)
    }

    fn press(list: &mut Openables, codes: &[KeyCode]) {
        let session = fixture::open(fixture::case());
        for code in codes {
            let outcome = list.key(Key::plain(*code), &session);
            assert!(matches!(outcome, Outcome::Stay), "{outcome:?}");
        }
    }

    fn type_all(list: &mut Openables, text: &str) {
        let codes: Vec<KeyCode> = text.chars().map(KeyCode::Char).collect();
        press(list, &codes);
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
        press(&mut list, &[KeyCode::Down, KeyCode::Tab]);
        assert_eq!(list.filter.editor.text(), "eight.ron");
        press(&mut list, &[KeyCode::Backspace]);
        assert_eq!(list.filter.editor.text(), "eight.ro");
    }

    #[test]
    fn nothing_to_open_opens_nothing() {
        let mut none = Openables::new(Vec::new(), "", None);
        press(&mut none, &[KeyCode::Enter]);
        assert_eq!(none.chosen(), None);
        let again = Openables::new(Vec::new(), "no.ron", Some("it does not exist".into()));
        assert_eq!(again.chosen(), Some(Errand::Open("no.ron".into())));
    }
}
