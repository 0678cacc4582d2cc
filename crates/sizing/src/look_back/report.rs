use super::CaseRecord;
use super::pairs::{AnswerPair, ObservationTarget, ReadBy};
use crate::Subject;
use crate::trial::{ObservationKind, PERCENTILES};
use measurement::Unit;
use measurement::look_back::{
    Agreement, BiasProposal, Bin, Difference, ForetoldPair, agreement, brier, brier_interval,
    propose_bias, reliability, spiegelhalter_z,
};
use std::collections::BTreeMap;

/// What many cases say of what was foretold.
#[derive(Clone, Debug, PartialEq)]
pub struct LookBack {
    /// How many cases there are.
    pub cases: usize,
    /// How many deployments they have, released or not.
    pub deployments: usize,
    /// Of how many something was foretold at opening.
    pub foretold: usize,
    /// How many of those did not lie as modelled.
    pub left_out: usize,
    /// How many were released.
    pub released: usize,
    /// All answers together, of whatever; `None` where there is none.
    pub all: Option<AnswerRow>,
    /// What was foretold as yes or no, each thing by itself.
    pub answers: Vec<AnswerRow>,
    /// Values against their percentiles.
    pub values: Vec<ValueRow>,
    /// How far readings were from what was seen.
    pub readings: Vec<ReadingRow>,
}

/// Chances of one thing against what was seen of it.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerRow {
    /// What is looked at; `None`: all things together.
    pub what: Option<ObservationKind>,
    /// Its subject.
    pub of: Subject,
    /// How many pairs, the mean chance and the share that was seen.
    pub pairs: Bin,
    /// The scores, from 30 pairs on.
    pub score: Option<Score>,
    /// Bins of like chances, from 100 pairs on.
    pub reliability: Vec<Bin>,
}

/// How good chances were.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// Brier's score of all pairs.
    pub brier: f64,
    /// Its 95 % interval, by resampling of cases.
    pub brier_interval: [f64; 2],
    /// Spiegelhalter's Z of the first pair of each case; `None` where it has no variance,
    /// and of all things together, whose pairs are not independent.
    pub z: Option<f64>,
}

/// Values of one thing against what was foretold of them.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueRow {
    /// What is looked at.
    pub what: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// How many pairs.
    pub pairs: usize,
    /// In each twentieth of what was foretold how many were seen, from 100 pairs on; even
    /// where forecasts are right.
    pub twentieths: Option<[usize; PERCENTILES + 1]>,
}

/// How far one way of reading was from what was seen.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingRow {
    /// What was read and by what.
    pub of: ReadBy,
    /// How many cases.
    pub pairs: usize,
    /// How many of those are known as a bound alone: contact, a waist not indented.
    pub bounds: usize,
    /// The agreement, from 20 cases on.
    pub agreement: Option<Agreement>,
    /// What is proposed for your centre's rules, where something is.
    pub proposed: Option<BiasProposal>,
}

/// The fewest pairs of which chances are judged.
pub const FEWEST_ANSWERS: usize = 30;
/// The fewest cases of which readings are judged.
pub(crate) const FEWEST_VALUES: usize = 20;

/// The seed of the resamples: the same cases give the same intervals.
const SEED: u64 = 1;
/// The fewest pairs of which twentieths are shown.
const FEWEST_IN_BINS: usize = 100;

impl LookBack {
    /// Of all records, in the order of their cases.
    pub fn of(records: &[CaseRecord]) -> Self {
        let sum = |of: fn(&CaseRecord) -> usize| records.iter().map(of).sum();
        let mut things: Vec<ObservationTarget> = Vec::new();
        let mut of_values: BTreeMap<ObservationTarget, Vec<usize>> = BTreeMap::new();
        let mut of_readings: BTreeMap<ReadBy, Vec<(Difference, f64)>> = BTreeMap::new();
        for record in records {
            things.extend(record.answers.iter().map(|pair| pair.of));
            for pair in &record.values {
                of_values.entry(pair.of).or_default().push(pair.twentieth);
            }
            for pair in &record.readings {
                let all = of_readings.entry(pair.of).or_default();
                all.push((pair.difference, pair.of_seen));
            }
        }
        things.sort_unstable();
        things.dedup();
        let of = |thing: Option<ObservationTarget>| answer_row(records, thing);
        Self {
            cases: records.len(),
            deployments: sum(|record| record.deployments),
            foretold: sum(|record| record.foretold),
            left_out: sum(|record| record.left_out),
            released: sum(|record| record.released),
            all: of(None),
            answers: things.into_iter().filter_map(|one| of(Some(one))).collect(),
            values: of_values.into_iter().map(value_row).collect(),
            readings: of_readings.into_iter().map(reading_row).collect(),
        }
    }

    /// The rows with a proposal.
    pub fn proposals(&self) -> impl Iterator<Item = &ReadingRow> {
        self.readings.iter().filter(|row| row.proposed.is_some())
    }
}

fn answer_row(records: &[CaseRecord], thing: Option<ObservationTarget>) -> Option<AnswerRow> {
    let is_of = |pair: &&AnswerPair| thing.is_none_or(|thing| pair.of == thing);
    let cases: Vec<Vec<ForetoldPair>> = records
        .iter()
        .map(|record| {
            let pairs = record.answers.iter().filter(is_of);
            pairs.map(|pair| pair.foretold).collect()
        })
        .collect();
    let pairs = cases.concat();
    let score = || {
        let firsts = records.iter().flat_map(|record| {
            let pairs = record.answers.iter().filter(is_of);
            pairs.filter(|pair| pair.is_first).map(|pair| pair.foretold)
        });
        let firsts: Vec<ForetoldPair> = firsts.collect();
        Some(Score {
            brier: brier(&pairs)?,
            brier_interval: brier_interval(&cases, SEED)?,
            z: thing.and_then(|_| spiegelhalter_z(&firsts)),
        })
    };
    Some(AnswerRow {
        what: thing.map(|(what, _)| what),
        of: thing.map_or(Subject::Shape, |(_, of)| of),
        pairs: Bin::of(&pairs)?,
        score: (pairs.len() >= FEWEST_ANSWERS).then(score).flatten(),
        reliability: reliability(&pairs),
    })
}

fn value_row(((what, of), places): (ObservationTarget, Vec<usize>)) -> ValueRow {
    let mut twentieths = [0; PERCENTILES + 1];
    for &place in &places {
        twentieths[place.min(PERCENTILES)] += 1;
    }
    ValueRow {
        what,
        of,
        pairs: places.len(),
        twentieths: (places.len() >= FEWEST_IN_BINS).then_some(twentieths),
    }
}

fn reading_row((of, pairs): (ReadBy, Vec<(Difference, f64)>)) -> ReadingRow {
    let differences: Vec<Difference> = pairs.iter().map(|(difference, _)| *difference).collect();
    let is_bound = |one: &&Difference| !matches!(one, Difference::Exactly(_));
    let of_seen: f64 = pairs.iter().map(|(_, variance)| variance).sum();
    let of_seen = of_seen / pairs.len() as f64;
    let is_enough = pairs.len() >= FEWEST_VALUES;
    let agreement = is_enough.then(|| agreement(&differences)).flatten();
    // A rule has one modality, and its prior width is in millimetres.
    let can_be_proposed = of.by.is_some() && of.unit() == Unit::Mm;
    ReadingRow {
        of,
        pairs: pairs.len(),
        bounds: differences.iter().filter(is_bound).count(),
        proposed: agreement
            .as_ref()
            .filter(|_| can_be_proposed)
            .and_then(|agreement| propose_bias(agreement, of_seen)),
        agreement,
    }
}
