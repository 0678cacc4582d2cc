//! The sheet for the team, made on a thread of its own: a key never waits for it.

use crate::digest::digest;
use crate::otherwise::{CANCELLED, Otherwise};
use crate::tui::draw::orientation;
use anyhow::Context;
use files::{new_catalogue, visible, workup_input};
use paper::{Bundle, Format, Paper, Provenance, SheetRequest};
use scene::plate::Orientation;
use session::{Bay, Keeper, KeeperError, RankingResult, Request, Session, SheetFile};
use sizing::engine::{Counter, Engine, Fast};
use sizing::trial::take_in;
use sizing::{Candidate, Catalogue, Ranking, Work};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use workup::Workup;

/// The texts of all files of a call but the case: what a sheet names by its digest.
#[derive(Clone, Debug, Default)]
pub(crate) struct OtherTexts {
    /// The catalogues without the user's own.
    pub(crate) catalogues: Vec<String>,
    /// The user's own catalogue, with what it said.
    pub(crate) own: Option<(String, Catalogue)>,
    /// The centre's rules as they were read: those of the session count where it has them.
    pub(crate) rules: String,
    /// The published limits.
    pub(crate) limits: String,
}

/// A sheet that is to be made.
pub(super) struct SheetOrder {
    pub(super) asked: SheetFile,
    format: Format,
    assessed: Arc<RankingResult>,
    bays: Vec<Bay>,
    request: Request,
    from: Provenance,
    orientation: Orientation,
}

impl SheetOrder {
    /// The sheet of the list that is shown, drawn with the pinned sizes.
    pub(super) fn of(
        session: &Session,
        keeper: &Keeper,
        others: &OtherTexts,
        asked: &SheetFile,
    ) -> Result<Self, KeeperError> {
        let format = Format::of_ending(&asked.to).ok_or(KeeperError::SheetEnding)?;
        let assessed = session.results().assessed();
        let assessed = assessed.filter(|_| !session.results().is_awaited());
        let waits = || KeeperError::NoSheet("the list is still being worked out".to_owned());
        let assessed = Arc::clone(assessed.ok_or_else(waits)?);
        let request = session.request();
        // Where trials cannot be taken in the list is that of the values as measured.
        let has_trials = !request.setting.case().procedure.trials.is_empty();
        let is_left_out = has_trials && assessed.weighing.is_none();
        Ok(Self {
            format,
            from: Provenance {
                inputs_sha256: others.digest(session, keeper.case_text(session)),
                seed: request.seed,
                draws: if is_left_out { 0 } else { assessed.draws },
            },
            assessed,
            bays: session.document().bays().to_vec(),
            request,
            orientation: orientation(session.view().looks.section_left),
            asked: asked.clone(),
        })
    }

    /// Makes it: the bytes of the file.
    pub(super) fn made(&self) -> Result<Vec<u8>, KeeperError> {
        let says = |error: &dyn std::fmt::Display| KeeperError::NoSheet(error.to_string());
        let ranking = &*self.assessed.ranking;
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 1,
            cancel: &never,
        };
        let weighed = self.weighed(&work).map_err(|error| says(&error))?;
        let otherwise = Otherwise {
            ranking,
            catalogues: self.request.shelf.catalogues(),
            draws: self.from.draws,
            seed: self.from.seed,
            weighed: weighed.as_deref(),
        };
        let otherwise = otherwise.says(&work).map_err(|error| says(&error))?;
        let limits = self.request.limits.as_deref();
        let limits = limits.ok_or_else(|| says(&"there are no published limits"))?;
        let input = workup_input(&ranking.setting);
        let workup = Workup::new(&input, limits, self.from.draws, self.from.seed)
            .map_err(|error| says(&error))?;
        let request = SheetRequest {
            ranking,
            workup: &workup,
            weighed: weighed.as_deref().map(Counter::draws),
            shown: self.shown(ranking),
            otherwise,
            since: None,
            from: &self.from,
            orientation: self.orientation,
            paper: Paper::default(),
            visible,
        };
        let sheet = request.sheet();
        let bundle = Bundle {
            id: digest(sheet.texts().into_iter()),
            faults: Vec::new(),
            sheets: vec![sheet],
            is_one: false,
        };
        Ok(self.format.bytes(&bundle))
    }

    /// The draws as trials weigh them; `None` where none does.
    fn weighed(&self, work: &Work) -> anyhow::Result<Option<Box<dyn Counter>>> {
        if self.assessed.weighing.is_none() {
            return Ok(None);
        }
        let Request { setting, shelf, .. } = &self.request;
        let Provenance { draws, seed, .. } = self.from;
        let taken_in = take_in(setting, shelf.catalogues(), draws, seed, work)?;
        let draws = taken_in.context(CANCELLED)?.draws;
        Ok(draws.map(|draws| Fast.prepare(draws)))
    }

    /// The pinned sizes, or those that a list shows first.
    fn shown<'a>(&'a self, ranking: &'a Ranking) -> Vec<&'a Candidate> {
        let pinned = self.bays.iter();
        let pinned: Vec<&Candidate> = pinned
            .filter_map(|bay| self.assessed.candidate(bay))
            .collect();
        if pinned.is_empty() {
            return ranking.shown_first();
        }
        pinned
    }
}

impl OtherTexts {
    /// SHA-256 over the case as it would be saved and all others, in the order in which
    /// the command line reads them.
    fn digest(&self, session: &Session, case: String) -> String {
        let now = session.document().shelf().own();
        let own = match &self.own {
            Some((text, then)) if then == now => Some(text.clone()),
            None if now.shapes.is_empty() && now.put_aside.is_empty() => None,
            _ => Some(new_catalogue(now)),
        };
        let catalogues = self.catalogues.iter().cloned().chain(own);
        let rules = session.document().rules_file();
        let rules = rules.map_or_else(
            || self.rules.clone(),
            |file| file.source().original().into_owned(),
        );
        let others = catalogues.chain([rules, self.limits.clone()]);
        digest(std::iter::once(case).chain(others))
    }
}
