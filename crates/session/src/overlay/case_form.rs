use super::form::{Form, FormEntry, FormError, FormSubject};
use super::layer::Next;
use super::task::Task;
use crate::editor::Editor;
use crate::{Edit, Home, Model, Refused};
use geometry::Edge;
use measurement::Site;
use sizing::{Case, Route};
use std::sync::Arc;

/// What a new case begins with; readings are asked for one by one after it.
pub type CaseForm = Form<NewCase, CaseLine>;

/// A case that is there once its form was filled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NewCase;

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
            Self::Route => "access",
        }
    }

    /// Why the line is asked.
    pub const fn why(self) -> &'static str {
        match self {
            Self::Title => "the case's name on screens and sheets; never a child's name",
            Self::Site => "it decides which neighbours, limits and readings there are",
            Self::Edge => "the waist rounds a soft edge, not a fibrous one or a patch",
            Self::Route => "the vessel the sheath has to pass",
        }
    }
}

impl CaseForm {
    /// A case with a site that is common and the ways that are usual.
    pub(crate) fn new() -> Self {
        let entry = |line| match line {
            CaseLine::Title => FormEntry::Typed(Editor::default()),
            CaseLine::Site => FormEntry::chosen(Site::CentralPerimembranous),
            CaseLine::Edge => FormEntry::chosen(Edge::Soft),
            CaseLine::Route => FormEntry::chosen(Route::Antegrade),
        };
        Self::with(
            NewCase,
            CaseLine::ALL.map(|line| (line, entry(line))).to_vec(),
        )
    }

    /// What is filled in; `None` where a line is missing.
    fn case(&self) -> Option<Case> {
        Some(Case::new(
            self.text(CaseLine::Title),
            self.choice(CaseLine::Site)?,
            self.choice(CaseLine::Edge)?,
            self.choice(CaseLine::Route)?,
        ))
    }
}

impl FormSubject<CaseLine> for NewCase {
    const NEXT: Next = Next::Guide;
    const ENTER: &'static str = "begin the case";

    fn read(form: &CaseForm, _session: &Model) -> Result<Task, FormError<CaseLine>> {
        let case = form.case().filter(|case| !case.title.is_empty());
        let case = case.ok_or(Refused::TitleExpected)?;
        Ok(Task::Edit(Edit::Case {
            case: Arc::new(case),
            home: Home::Nowhere,
            bays: Vec::new(),
            called: "new case",
        }))
    }

    fn takes_words(&self, line: CaseLine) -> bool {
        line == CaseLine::Title
    }

    /// The site is seen before the case begins with it.
    fn goes_on(line: CaseLine) -> bool {
        line == CaseLine::Title
    }
}
