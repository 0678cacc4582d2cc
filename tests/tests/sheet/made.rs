//! Sheets to check.

use files::workup_input;
use outside::sample::{scenario, shipped_catalogue, shipped_limits, shipped_rules};
use paper::{Bundle, Paper, Provenance, Sheet, SheetRequest};
use scene::plate::Orientation;
use sizing::engine::{Engine, Fast};
use sizing::trial::{LEAST_DRAWS, take_in};
use sizing::{Case, Catalogue, Draws, HouseRules, Ranking, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use workup::Workup;

/// Few: these tests are about form, not about figures.
const DRAWS: usize = 64;

/// A case ranked and worked up.
pub(crate) struct Ranked {
    pub(crate) ranking: Ranking,
    /// The draws as trials weigh them; `None`: the trials are left out.
    pub(crate) weighed: Option<Draws>,
    workup: Workup,
    from: Provenance,
}

impl Ranked {
    pub(crate) fn of(case: Case, catalogues: &[Catalogue], rules: HouseRules) -> Self {
        let limits = shipped_limits();
        let setting = files::setting(Arc::new(case), Arc::new(rules), Some(&limits));
        let draws = Draws::new(&setting, DRAWS, 1).expect("a number of draws");
        let counter = Fast.prepare(draws);
        let work = Work {
            threads: 1,
            cancel: &AtomicBool::new(false),
        };
        let workup = Workup::new(&workup_input(&setting), &limits, DRAWS, 1).expect("a page");
        let setting = Arc::new(setting);
        let ranking = rank(&setting, catalogues, Some(counter.as_ref()), &work).expect("a list");
        Self {
            ranking,
            weighed: None,
            workup,
            from: Provenance {
                inputs_sha256: "0123456789abcdef".repeat(4),
                seed: 1,
                draws: DRAWS,
            },
        }
    }

    pub(crate) fn scenario(name: &str) -> Self {
        let case = scenario(name.trim_end_matches(".ron"));
        Self::of(case, &[shipped_catalogue()], shipped_rules())
    }

    /// The same with the trials of the case taken in; `None` where it has none.
    pub(crate) fn after_trials(name: &str) -> Option<Self> {
        let before = Self::scenario(name);
        let catalogues = [shipped_catalogue()];
        let work = Work {
            threads: 1,
            cancel: &AtomicBool::new(false),
        };
        let setting = &before.ranking.setting;
        let taken_in = take_in(setting, &catalogues, LEAST_DRAWS, 1, &work).expect("draws");
        let taken_in = taken_in?;
        let draws = taken_in.draws?;
        let counter = Fast.prepare(draws.clone());
        let ranking = rank(&taken_in.setting, &catalogues, Some(&*counter), &work);
        Some(Self {
            ranking: ranking.expect("a list"),
            weighed: Some(draws),
            ..before
        })
    }

    /// The sheet with so many of the first sizes drawn.
    pub(crate) fn sheet(&self, shown: usize, paper: Paper) -> Sheet {
        self.sheet_with(shown, paper, Vec::new())
    }

    /// The same with what would have to be otherwise where nothing fits.
    pub(crate) fn sheet_with(
        &self,
        shown: usize,
        paper: Paper,
        otherwise: Vec<(&'static str, String)>,
    ) -> Sheet {
        let request = SheetRequest {
            ranking: &self.ranking,
            workup: &self.workup,
            weighed: self.weighed.as_ref(),
            shown: self.ranking.candidates.iter().take(shown).collect(),
            otherwise,
            since: None,
            from: &self.from,
            orientation: Orientation::default(),
            paper,
            visible: files::visible,
        };
        request.sheet()
    }
}

/// A file of one sheet.
pub(crate) fn alone(sheet: Sheet) -> Bundle {
    Bundle {
        sheets: vec![sheet],
        faults: Vec::new(),
        id: "0123456789abcdef".to_owned(),
        is_one: false,
    }
}

/// The names of the scenarios that come with the program.
pub(crate) fn scenarios() -> impl Iterator<Item = &'static str> {
    files::shipped::SCENARIOS.iter().map(|(name, _)| *name)
}

/// A text with one blank between its words, as it compares.
pub(crate) fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
