//! What a further observation does not change, kept from one weighing to the next.

use super::drawn::RoundDraws;
use super::modelled::Modelled;
use crate::house_rules::{Band, HouseRules};
use crate::procedure::Procedure;
use crate::{Case, Row, Setting, Size, Subject};
use geometry::Radians;
use std::sync::Arc;

/// The draws of a case, and of each trial what the model has in every pair of a draw and
/// a lent seat: all that depends on readings, rules and size, and on nothing seen.
///
/// Given to each weighing of a case in turn it saves most of the work; what comes of a
/// weighing is the same with an empty one. Of another case, or under other rules, it
/// forgets what it has.
#[derive(Debug, Default)]
pub struct PairCache {
    of: Option<Of>,
    drawn: Option<RoundDraws>,
    pairs: Vec<TrialPairs>,
}

/// What draws are of.
#[derive(Debug, PartialEq)]
struct Of {
    /// The case, its procedure left out.
    case: Case,
    rules: HouseRules,
    draws: usize,
    seed: u64,
}

/// What the model has of one trial in every pair.
#[derive(Debug)]
pub(super) struct TrialPairs {
    pub(super) of: PairsOf,
    /// Whether no limit is broken.
    pub(super) holds: Arc<[bool]>,
    /// Of each thing that was seen the modelled value, as the model has it.
    pub(super) modelled: Vec<(Modelled, Arc<[f64]>)>,
}

/// All on which the pairs of a trial depend beside the draws.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PairsOf {
    number: usize,
    size: Size,
    turn: Radians,
    stops: Vec<(&'static str, Subject, Band)>,
}

impl PairsOf {
    /// Those of the trial with a number, from 1, of a size at a turn.
    pub(super) fn new(number: usize, size: &Size, turn: Radians, rows: &[Row]) -> Self {
        let assessed = rows.iter().filter(|row| row.is_assessed());
        Self {
            number,
            size: size.clone(),
            turn,
            stops: assessed.map(|row| (row.id(), row.of, row.stop)).collect(),
        }
    }
}

/// Modelled values are kept of so many things: half a megabyte each at 4,096 draws.
const MOST_KEPT: usize = 12;

impl PairCache {
    /// An empty one.
    pub const fn new() -> Self {
        Self {
            of: None,
            drawn: None,
            pairs: Vec::new(),
        }
    }

    /// The draws of a setting as they were first drawn, made where they are not known.
    pub(super) fn drawn(
        &mut self,
        setting: &Setting,
        (draws, seed): (usize, u64),
        made: impl FnOnce() -> RoundDraws,
    ) -> RoundDraws {
        let mut case = setting.case().clone();
        case.procedure = Procedure::default();
        let of = Of {
            case,
            rules: setting.rules().clone(),
            draws,
            seed,
        };
        if self.of.as_ref() != Some(&of) {
            *self = Self {
                of: Some(of),
                ..Self::default()
            };
        }
        self.drawn.get_or_insert_with(made).clone()
    }

    /// The pairs of a trial; `None` where they are not known.
    pub(super) fn pairs(&self, of: &PairsOf) -> Option<&TrialPairs> {
        self.pairs.iter().find(|pairs| pairs.of == *of)
    }

    /// Keeps the pairs of a trial, and of the others as many as there is room for.
    pub(super) fn keep(&mut self, pairs: TrialPairs) {
        self.pairs.retain(|known| known.of != pairs.of);
        self.pairs.push(pairs);
        let kept = |of: &Self| {
            of.pairs
                .iter()
                .map(|pairs| pairs.modelled.len())
                .sum::<usize>()
        };
        while self.pairs.len() > 1 && kept(self) > MOST_KEPT {
            self.pairs.remove(0);
        }
    }
}
