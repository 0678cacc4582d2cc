use measurement::Quantity;
use sizing::Ranking;
use sizing::break_even::BreakEvens;
use sizing::fit_map::{FitMap, Mark};
use sizing::trial::{Weighing, WhatNext};
use sizing::worth::Worth;
use std::sync::Arc;
use workup::Workup;

/// What a page asks for beside the ranked list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PageRequest {
    /// The doubts of the size at a place on the shelf.
    Doubt(usize),
    /// The fit map.
    FitMap,
    /// The work-up.
    WorkUp,
    /// The list before any trial, and what opening more sizes would reach.
    Trials,
}

/// What stands on the page of trials, for one generation of the document.
#[derive(Clone, Debug)]
pub struct TrialsResult {
    /// The generation it is of.
    pub generation: u64,
    /// The list as the readings alone have it.
    pub before: Arc<Ranking>,
    /// The list if a size is opened again.
    pub ranking: Arc<Ranking>,
    /// What the trials made of the draws; `None`: there are none, or there are no draws.
    pub weighing: Option<Arc<Weighing>>,
    /// What opening more sizes would reach; `None` where no chance is given.
    pub next: Option<Arc<WhatNext>>,
}

/// The doubts of one size, for one generation of the document.
#[derive(Clone, Debug)]
pub struct DoubtResult {
    /// The generation it is of.
    pub generation: u64,
    /// The size's place on the shelf.
    pub place: usize,
    /// By how much each reading would have to be wrong.
    pub break_evens: Arc<BreakEvens>,
    /// Which reading would help most to choose; `None` until it is known, and
    /// where there are no draws.
    pub worth: Option<Arc<Worth>>,
    /// Whether no further result follows.
    pub is_last: bool,
}

/// A fit map, for one generation of the document.
#[derive(Clone, Debug)]
pub struct FitMapResult {
    /// The generation it is of.
    pub generation: u64,
    /// The map as far as it has come.
    pub map: Arc<FitMap>,
    /// The catalogue's sizes on it.
    pub marks: Arc<[Mark]>,
    /// What would fit, in one sentence; `None` until the map is whole.
    pub says: Option<String>,
    /// What was not read, so that chances are at most what they say.
    pub missing: Vec<Quantity>,
    /// Whether no further result follows.
    pub is_last: bool,
}

/// A work-up, for one generation of the document.
#[derive(Clone, Debug)]
pub struct WorkUpResult {
    /// The generation it is of.
    pub generation: u64,
    /// The page.
    pub page: Workup,
}
