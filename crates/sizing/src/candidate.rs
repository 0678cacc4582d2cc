use crate::engine::{Counter, Counts, Question};
use crate::outcome::{Outcome, outcome};
use crate::placements::Placements;
use crate::turn::{Turn, best_turn};
use crate::verdict::{Judged, judge};
use crate::{Row, Setting, Shape, Size, rows};
use geometry::Radians;
use measurement::{BlockShares, Chance};

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
    /// The outcome of every check.
    pub outcomes: Vec<Outcome>,
    /// Whether it is on the shelf today.
    pub is_on_shelf: bool,
    /// Whether sizes of the case are rated at all; otherwise there is no chance.
    pub is_case_rated: bool,
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

/// A size with the rows it is held against and the turn it is set down at.
pub(crate) struct Prepared<'a> {
    place: usize,
    shape: &'a Shape,
    size: &'a Size,
    rows: Vec<Row>,
    turn: Radians,
}

impl<'a> Prepared<'a> {
    pub(crate) fn new(
        setting: &Setting,
        (place, shape, size): (usize, &'a Shape, &'a Size),
        turn: Turn,
    ) -> Self {
        let rows = rows(setting, &size.occluder);
        let turn = match turn {
            Turn::Best => best_turn(setting, size, &rows),
            Turn::ByHand(turn) => turn,
        };
        Self {
            place,
            shape,
            size,
            rows,
            turn,
        }
    }

    /// What an engine is asked of it.
    pub(crate) fn question<'b>(&'b self, setting: &'b Setting) -> Question<'b> {
        Question {
            setting,
            size: self.size,
            turn: self.turn,
            rows: &self.rows,
        }
    }
}

/// How many draws of equal weight say as much; 1 where there are none.
pub(crate) fn effective_draws(counter: Option<&dyn Counter>) -> f64 {
    counter.map_or(1.0, |counter| counter.draws().weights().effective_draws())
}

impl Candidate {
    /// Assesses a size at a turn.
    pub fn assess(
        setting: &Setting,
        size: (usize, &Shape, &Size),
        turn: Turn,
        counter: Option<&dyn Counter>,
    ) -> Self {
        let counter = counter.filter(|_| setting.not_rated().is_none());
        let prepared = Prepared::new(setting, size, turn);
        let counts = counter.map(|counter| counter.count(&prepared.question(setting)));
        let effective = effective_draws(counter);
        Self::judged(setting, &prepared, effective, counts.as_ref())
    }

    /// What becomes of a prepared size by its counts over so many effective draws.
    pub(crate) fn judged(
        setting: &Setting,
        prepared: &Prepared,
        effective: f64,
        counts: Option<&Counts>,
    ) -> Self {
        let Prepared {
            place,
            shape,
            size,
            rows,
            turn,
        } = prepared;
        let placements = Placements::as_read(setting, size, *turn);
        let outcomes: Vec<Outcome> = rows
            .iter()
            .enumerate()
            .map(|(row_place, row)| {
                let shares = counts.and_then(|counts| counts.rows[row_place].as_ref());
                outcome(&placements, row, shares, effective)
            })
            .collect();
        let chances = counts.map(|counts| Chances {
            no_stop: counts.no_stop,
            chance: counts.no_stop.chance(effective),
            no_caution: counts.no_caution,
            chance_no_caution: counts.no_caution.chance(effective),
        });
        let chance = chances.as_ref().map(|chances| chances.chance.value);
        Self {
            place: *place,
            shape: shape.id.clone(),
            shape_name: shape.name.clone(),
            size: (*size).clone(),
            turn: *turn,
            judged: judge(setting, &size.occluder, rows, &outcomes, chance),
            chances,
            outcomes,
            is_on_shelf: true,
            is_case_rated: setting.not_rated().is_none(),
        }
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
    pub fn least_margin(&self) -> Option<f64> {
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
