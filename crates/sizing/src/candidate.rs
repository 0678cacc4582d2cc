use crate::engine::{Counter, Counts, DrawSet, Question};
use crate::exclusion::excluded;
use crate::house_rules::Parameter;
use crate::moved::Moved;
use crate::outcome::{Outcome, outcome};
use crate::placements::Placements;
use crate::turn::{Turn, best_turn};
use crate::verdict::{Judged, judge};
use crate::{Row, Setting, Shape, Size, rows};
use geometry::Radians;
use measurement::{BlockShares, Chance};
use std::sync::Arc;

/// One size of one shape, held against every limit of a case.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its place in the catalogues, counted through all of them.
    pub place: usize,
    /// The shape's id.
    pub shape: String,
    /// The shape's plain name.
    pub shape_name: String,
    /// The size.
    pub size: Size,
    /// The turn τ at which it is set down.
    pub turn: Radians,
    /// The verdict and why it is no better.
    pub judged: Judged,
    /// Chances; `None` without draws.
    pub chances: Option<Chances>,
    /// The draws in which no stop is broken, for what is asked of several sizes;
    /// `None` without draws.
    pub holds: Option<Arc<DrawSet>>,
    /// The outcome of every check.
    pub outcomes: Vec<Outcome>,
    /// Whether it is in stock today.
    pub is_on_shelf: bool,
    /// Whether sizes of the case are rated at all; otherwise there is no chance.
    pub is_case_rated: bool,
    /// Whether the case is excluded before any geometry: then no chance is told.
    pub is_case_excluded: bool,
    /// The limits of the rules for the chance: under the first a size does not fit,
    /// from the second on it may fit.
    pub chance_limits: [f64; 2],
}

/// Chances of one size over all draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chances {
    /// That no stop is broken, by block.
    pub no_stop: BlockShares,
    /// That no stop is broken.
    pub chance: Chance,
    /// That neither a stop nor a caution is broken, by block.
    pub no_caution: BlockShares,
    /// That neither a stop nor a caution is broken.
    pub chance_no_caution: Chance,
}

/// A size held against every limit as measured, with all that chances are added to.
#[derive(Clone)]
pub(crate) struct SizeAssessment {
    rows: Vec<Row>,
    /// For each row the outcome before an edit that still stands; empty: none does.
    pub(crate) standing: Vec<Option<usize>>,
    /// Without chances.
    pub(crate) candidate: Candidate,
}

/// A size before an edit, and what that has moved.
#[derive(Clone, Copy)]
pub(crate) struct Before<'a> {
    pub(crate) candidate: &'a Candidate,
    pub(crate) moved: &'a Moved,
}

impl SizeAssessment {
    pub(crate) fn new(
        setting: &Setting,
        (place, shape, size): (usize, &Shape, &Size),
        turn: Turn,
    ) -> Self {
        let rows = rows(setting, &size.occluder);
        let turn = match turn {
            Turn::Best => best_turn(setting, size, &rows),
            Turn::ByHand(turn) => turn,
        };
        Self::at(setting, (place, shape, size), turn, rows, Standing::NONE)
    }

    /// The same at its best turn after an edit: what that does not reach stands.
    pub(crate) fn after(
        before: Before,
        setting: &Setting,
        (place, shape, size): (usize, &Shape, &Size),
    ) -> Self {
        let rows = rows(setting, &size.occluder);
        let outcomes = &before.candidate.outcomes;
        let standing = rows.iter().map(|row| {
            let mut outcomes = outcomes.iter();
            outcomes.position(|outcome| before.moved.leaves(setting, row, outcome))
        });
        let standing: Vec<Option<usize>> = standing.collect();
        let stand = standing.iter().flatten().count();
        let asked = rows.iter().filter(|row| row.is_assessed()).count();
        let answered = outcomes.iter().filter(|one| one.value.is_some()).count();
        // Where every row stands, those before and those now, so does the best turn.
        let is_whole = stand == asked && stand == answered;
        let turn = if is_whole {
            before.candidate.turn
        } else {
            best_turn(setting, size, &rows)
        };
        let is_turned = turn != before.candidate.turn;
        let standing = if is_turned {
            Standing::NONE
        } else {
            Standing {
                outcomes,
                of_rows: standing,
            }
        };
        Self::at(setting, (place, shape, size), turn, rows, standing)
    }

    fn at(
        setting: &Setting,
        (place, shape, size): (usize, &Shape, &Size),
        turn: Radians,
        rows: Vec<Row>,
        standing: Standing,
    ) -> Self {
        let placements = Placements::as_read(setting, size, turn);
        let outcomes = rows.iter().enumerate().map(|(index, row)| {
            standing
                .outcome(index)
                .unwrap_or_else(|| outcome(&placements, row))
        });
        let outcomes: Vec<Outcome> = outcomes.collect();
        let candidate = Candidate {
            place,
            shape: shape.id.clone(),
            shape_name: shape.name.clone(),
            size: size.clone(),
            turn,
            judged: judge(setting, &size.occluder, &rows, &outcomes, None),
            chances: None,
            holds: None,
            outcomes,
            is_on_shelf: true,
            is_case_rated: setting.not_rated().is_none(),
            is_case_excluded: excluded(setting).next().is_some(),
            chance_limits: [Parameter::ChanceDoesNotFit, Parameter::ChanceFits]
                .map(|limit| setting.parameter(limit)),
        };
        Self {
            rows,
            standing: standing.of_rows,
            candidate,
        }
    }

    /// What an engine is asked of it.
    pub(crate) fn question<'a>(&'a self, setting: &'a Setting) -> Question<'a> {
        Question {
            setting,
            size: &self.candidate.size,
            turn: self.candidate.turn,
            rows: &self.rows,
        }
    }

    /// What becomes of it by its counts over so many effective draws.
    pub(crate) fn counted(self, setting: &Setting, counts: Counts, effective: f64) -> Candidate {
        Self::with_counts(self.candidate, &self.rows, setting, counts, effective)
    }

    /// The same where it is to be counted again.
    pub(crate) fn counted_once(
        &self,
        setting: &Setting,
        counts: Counts,
        effective: f64,
    ) -> Candidate {
        Self::with_counts(
            self.candidate.clone(),
            &self.rows,
            setting,
            counts,
            effective,
        )
    }

    fn with_counts(
        mut candidate: Candidate,
        rows: &[Row],
        setting: &Setting,
        counts: Counts,
        effective: f64,
    ) -> Candidate {
        for (outcome, shares) in candidate.outcomes.iter_mut().zip(&counts.rows) {
            let shares = shares.filter(|_| !outcome.stop.is_none());
            outcome.chance = shares.map(|shares| shares.stop.chance(effective));
        }
        let chance = counts.no_stop.chance(effective);
        let (occluder, outcomes) = (&candidate.size.occluder, &candidate.outcomes);
        candidate.judged = judge(setting, occluder, rows, outcomes, Some(chance.value));
        candidate.chances = Some(Chances {
            no_stop: counts.no_stop,
            chance,
            no_caution: counts.no_caution,
            chance_no_caution: counts.no_caution.chance(effective),
        });
        candidate.holds = Some(Arc::new(counts.holds));
        candidate
    }
}

/// The outcomes that stand after an edit.
struct Standing<'a> {
    /// All of those before.
    outcomes: &'a [Outcome],
    /// For each row now the one that stands; empty: none does.
    of_rows: Vec<Option<usize>>,
}

impl Standing<'_> {
    const NONE: Self = Self {
        outcomes: &[],
        of_rows: Vec::new(),
    };

    /// The outcome of a row that stands, without its chance.
    fn outcome(&self, row: usize) -> Option<Outcome> {
        let standing = (*self.of_rows.get(row)?)?;
        Some(Outcome {
            chance: None,
            ..self.outcomes.get(standing)?.clone()
        })
    }
}

impl Candidate {
    /// Assesses a size at a turn.
    pub fn assess(
        setting: &Setting,
        size: (usize, &Shape, &Size),
        turn: Turn,
        counter: Option<&dyn Counter>,
    ) -> Self {
        let measured = SizeAssessment::new(setting, size, turn);
        let counter = counter.filter(|_| setting.not_rated().is_none());
        let Some(counter) = counter else {
            return measured.candidate;
        };
        let counts = counter.count(&measured.question(setting));
        let effective = counter.draws().weights().effective_draws();
        measured.counted(setting, counts, effective)
    }

    /// The rotation of the defect, in degrees, at which it is to be pictured: the
    /// worst for its gravest check; `None` where it was read or does not matter.
    pub fn pictured_rotation(&self) -> Option<f64> {
        let margin = |one: &&Outcome| one.scaled_margin().unwrap_or(f64::INFINITY);
        self.outcomes
            .iter()
            .filter(|one| one.rotation.is_some())
            .min_by(|one, other| {
                let graver = other.state.cmp(&one.state);
                graver.then(margin(one).total_cmp(&margin(other)))
            })?
            .rotation
    }

    /// Whether every check that has a stop was assessed; otherwise its chance is
    /// one of the others alone, and the true one at most that.
    pub fn is_chance_whole(&self) -> bool {
        let mut stops = self
            .outcomes
            .iter()
            .filter(|outcome| !outcome.stop.is_none());
        stops.all(|outcome| outcome.value.is_some())
    }

    /// The least margin to a stop in units of the checks' scales; `None` where no
    /// stop was assessed.
    pub(crate) fn least_margin(&self) -> Option<f64> {
        self.outcomes
            .iter()
            .filter_map(Outcome::scaled_margin)
            .reduce(f64::min)
    }

    /// Its name on the command line: `shape/size`.
    pub fn name(&self) -> String {
        format!("{}/{}", self.shape, self.size.label)
    }
}
