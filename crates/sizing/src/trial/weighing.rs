use super::conflict::{self, Expectation, Surprise, expected, moved_most};
use super::drawn::{ENOUGH, RoundDraws};
use super::pair_cache::PairCache;
use super::weigh::{Pairs, WeighedTrial};
use super::{NotCounted, Trial};
use crate::house_rules::Parameter;
use crate::side_by_side::side_by_side;
use crate::turn::best_turn;
use crate::{Catalogue, Draws, ModelErrors, Setting, Size, Work, rows};
use geometry::degrees;
use measurement::targeted::Proposal;
use measurement::{
    Blocks, DrawsError, LogWeights, ModelError, Quantity, Shift, TooManyTrials, Unit, Weights,
};

/// What trials make of the draws of a case.
#[derive(Debug)]
pub struct Weighing {
    /// The draws, each with its weight; `None`: none agrees with what was seen.
    pub draws: Option<Draws>,
    /// The effective number of draws.
    pub effective: f64,
    /// How many draws were made in the last round.
    pub drawn: usize,
    /// How many targeted rounds were needed.
    pub rounds: usize,
    /// Each trial, in its order.
    pub trials: Vec<TrialOutcome>,
    /// Where the middle of a quantity went, for those of which that is no noise.
    pub shifts: Vec<(Quantity, f64)>,
    /// The same of model errors.
    pub error_shifts: Vec<(ModelError, f64)>,
    /// Whether any observation counts.
    pub any_counted: bool,
}

/// What came of one trial.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialOutcome {
    /// Its name.
    pub id: String,
    /// The size.
    pub size: String,
    /// The rotation it was set down at, degrees.
    pub rotation_deg: f64,
    /// The effective number of draws after it.
    pub effective: f64,
    /// The share of draws and seats, weighed by all that was seen, in which no limit is
    /// broken as the device lies; `None`: none agrees.
    pub as_it_lies: Option<f64>,
    /// Each observation, in its order.
    pub seen: Vec<SeenOutcome>,
}

/// What came of one observation.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenOutcome {
    /// Its name.
    pub id: String,
    /// How it was to be expected; why it does not weigh the draws.
    pub counted: Result<Expectation, NotCounted>,
}

/// Why trials could not be weighed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WeighError {
    /// No such number of draws.
    #[error(transparent)]
    Draws(#[from] DrawsError),
    /// More trials than the draws have seats to lend.
    #[error(transparent)]
    TooMany(#[from] TooManyTrials),
    /// A size that no catalogue has.
    #[error("no size `{0}` in the catalogue")]
    UnknownSize(String),
    /// A trial that the case does not have.
    #[error("no trial `{0}` in the case")]
    UnknownTrial(String),
    /// Nothing can be foretold.
    #[error("no simulated variation agrees with what was seen: set an observation aside")]
    NoneAgrees,
    /// Fewer draws than trials need.
    #[error("{0} draws: with trials at least {LEAST_DRAWS} are needed, or 0")]
    TooFew(usize),
}

/// The least draws with which anything is said of a case with trials.
pub const LEAST_DRAWS: usize = 4096;
/// The most targeted rounds.
const MOST_ROUNDS: usize = 5;
/// A shift under this share of a quantity's standard deviation counts as none: of some
/// fifty quantities two pass 2.36 errors by chance.
const LEAST_SHIFT: f64 = 0.02;
/// From which round on more draws are made, and how many times more.
const LARGE_FROM: usize = 4;
const LARGER: usize = 8;

/// Weighs the draws of a case by its trials; in targeted rounds where too few agree with
/// what was seen. `Ok(None)`: it was cancelled.
pub fn weigh(
    setting: &Setting,
    catalogues: &[Catalogue],
    draws: usize,
    seed: u64,
    work: &Work,
) -> Result<Option<Weighing>, WeighError> {
    PairCache::default().weigh(setting, catalogues, (draws, seed), work)
}

impl PairCache {
    /// As [`weigh`], with a number of draws and a seed, by what is kept.
    pub fn weigh(
        &mut self,
        setting: &Setting,
        catalogues: &[Catalogue],
        by: (usize, u64),
        work: &Work,
    ) -> Result<Option<Weighing>, WeighError> {
        let opened = opened(setting, catalogues, &setting.case().procedure.trials)?;
        let round = rounds(setting, &opened, by, self, work)?;
        Ok(round.and_then(|round| {
            let (drawn, number) = (round.drawn, round.number);
            round
                .weighed
                .finished(setting, drawn, &opened, number, work)
        }))
    }
}

/// The draws of the last round with what the trials made of them.
pub(super) struct Round {
    pub(super) drawn: RoundDraws,
    pub(super) weighed: Weighed,
    /// How many targeted rounds came before it and with it.
    number: usize,
}

impl Round {
    /// The effective number of draws.
    pub(super) fn effective(&self) -> f64 {
        self.weighed.effective()
    }
}

/// Draws weighed by trials; in targeted rounds where too few agree with what was seen.
pub(super) fn rounds(
    setting: &Setting,
    opened: &[WeighedTrial],
    (draws, seed): (usize, u64),
    cache: &mut PairCache,
    work: &Work,
) -> Result<Option<Round>, WeighError> {
    if draws < LEAST_DRAWS {
        return Err(WeighError::TooFew(draws));
    }
    let mut proposal = Proposal::none();
    for round in 0.. {
        let larger = if round >= LARGE_FROM { LARGER } else { 1 };
        let count = (draws * larger).min(Blocks::COUNT * Blocks::MOST_PER_BLOCK);
        let blocks = Blocks::new(count, seed.wrapping_add(round as u64))?;
        let new = || RoundDraws::new(setting, &blocks, &proposal);
        let mut of_round = PairCache::default();
        // Draws that are aimed are of what was seen: nothing of them is kept.
        let (drawn, cache) = match round {
            0 => (cache.drawn(setting, (draws, seed), new), &mut *cache),
            _ => (new(), &mut of_round),
        };
        let drawn = drawn.scaled(setting, &blocks);
        let Some(weighed) = weigh_drawn(setting, &drawn, opened, cache, work)? else {
            return Ok(None);
        };
        let is_enough = weighed.effective() >= ENOUGH;
        if !is_enough && round < MOST_ROUNDS {
            let toward = drawn.toward(setting, &blocks, &weighed.seen, &proposal);
            if !toward.moved().is_empty() {
                proposal = toward;
                continue;
            }
        }
        return Ok(Some(Round {
            drawn,
            weighed,
            number: round,
        }));
    }
    Ok(None)
}

/// Trials of a case with their sizes.
pub(super) fn opened<'a>(
    setting: &'a Setting,
    catalogues: &'a [Catalogue],
    trials: &'a [Trial],
) -> Result<Vec<WeighedTrial<'a>>, WeighError> {
    let each = trials.iter().map(|trial| {
        let size = find(catalogues, &trial.size)
            .ok_or_else(|| WeighError::UnknownSize(trial.size.clone()))?;
        let turn = trial.rotation_deg.map_or_else(
            || best_turn(setting, size, &rows(setting, &size.occluder)),
            degrees,
        );
        Ok(WeighedTrial::new(setting, trial, size, turn))
    });
    each.collect()
}

fn find<'a>(catalogues: &'a [Catalogue], name: &str) -> Option<&'a Size> {
    let shapes = catalogues.iter().flat_map(|catalogue| &catalogue.shapes);
    shapes
        .flat_map(|shape| shape.sizes.iter().map(move |size| (shape, size)))
        .find(|(shape, size)| {
            let parts = name.split_once('/');
            parts == Some((shape.id.as_str(), size.label.as_str()))
        })
        .map(|(_, size)| size)
}

/// Weighs draws by trials; what is kept of pairs is of these draws. `Ok(None)`: it was
/// cancelled.
fn weigh_drawn(
    setting: &Setting,
    drawn: &RoundDraws,
    opened: &[WeighedTrial],
    cache: &mut PairCache,
    work: &Work,
) -> Result<Option<Weighed>, WeighError> {
    let mut seen = LogWeights::uniform(drawn.draws.len());
    let mut trials = Vec::with_capacity(opened.len());
    for (index, trial) in opened.iter().enumerate() {
        let pairs = trial.pairs(setting, drawn, index + 1, cache, work)?;
        let Some(pairs) = pairs else {
            return Ok(None);
        };
        let before = seen.clone();
        if !trial.counted.is_empty() {
            seen.multiply(&pairs.of_draws());
        }
        trials.push((pairs, before));
    }
    Ok(Some(Weighed {
        all: drawn.own.times(&seen, 1.0),
        seen,
        trials,
    }))
}

/// What one round makes of the trials.
pub(super) struct Weighed {
    /// The likelihoods of all that was seen.
    seen: LogWeights,
    /// The same with the draws' own weights.
    pub(super) all: LogWeights,
    /// Of each trial its pairs, and the likelihoods of the trials before it.
    pub(super) trials: Vec<(Pairs, LogWeights)>,
}

impl Weighed {
    fn effective(&self) -> f64 {
        self.all.effective_draws()
    }

    fn finished(
        self,
        setting: &Setting,
        drawn: RoundDraws,
        opened: &[WeighedTrial],
        rounds: usize,
        work: &Work,
    ) -> Option<Weighing> {
        let outcomes = opened.iter().zip(&self.trials);
        let outcomes = outcomes
            .map(|(opened, (pairs, before))| {
                self.outcome(
                    &drawn,
                    opened,
                    pairs,
                    before,
                    (&setting.case().procedure.trials, work),
                )
            })
            .collect();
        let any_counted = opened.iter().any(|one| !one.counted.is_empty());
        let weights = self.all.weights();
        let shifts = match (&weights, drawn.own.weights()) {
            (Some(after), Some(before)) if any_counted => Some(Shifts {
                before,
                after,
                quantile: setting.parameter(Parameter::Tie),
            }),
            _ => None,
        };
        let draws = &drawn.draws;
        let error_shifts = ModelError::ALL.into_iter().filter_map(|error| {
            let by = shifts.as_ref()?.of(&draws.errors(error)?, false)?;
            Some((error, by))
        });
        let error_shifts = error_shifts.collect();
        let quantities: Vec<Quantity> = Quantity::all().collect();
        let shifts = side_by_side(&quantities, work, |&quantity| {
            let is_angle = quantity.unit() == Unit::Degrees;
            let by = shifts.as_ref()?.of(&draws.column(quantity)?, is_angle)?;
            Some((quantity, by))
        });
        let shifts = shifts?.into_iter().flatten().collect();
        Some(Weighing {
            effective: self.all.effective_draws(),
            drawn: drawn.draws.len(),
            rounds,
            trials: outcomes,
            shifts,
            error_shifts,
            any_counted,
            draws: weights.and_then(|weights| drawn.draws.weighted(weights)),
        })
    }

    fn outcome(
        &self,
        drawn: &RoundDraws,
        opened: &WeighedTrial,
        pairs: &Pairs,
        before: &LogWeights,
        (trials, work): (&[Trial], &Work),
    ) -> TrialOutcome {
        let mut after = before.clone();
        let of_draws = pairs.of_draws();
        after.multiply(&of_draws);
        let (before, after) = (drawn.own.times(before, 1.0), drawn.own.times(&after, 1.0));
        // All but this trial: the weights without it.
        let inverse: Vec<f64> = of_draws
            .iter()
            .map(|likelihood| -libm::log(*likelihood))
            .collect();
        let others = if opened.counted.is_empty() {
            self.all.clone()
        } else {
            self.all.times(&LogWeights::from_logarithms(inverse), 1.0)
        };
        let seen = opened.trial.seen.iter().map(|seen| {
            let counted = opened.counted.iter().position(|one| one.seen.id == seen.id);
            let counted = match counted {
                None => {
                    let mut rest = opened.rest.iter();
                    let why = rest.find(|(one, _)| one.id == seen.id);
                    Err(why.map_or(NotCounted::SaysNothing, |(_, why)| why.clone()))
                }
                Some(index) => {
                    let one = &opened.counted[index];
                    let chances = pairs
                        .expected(index, one, &before, work)
                        .unwrap_or([0.0; 2]);
                    let moved = || {
                        // The law lets go of an outlier; who believes it does not.
                        let mut believed = before.clone();
                        believed.multiply(&pairs.faultless(index, one));
                        moved_most(&drawn.draws, &before, &believed)
                    };
                    Ok(expected(one, opened.trial, trials, chances, moved))
                }
            };
            SeenOutcome {
                id: seen.id.clone(),
                counted,
            }
        });
        TrialOutcome {
            id: opened.trial.id.clone(),
            size: opened.trial.size.clone(),
            rotation_deg: opened.turn().to_degrees(),
            effective: after.effective_draws(),
            as_it_lies: pairs.as_it_lies(&others),
            seen: seen.collect(),
        }
    }
}

/// What tells where the middle of a column went, where that is more than noise.
struct Shifts<'a> {
    before: Weights,
    after: &'a Weights,
    quantile: f64,
}

impl Shifts<'_> {
    fn of(&self, column: &[f64], is_angle: bool) -> Option<f64> {
        let shift = Shift::between(column, &self.before, self.after, is_angle)?;
        let sd = conflict::spread(column, &self.before)?;
        let is_told = shift.is_told(self.quantile) && shift.by.abs() > LEAST_SHIFT * sd;
        is_told.then_some(shift.by)
    }
}

impl Weighing {
    /// What holds every verdict at borderline, a sentence for each; empty: nothing.
    pub fn holds(&self) -> Vec<String> {
        let mut holds: Vec<String> = self
            .conflicts()
            .filter(|(_, _, expected)| expected.surprise == Some(Surprise::Conflict))
            .map(|(_, _, expected)| expected.sentence())
            .collect();
        if self.any_counted && self.effective < ENOUGH {
            holds.push(if self.draws.is_some() {
                format!(
                    "only {:.0} simulated variations agree with what was seen",
                    self.effective
                )
            } else {
                "no simulated variation agrees with what was seen".to_owned()
            });
        }
        holds
    }

    /// What the readings hardly allow: the trial, the observation and what is said.
    pub fn conflicts(&self) -> impl Iterator<Item = (&str, &str, &Expectation)> {
        self.trials.iter().flat_map(|trial| {
            trial.seen.iter().filter_map(|seen| {
                let expected = seen.counted.as_ref().ok()?;
                expected.surprise?;
                Some((trial.id.as_str(), seen.id.as_str(), expected))
            })
        })
    }

    /// The case as it is believed once something was seen: each quantity whose middle
    /// moved by more than noise at what was measured plus that.
    pub fn believed(&self, setting: &Setting) -> Setting {
        let mut errors = ModelErrors::default();
        for &(error, by) in &self.error_shifts {
            errors.set(error, by);
        }
        setting.believed(&self.shifts, errors).held(self.holds())
    }
}
