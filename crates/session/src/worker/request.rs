use super::page_request::{DoubtResult, FitMapResult, PageRequest, TrialsResult, WorkUpResult};
use crate::{Bay, Shelf};
use sizing::trial::{Forecast, LEAST_DRAWS, Moment, Weighing};
use sizing::{Candidate, Ranking, Setting};
use std::sync::Arc;
use workup::Limits;

/// What is to be assessed: a snapshot that nobody changes.
#[derive(Clone, Debug)]
pub struct Request {
    /// The document's generation.
    pub generation: u64,
    /// The case under its rules, not worked up yet.
    pub setting: Arc<Setting>,
    /// The shapes to rank.
    pub shelf: Shelf,
    /// Published limits, for the work-up.
    pub limits: Option<Arc<Limits>>,
    /// Pinned candidates that the ranking does not hold: swapped or turned by
    /// hand.
    pub by_hand: Vec<Bay>,
    /// What a page asks for beside the ranked list, after it.
    pub wanted: Option<PageRequest>,
    /// How many draws each result takes, the first result first; 0: the values
    /// as read, without chances.
    pub stages: &'static [usize],
    /// How fine the fit map is.
    pub map: MapGrain,
    /// How many draws the work-up takes.
    pub work_up_draws: usize,
    /// The seed of the draws.
    pub seed: u64,
    /// The trials of which a forecast is to be frozen, by their names, and when.
    pub foretell: Vec<(String, Moment)>,
}

/// How fine a fit map is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MapGrain {
    /// How many waists.
    pub waists: usize,
    /// How many overhangs.
    pub overhangs: usize,
    /// How many draws.
    pub draws: usize,
}

impl MapGrain {
    /// Draws enough that the lines stand still, few enough to wait for.
    pub const USUAL: Self = Self {
        waists: 60,
        overhangs: 40,
        draws: 1024,
    };
}

impl Request {
    /// The values as read at once, a rough chance soon, then the full one.
    pub const STAGES: &'static [usize] = &[0, 512, 4096];
    /// The same where the full chance is there as soon as a rough one could be.
    const OF_FEW: &'static [usize] = &[0, 4096];
    /// So many sizes are counted over 4,096 draws in less than 25 ms on two cores.
    const FEW: usize = 200;
    /// Of a case with trials no fewer draws say anything, and no list without them is
    /// shown in between.
    const WITH_TRIALS: &'static [usize] = &[LEAST_DRAWS];

    /// The numbers of draws by which so many sizes of a case, with trials or without, are
    /// ranked one after the other.
    pub const fn stages(sizes: usize, has_trials: bool) -> &'static [usize] {
        if has_trials {
            Self::WITH_TRIALS
        } else if sizes <= Self::FEW {
            Self::OF_FEW
        } else {
            Self::STAGES
        }
    }

    /// Draws of the work-up, as on the command line.
    pub(crate) const WORK_UP_DRAWS: usize = 4096;
}

/// A result for one generation of the document.
#[derive(Clone, Debug)]
pub struct RankingResult {
    /// The generation it is of.
    pub generation: u64,
    /// How many draws it took; 0: the values as read.
    pub draws: usize,
    /// Whether no further result follows.
    pub is_last: bool,
    /// The case under its rules, worked up.
    pub setting: Arc<Setting>,
    /// The ranked list, with what was seen in trials taken in.
    pub ranking: Arc<Ranking>,
    /// What trials made of the draws; `None`: there are none, or there are no draws.
    pub weighing: Option<Arc<Weighing>>,
    /// Pinned candidates that the ranking does not hold.
    pub by_hand: Vec<(Bay, Candidate)>,
}

impl RankingResult {
    /// The candidate in a bay, if it was assessed.
    pub fn candidate(&self, bay: &Bay) -> Option<&Candidate> {
        if bay.is_ranked() {
            return self
                .ranking
                .candidates
                .iter()
                .find(|one| one.place == bay.place);
        }
        self.by_hand
            .iter()
            .find(|(one, _)| one == bay)
            .map(|(_, candidate)| candidate)
    }
}

/// What is foretold of a trial, for one generation of the document.
#[derive(Clone, Debug)]
pub struct ForecastResult {
    /// The generation it is of.
    pub generation: u64,
    /// The trial, by its name.
    pub trial: String,
    /// Of its opening or its closing.
    pub moment: Moment,
    /// What is foretold.
    pub forecast: Forecast,
}

/// What the worker says.
#[derive(Clone, Debug)]
pub enum Reply {
    /// A result.
    Assessed(Arc<RankingResult>),
    /// The doubts of a size.
    Doubted(Arc<DoubtResult>),
    /// A fit map, as far as it has come.
    Mapped(Arc<FitMapResult>),
    /// A work-up.
    WorkedUp(Arc<WorkUpResult>),
    /// What stands on the page of trials.
    Tried(Arc<TrialsResult>),
    /// What is foretold of a trial.
    Foretold(Arc<ForecastResult>),
    /// The work on a generation failed by a fault of the program.
    Failed {
        /// The generation.
        generation: u64,
        /// What went wrong.
        message: String,
    },
}
