//! Which reading, if it were exact, would help most to choose.

pub mod estimate;
mod words;

use crate::engine::{Counter, DrawSet, Question};
use crate::words::percent;
use crate::{Candidate, Setting, rows};
use estimate::Sample;
use measurement::{Chance, Quantity};
use std::sync::Arc;

/// What each reading is worth for the choice among sizes.
///
/// A size is worth 1 in a draw in which it breaks no stop, else 0. Chosen now is
/// the size with the highest chance. Knowing a quantity exactly one would choose,
/// for each of its values, the size with the highest chance there: the expected
/// gain of that is the quantity's expected value of partial perfect information
/// (Brennan, Kharroubi, O'Hagan and Chilcott, Med Decis Making 27 (2007), from
/// memory).
///
/// Reduced model: only stops that could be assessed count, and a quantity known
/// exactly is no better read than the others are.
#[derive(Clone, Debug, PartialEq)]
pub struct Worth {
    /// The place, among the sizes given, of the one with the highest chance.
    pub best: usize,
    /// Its name.
    pub best_name: String,
    /// Its chance that no stop is broken.
    pub chance: Chance,
    /// The chance that it is not the best: it breaks a stop, and another breaks
    /// none. Everything known exactly would take all of it away.
    pub not_best: Chance,
    /// What each quantity in doubt would bring, the most on top.
    pub gains: Vec<Gain>,
    /// Standard errors within which a gain counts as none.
    tie: f64,
}

/// What it would bring to know one quantity exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// The quantity.
    pub quantity: Quantity,
    /// By how much the chance of the size chosen would rise, with its sampling
    /// error. Under 0 is noise: there is no loss in knowing.
    pub chance: Chance,
    /// The share of the chance that the choice is not the best which that would
    /// take away, 0 to 1.
    pub takes_away: f64,
}

/// What each quantity in doubt is worth for a choice among candidates, each at
/// its own turn; `None` where there is no candidate or the case is not rated.
///
/// The candidates were ranked over these draws, or are counted over them now.
pub fn worth(setting: &Setting, candidates: &[Candidate], counter: &dyn Counter) -> Option<Worth> {
    // Of a case that is not rated nothing is chosen.
    if setting.not_rated().is_some() {
        return None;
    }
    // What is not there cannot be chosen.
    let there: Vec<(usize, &Candidate)> = candidates
        .iter()
        .enumerate()
        .filter(|(_, one)| one.is_on_shelf)
        .collect();
    let draws = counter.draws();
    let holds: Vec<Arc<DrawSet>> = there
        .iter()
        .map(|(_, one)| match &one.holds {
            Some(holds) if holds.draws() == draws.len() => Arc::clone(holds),
            _ => Arc::new(count_again(setting, one, counter)),
        })
        .collect();
    let sample = Sample::new(&holds, draws.weights())?;
    let quantities = setting
        .resolved()
        .iter()
        .filter(|one| one.law.is_some_and(|law| law.sd() > 0.0))
        .map(|one| one.quantity);
    let mut gains: Vec<Gain> = quantities
        .filter_map(|quantity| {
            let chance = sample.gain(&draws.column(quantity)?);
            Some(Gain {
                quantity,
                chance,
                takes_away: sample.share_taken(&chance),
            })
        })
        .collect();
    gains.sort_by(|one, other| other.chance.value.total_cmp(&one.chance.value));
    let (best, best_one) = there.get(sample.best())?;
    Some(Worth {
        best: *best,
        best_name: best_one.name(),
        chance: sample.chance(),
        not_best: sample.not_best(),
        gains,
        tie: setting.parameter(crate::house_rules::Parameter::Tie),
    })
}

/// The draws in which a size that was not counted over these breaks no stop.
fn count_again(setting: &Setting, one: &Candidate, counter: &dyn Counter) -> DrawSet {
    let question = Question {
        setting,
        size: &one.size,
        turn: one.turn,
        rows: &rows(setting, &one.size.occluder),
    };
    counter.count(&question).holds
}

impl Worth {
    /// The quantity to measure next: the one that brings most, where that is more
    /// than its error and is seen in the chance as it is shown.
    pub fn next(&self) -> Option<&Gain> {
        let chance = self.chance.value;
        self.gains
            .first()
            .filter(|gain| gain.chance.value > self.tie * gain.chance.error)
            .filter(|gain| percent(chance + gain.chance.value) != percent(chance))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gain_that_is_not_seen_is_not_told() {
        let sure = |value| Chance { value, error: 1e-6 };
        let quantity = Quantity::from_address("aortic.rim").unwrap();
        let worth = |chance: f64, gain: f64| Worth {
            best: 0,
            best_name: "even/5x3".into(),
            chance: sure(chance),
            not_best: sure(0.02),
            gains: vec![Gain {
                quantity,
                chance: sure(gain),
                takes_away: 0.5,
            }],
            tie: 2.36,
        };
        assert!(worth(0.96, 0.004).says().starts_with("No single reading"));
        assert!(worth(0.96, 0.012).says().contains("from 96 % to 97 %"));
    }
}
