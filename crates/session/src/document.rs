use crate::{Bay, DisplayOptions, Home, Shelf};
use measurement::{Reading, ReadingId};
use sizing::{Case, Catalogue, HouseRules};
use std::sync::Arc;

/// What is open: a case, what it is held against, and what is looked at.
///
/// A document changes by [`Edit`](crate::Edit) alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    pub(crate) case: Arc<Case>,
    pub(crate) home: Home,
    pub(crate) shelf: Shelf,
    pub(crate) rules: Arc<HouseRules>,
    pub(crate) bays: Vec<Bay>,
    pub(crate) shown: DisplayOptions,
}

impl Document {
    pub(crate) fn new(case: Case, catalogues: Vec<Catalogue>, rules: HouseRules) -> Self {
        Self {
            case: Arc::new(case),
            home: Home::default(),
            shelf: Shelf::new(catalogues),
            rules: Arc::new(rules),
            bays: Vec::new(),
            shown: DisplayOptions::default(),
        }
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// Where the case is kept.
    pub const fn home(&self) -> &Home {
        &self.home
    }

    /// The shapes it is ranked from.
    pub const fn shelf(&self) -> &Shelf {
        &self.shelf
    }

    /// The rules of the house.
    pub fn rules(&self) -> &HouseRules {
        &self.rules
    }

    /// The pinned candidates, in the order in which they stand.
    pub fn bays(&self) -> &[Bay] {
        &self.bays
    }

    /// What of the result is shown.
    pub const fn shown(&self) -> &DisplayOptions {
        &self.shown
    }

    /// A reading by its lasting name.
    pub fn reading(&self, id: &ReadingId) -> Option<&Reading> {
        self.case.readings.iter().find(|reading| reading.id == *id)
    }

    /// The case for writing: a snapshot that is held elsewhere stays as it is.
    pub(crate) fn case_mut(&mut self) -> &mut Case {
        Arc::make_mut(&mut self.case)
    }
}
