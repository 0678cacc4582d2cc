use super::Taken;
use super::layer::{Layer, Next, Outcome};
use super::reading_form::{beside, next};
use crate::command::Change;
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::session::Session;
use crate::{Edit, Home, Refused};
use files::Word;
use geometry::Edge;
use measurement::{Findings, Site};
use sizing::{Case, Facts, Route};
use std::sync::Arc;

/// What a new case begins with; readings are asked for one by one after it. It
/// takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseForm {
    /// What was typed as its title.
    pub title: Editor,
    /// Where the defect lies.
    pub site: Site,
    /// How its edge answers to a waist.
    pub edge: Edge,
    /// The way to it.
    pub route: Route,
    /// The selected line.
    pub line: CaseLine,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
}

/// A line of the form of a case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CaseLine {
    /// The title.
    Title,
    /// The site.
    Site,
    /// The edge.
    Edge,
    /// The route.
    Route,
}

impl CaseLine {
    /// Every line, from top to bottom.
    pub const ALL: [Self; 4] = [Self::Title, Self::Site, Self::Edge, Self::Route];

    /// What it asks.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Site => "site",
            Self::Edge => "edge",
            Self::Route => "way",
        }
    }

    /// Why it is asked.
    pub const fn why(self) -> &'static str {
        match self {
            Self::Title => "what the case is called on screens and sheets: no name of a child",
            Self::Site => "which neighbours, limits and readings there are hangs on it",
            Self::Edge => "a soft edge is rounded by the waist; a fibrous one or a patch is not",
            Self::Route => "which vessel the sheath has to pass",
        }
    }
}

impl CaseForm {
    /// A case with a site that is common and the ways that are usual.
    pub(crate) fn new() -> Self {
        Self {
            title: Editor::default(),
            site: Site::CentralPerimembranous,
            edge: Edge::Soft,
            route: Route::Antegrade,
            line: CaseLine::Title,
            error: None,
        }
    }

    /// The word of the file for what a line chooses; `None` where it is typed.
    pub fn choice(&self, line: CaseLine) -> Option<&'static str> {
        match line {
            CaseLine::Title => None,
            CaseLine::Site => Some(self.site.word()),
            CaseLine::Edge => Some(self.edge.word()),
            CaseLine::Route => Some(self.route.word()),
        }
    }

    fn take(&mut self, key: Key) -> Taken {
        match key.code {
            // The site is seen before the case begins with it.
            KeyCode::Enter if self.line == CaseLine::Title && !self.title.is_empty() => {
                self.line = CaseLine::Site;
            }
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            KeyCode::Up => self.line = beside(&CaseLine::ALL, self.line, false),
            KeyCode::Down => self.line = beside(&CaseLine::ALL, self.line, true),
            KeyCode::Tab => self.line = beside(&CaseLine::ALL, self.line, !key.shift),
            code => {
                let forward = match code {
                    KeyCode::Right | KeyCode::Char(' ') => Some(true),
                    KeyCode::Left => Some(false),
                    _ => None,
                };
                match (self.line, forward) {
                    (CaseLine::Title, _) => {
                        self.title.key(key);
                    }
                    (CaseLine::Site, Some(on)) => self.site = next(self.site, on),
                    (CaseLine::Edge, Some(on)) => self.edge = next(self.edge, on),
                    (CaseLine::Route, Some(on)) => self.route = next(self.route, on),
                    (_, None) => {}
                }
                self.error = None;
            }
        }
        Taken::Yes
    }

    /// The edit it asks for; what is wrong with it, otherwise.
    fn read(&self) -> Result<Edit, Refused> {
        let title = self.title.text().trim().to_owned();
        if title.is_empty() {
            return Err(Refused::new(
                "expected a title, such as \"3.6 kg, short rim\"",
            ));
        }
        let case = Case {
            title,
            lesson: None,
            site: self.site,
            edge: self.edge,
            route: self.route,
            readings: Vec::new(),
            absent: std::collections::BTreeSet::new(),
            facts: Facts::default(),
            findings: Findings::default(),
            exclusions: std::collections::BTreeMap::new(),
            exceptions: Vec::new(),
            procedure: sizing::trial::Procedure::default(),
        };
        Ok(Edit::Case {
            case: Arc::new(case),
            home: Home::Nowhere,
            bays: Vec::new(),
            called: "new case",
        })
    }
}

impl Layer for CaseForm {
    fn key(&mut self, key: Key, _session: &Session) -> Outcome {
        match self.take(key) {
            Taken::Yes => Outcome::Stay,
            Taken::Close => Outcome::Close,
            Taken::Commit => match self.read() {
                Ok(edit) => Outcome::Do(Change::Edit(edit), Next::Guide),
                Err(refused) => {
                    self.refuse(refused.to_string());
                    Outcome::Stay
                }
            },
        }
    }

    fn paste(&mut self, text: &str) {
        if self.line == CaseLine::Title {
            self.title.paste(text);
            self.error = None;
        }
    }

    fn refuse(&mut self, why: String) {
        self.error = Some(why);
    }

    fn takes_words(&self) -> bool {
        self.line == CaseLine::Title
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        hints(&[
            match self.line {
                CaseLine::Title => ("enter", "go on"),
                _ => ("enter", "begin the case"),
            },
            ("down", "next line"),
            ("right", "next choice"),
            ("esc", "cancel"),
        ])
    }
}
