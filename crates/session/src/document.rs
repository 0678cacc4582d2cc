use crate::{Bay, DisplayOptions, Home, Shelf};
use files::HouseRulesFile;
use measurement::{Quantity, Reading, ReadingId};
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
    /// The file that the rules came from; `None`: it is not known.
    pub(crate) rules_file: Option<Arc<HouseRulesFile>>,
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
            rules_file: None,
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

    /// The file that the rules came from, where it is known.
    pub const fn rules_file(&self) -> Option<&Arc<HouseRulesFile>> {
        self.rules_file.as_ref()
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

    /// The readings of a quantity, in the order of the file.
    pub fn readings_of(&self, quantity: Quantity) -> impl Iterator<Item = &Reading> {
        let all = self.case.readings.iter();
        all.filter(move |reading| reading.quantity == quantity)
    }

    /// The only reading of a quantity, unless it is set aside: there the quantity and
    /// its reading are one.
    pub fn sole_reading(&self, quantity: Quantity) -> Option<&Reading> {
        let mut readings = self.readings_of(quantity);
        let first = readings.next()?;
        (first.set_aside.is_none() && readings.next().is_none()).then_some(first)
    }

    /// The case for writing: a snapshot that is held elsewhere stays as it is.
    pub(crate) fn case_mut(&mut self) -> &mut Case {
        Arc::make_mut(&mut self.case)
    }
}
