//! By how much each reading would have to be wrong to change the answer.

mod decides;
mod doubt;
mod moved;
mod of_model;
mod search;
mod words;

use crate::resolve::{Resolved, is_rotation_of_defect};
use crate::{Draws, Row, Setting, Size, State, Subject};
use doubt::{Doubt, accuracy};
use geometry::Radians;
use measurement::{Quantity, Unit};
use moved::Probe;
pub use of_model::ModelBreakEven;
use search::{Direction, Search, broken};

/// The break-even of every reading and assumption for one size.
///
/// What is held is the *state as read*: the worst of the rows that could be
/// assessed, at the values as read. A verdict looks at chances, disputes,
/// exclusions and missing readings as well, which no single value changes here.
///
/// One value is moved at a time, all others stay as read; what follows it where
/// nothing else was read follows. The turn stays.
///
/// Where trials are taken in, all of it is as now believed: the values, and the chances,
/// which are shares of the draws as trials weigh them.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakEvens {
    /// The state that is held.
    pub held: State,
    /// What is broken as read, the worst first; empty: nothing.
    pub by: Vec<BrokenLimit>,
    /// Of each quantity in doubt, the reading to doubt first on top: the largest
    /// chance that it alone has another value than the state needs.
    pub readings: Vec<BreakEven>,
    /// Of each model error whose end is in reach: what no reading settles.
    pub of_model: Vec<ModelBreakEven>,
    /// Whether trials are taken in.
    pub takes_trials_in: bool,
}

/// The interval of one quantity in which the state as read stays.
///
/// An end is looked for as far as the quantity can go: within what files accept,
/// and within four standard deviations, which one value in 16,000 leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakEven {
    /// The quantity.
    pub quantity: Quantity,
    /// Its value as read or assumed, in its unit.
    pub value: f64,
    /// Its standard deviation, that of the scales it was read on included.
    pub sd: f64,
    /// Whether nobody read it.
    pub is_assumed: bool,
    /// The end under the value, where there is one.
    pub below: Option<Change>,
    /// The end over the value, where there is one.
    pub above: Option<Change>,
}

/// One end of the interval, and what is beyond it.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The last value at which the state stays, to a hundredth of the quantity's
    /// fine step.
    pub at: f64,
    /// The state beyond.
    pub becomes: State,
    /// The limit that is broken beyond, where it becomes worse; the last one that
    /// is no longer, where it becomes better.
    pub by: Option<BrokenLimit>,
    /// The chance, by the quantity's own law, that it lies beyond.
    pub chance: f64,
}

/// A limit that is broken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BrokenLimit {
    /// The check's id.
    pub check: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// Its subject.
    pub of: Subject,
    /// Whether it is a stop or a caution.
    pub severity: State,
    /// The limit.
    pub limit: f64,
}

/// The break-even of each quantity in doubt, for a size set down at a turn.
///
/// Changes are looked for outward at eight places a side, half a standard
/// deviation apart; between the last place before and the first after a change it
/// is found by halving, to a hundredth of the quantity's fine step. A state that
/// is left and taken again between two places is not seen. Nor is a row that at
/// two and at four standard deviations keeps more than half of its margin, and is
/// broken between.
///
/// `draws` are those of a case whose trials are taken in; without them its chances are
/// those before the trials.
pub fn break_even(
    setting: &Setting,
    size: &Size,
    turn: Radians,
    rows: &[Row],
    draws: Option<&Draws>,
) -> BreakEvens {
    let takes_trials_in = setting.is_weighed();
    let draws = draws.filter(|_| takes_trials_in);
    // Nothing is held where nothing is rated.
    if setting.not_rated().is_some() {
        return BreakEvens {
            held: State::NotAssessed,
            by: Vec::new(),
            readings: Vec::new(),
            of_model: Vec::new(),
            takes_trials_in,
        };
    }
    let probe = Probe::new(setting, size, turn, rows);
    let held = probe.as_read.iter().copied().max().unwrap_or(State::Ok);
    let mut readings: Vec<BreakEven> = setting
        .resolved()
        .iter()
        .filter(|resolved| !resolved.quantity.is_for_workup_alone())
        .filter(|resolved| !is_open_rotation(resolved))
        .filter_map(|resolved| {
            let mut doubt = Doubt::of(setting, resolved)?;
            let mut value = resolved.law?.nominal();
            if takes_trials_in {
                value = setting.as_read().get(resolved.quantity)?;
                let column = draws.and_then(|it| Some((it, it.column(resolved.quantity)?)));
                if let Some((draws, column)) = column {
                    doubt = doubt.weighed(&column, draws.weights(), value)?;
                }
            }
            let search = Search::new(&probe, resolved.quantity, &doubt, held, value);
            Some(BreakEven {
                quantity: resolved.quantity,
                value,
                sd: doubt.sd(),
                is_assumed: resolved.selection().is_none(),
                below: search.change(Direction::Down),
                above: search.change(Direction::Up),
            })
        })
        .collect();
    // Stable: what has no end keeps the order in which it is asked.
    readings.sort_by(|one, other| other.chance().total_cmp(&one.chance()));
    BreakEvens {
        held,
        by: held_by(&probe, held),
        of_model: of_model::of_model(&probe, held, draws),
        readings,
        takes_trials_in,
    }
}

/// Whether it is the rotation of the defect, and nobody read it: every value is as
/// likely, and the worst counts for each check.
fn is_open_rotation(resolved: &Resolved) -> bool {
    is_rotation_of_defect(resolved.quantity) && resolved.selection().is_none()
}

impl BreakEven {
    /// The chance that it lies beyond either end.
    pub fn chance(&self) -> f64 {
        self.ends().map(|change| change.chance).sum()
    }

    /// Both ends, as far as they exist.
    pub fn ends(&self) -> impl Iterator<Item = &Change> {
        self.below.iter().chain(&self.above)
    }
}

/// The limits broken as read in the state that is held, the furthest first.
fn held_by(probe: &Probe, held: State) -> Vec<BrokenLimit> {
    let mut by: Vec<(f64, BrokenLimit)> = probe
        .rows
        .iter()
        .zip(&probe.values)
        .filter_map(|(row, value)| {
            let value = (*value)?;
            let broken = broken(row, value).filter(|broken| broken.severity == held)?;
            let band = if held == State::Stop {
                row.stop
            } else {
                row.caution
            };
            Some((band.margin(value)? / row.check.about().scale, broken))
        })
        .collect();
    by.sort_by(|one, other| one.0.total_cmp(&other.0));
    by.into_iter().map(|(_, broken)| broken).collect()
}
