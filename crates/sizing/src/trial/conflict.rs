use super::counted::WeighingObservation;
use super::{Seen, Trial};
use crate::house_rules::ObservationLaw;
use crate::{Draws, words};
use measurement::{LogWeights, Quantity, Weights, weighted_median};

/// How little the readings allow of something that was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Surprise {
    /// Under 5 %: a note.
    Note,
    /// An answer under 1 % likely that nobody has seen a second time: a second look is
    /// asked for.
    LookAgain,
    /// Under 1 %, and a value, or an answer seen twice: readings and observation
    /// contradict each other until a person sets one aside.
    Conflict,
}

/// What was seen, against what the readings and the trials before gave to expect.
#[derive(Clone, Debug, PartialEq)]
pub struct Expectation {
    /// How likely it was, by the readings, the trials before and a faultless observer.
    pub chance: f64,
    /// How surprising that is; `None`: not at all.
    pub surprise: Option<Surprise>,
    /// What was seen, as the beginning of a sentence.
    pub what: String,
    /// What is said of it, as the end of that sentence; empty: nothing.
    pub says: String,
}

impl Expectation {
    /// What was seen with what is said of it; empty where nothing is.
    pub fn sentence(&self) -> String {
        if self.says.is_empty() {
            String::new()
        } else {
            format!("{} {}", self.what, self.says)
        }
    }
}

/// Under which chance a note is made.
const NOTE: f64 = 0.05;
/// Under which chance readings and observation contradict each other.
const CONFLICT: f64 = 0.01;

/// What one counted observation of a trial was to be expected as; `chances` are those of
/// as low and of as high a value, or twice that of the answer.
pub(crate) fn expected(
    one: &WeighingObservation,
    trial: &Trial,
    trials: &[Trial],
    chances: [f64; 2],
    moved: impl FnOnce() -> String,
) -> Expectation {
    let is_value = matches!(one.law, ObservationLaw::Value(_));
    let least = chances[0].min(chances[1]);
    let chance = if is_value {
        (2.0 * least).min(1.0)
    } else {
        least
    };
    let surprise = if chance >= NOTE {
        None
    } else if chance >= CONFLICT {
        Some(Surprise::Note)
    } else if is_value || is_seen_twice(one, trial, trials) {
        Some(Surprise::Conflict)
    } else {
        Some(Surprise::LookAgain)
    };
    let what = told(one);
    let likely = likely(chance);
    let says = match surprise {
        None => String::new(),
        Some(Surprise::Note) => format!("was {likely} likely by the readings"),
        Some(Surprise::LookAgain) => format!(
            "was {likely} likely by the readings. {}. A second look, by another eye, says which",
            false_answer(one)
        ),
        Some(Surprise::Conflict) => format!(
            "was {likely} likely by the readings: one of them is wrong. To agree with it {}",
            moved()
        ),
    };
    Expectation {
        chance,
        surprise,
        what,
        says,
    }
}

/// Whether another eye, or another trial, has seen the same of the same thing.
fn is_seen_twice(one: &WeighingObservation, trial: &Trial, trials: &[Trial]) -> bool {
    let seen = one.seen;
    let mut others = trials
        .iter()
        .flat_map(|of| of.seen.iter().map(move |other| (of, other)));
    others.any(|(of, other)| {
        let is_another = of.id != trial.id || other.by != seen.by;
        let is_same = other.what == seen.what && other.of == seen.of;
        is_another
            && is_same
            && other.id != seen.id
            && other.set_aside.is_none()
            && one.law.taken(other.seen, None) == Some(one.taken)
    })
}

/// What was seen, as the beginning of a sentence.
fn told(one: &WeighingObservation) -> String {
    let (what, of) = (one.seen.what, one.seen.of);
    let name = if of == crate::Subject::Shape {
        what.label().to_owned()
    } else {
        format!("{}, {}", what.label(), of.label())
    };
    let mut letters = name.chars();
    let first: String = letters
        .next()
        .into_iter()
        .flat_map(char::to_uppercase)
        .collect();
    format!("{first}{}: {}", letters.as_str(), one.seen.seen.says(what))
}

/// How often an observer says so falsely.
fn false_answer(one: &WeighingObservation) -> String {
    match (one.law, one.taken) {
        (ObservationLaw::Answer(law), Seen::Answer(measurement::Answer::No)) => {
            format!("A false no is {} likely", words::percent(1.0 - law.hit))
        }
        (ObservationLaw::Answer(law), _) => {
            format!("A false yes is {} likely", words::percent(law.false_yes))
        }
        _ => String::new(),
    }
}

fn likely(chance: f64) -> String {
    if chance < CONFLICT {
        "less than 1 %".to_owned()
    } else {
        words::percent(chance)
    }
}

/// How many quantities are named beside a conflict.
const NAMED: usize = 3;

/// The quantities that an observation would move most, with where each would go:
/// "aortic rim 1.7 → 1.2 mm, 2.1 SD".
pub(crate) fn moved_most(draws: &Draws, before: &LogWeights, after: &LogWeights) -> String {
    let Some((before, after)) = before.weights().zip(after.weights()) else {
        return "nothing that was measured could move far enough".to_owned();
    };
    let mut moved: Vec<(f64, String)> = Quantity::all()
        .filter_map(|quantity| {
            let column = draws.column(quantity)?;
            let (from, to) = (median(&column, &before)?, median(&column, &after)?);
            let sd = spread(&column, &before)?;
            let by = (to - from).abs() / sd;
            let unit = quantity.unit().symbol();
            let says = format!(
                "{} {from:.1} → {to:.1} {unit}, {by:.1} SD",
                quantity.label()
            );
            by.is_finite().then_some((by, says))
        })
        .collect();
    moved.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    let says: Vec<String> = moved
        .into_iter()
        .take(NAMED)
        .map(|(_, says)| says)
        .collect();
    format!("the readings would have to be: {}", says.join("; "))
}

fn median(column: &[f64], weights: &Weights) -> Option<f64> {
    weighted_median(column, |draw| weights.of(draw))
}

/// The weighted standard deviation of a column; `None` where it has none.
pub(super) fn spread(column: &[f64], weights: &Weights) -> Option<f64> {
    let (mut all, mut sum, mut squares) = (0.0, 0.0, 0.0);
    for (draw, value) in column.iter().enumerate() {
        let weight = weights.of(draw);
        all += weight;
        sum += weight * value;
        squares += weight * value * value;
    }
    let variance = squares / all - (sum / all) * (sum / all);
    (variance > 0.0).then(|| variance.sqrt())
}
