//! The ranking as JSON, stable from its first version.

use super::harmless;
use anyhow::Result;
use paper::Provenance;
use serde::{Serialize, Serializer};
use sizing::house_rules::{Band, Exclusion};
use sizing::trial::Weighing;
use sizing::{Candidate, Outcome, Ranking};
use std::io::Write;

/// Version of the form.
pub(super) const FORMAT: u32 = 2;

/// What is said of the trials that a list takes in.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Weighed {
    trials: usize,
    ess: f64,
    conflicts: Vec<String>,
}

impl Weighed {
    pub(crate) fn of(weighing: &Weighing) -> Self {
        let conflicts = weighing.conflicts();
        Self {
            trials: weighing.trials.len(),
            ess: rounded(weighing.effective),
            conflicts: conflicts.map(|(_, _, one)| one.sentence()).collect(),
        }
    }
}

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    program: String,
    case: &'a str,
    /// Of many cases in one call the name by which this one was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<&'a str>,
    inputs_sha256: &'a str,
    seed: u64,
    draws: usize,
    exceptions: &'a [String],
    excluded: Vec<Said>,
    unanswered: Vec<Said>,
    against: Vec<&'a str>,
    disputed: Vec<Said>,
    contradictions: Vec<Said>,
    /// Why no size is rated; empty: sizes are rated.
    not_rated: Vec<String>,
    notes: &'a [String],
    #[serde(flatten)]
    trials: Option<&'a Weighed>,
    candidates: Candidates<'a>,
}

/// The list, each size made into words when its turn to be written comes.
struct Candidates<'a>(&'a Ranking);

impl Serialize for Candidates<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let all = self.0.candidates.iter().zip(&self.0.groups).enumerate();
        serializer.collect_seq(
            all.map(|(index, (candidate, &group))| ranked(index + 1, group, candidate)),
        )
    }
}

/// Something said above the list, with the id of what it is about.
#[derive(Serialize)]
struct Said {
    id: String,
    says: String,
}

#[derive(Serialize)]
pub(super) struct Ranked<'a> {
    rank: usize,
    group: usize,
    shape: &'a str,
    size: &'a str,
    rotation_deg: f64,
    waist_mm: f64,
    length_mm: f64,
    left_disc_mm: Option<f64>,
    right_disc_mm: Option<f64>,
    disc_thickness_mm: Option<f64>,
    sheath_fr: f64,
    verdict: &'a str,
    because: &'a [String],
    chance: Option<f64>,
    chance_error: Option<f64>,
    /// Whether something with a limit was not assessed: the chance is at most this.
    chance_is_bound: bool,
    chance_no_warning: Option<f64>,
    in_stock: bool,
    checks: Vec<Checked<'a>>,
}

#[derive(Serialize)]
struct Checked<'a> {
    check: &'a str,
    of: &'a str,
    state: &'a str,
    value: Option<f64>,
    unit: &'a str,
    limit: [Option<f64>; 2],
    warning: [Option<f64>; 2],
    margin_limit: Option<f64>,
    margin_warning: Option<f64>,
    chance: Option<f64>,
    missing: Vec<&'a str>,
    says: &'a str,
}

/// Writes a ranking as JSON.
pub(crate) fn write(
    out: &mut dyn Write,
    ranking: &Ranking,
    trials: Option<&Weighed>,
    from: &Provenance,
) -> Result<()> {
    harmless::pretty(out, &report(None, ranking, trials, from))
}

/// Writes the ranking of one of many cases in one line, with the name by which it was
/// given.
pub(crate) fn write_line(
    out: &mut dyn Write,
    file: &str,
    ranking: &Ranking,
    trials: Option<&Weighed>,
    from: &Provenance,
) -> Result<()> {
    harmless::line(out, &report(Some(file), ranking, trials, from))
}

fn report<'a>(
    file: Option<&'a str>,
    ranking: &'a Ranking,
    trials: Option<&'a Weighed>,
    from: &'a Provenance,
) -> Report<'a> {
    Report {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &ranking.setting.case().title,
        file,
        inputs_sha256: &from.inputs_sha256,
        seed: from.seed,
        draws: from.draws,
        exceptions: ranking.setting.exceptions(),
        excluded: ranking.excluded.iter().map(exclusion).collect(),
        unanswered: ranking.unanswered.iter().map(exclusion).collect(),
        against: ranking.against.iter().map(|one| one.id.as_str()).collect(),
        disputed: ranking
            .disputes()
            .map(|(quantity, says)| Said {
                id: quantity.address().into(),
                says,
            })
            .collect(),
        contradictions: ranking
            .contradictions
            .iter()
            .map(|one| Said {
                id: one.id.clone(),
                says: one.says.clone(),
            })
            .collect(),
        not_rated: ranking
            .setting
            .not_rated()
            .map(sizing::NotRated::says)
            .unwrap_or_default(),
        notes: &ranking.notes,
        trials,
        candidates: Candidates(ranking),
    }
}

fn exclusion(exclusion: &Exclusion) -> Said {
    Said {
        id: exclusion.id.clone(),
        says: exclusion.fact.clone(),
    }
}

pub(super) fn ranked(rank: usize, group: usize, candidate: &Candidate) -> Ranked<'_> {
    let occluder = &candidate.size.occluder;
    let [left, right] = occluder.discs.as_ref().into_both();
    let diameter = |disc: &Option<geometry::Disc>| disc.map(|disc| rounded(2.0 * disc.radius));
    let thickness = left.or(*right).map(|disc| rounded(disc.thickness));
    let chances = candidate.chances.as_ref();
    Ranked {
        rank,
        group,
        shape: &candidate.shape,
        size: &candidate.size.label,
        rotation_deg: rounded(candidate.turn.to_degrees()),
        waist_mm: rounded(occluder.waist.diameter),
        length_mm: rounded(occluder.waist.length),
        left_disc_mm: diameter(left),
        right_disc_mm: diameter(right),
        disc_thickness_mm: thickness,
        sheath_fr: rounded(candidate.size.sheath.french),
        verdict: candidate.judged.verdict.word(),
        because: &candidate.judged.because,
        chance: chances.map(|it| rounded(it.chance.value)),
        chance_error: chances.map(|it| rounded(it.chance.error)),
        chance_is_bound: chances.is_some() && !candidate.is_chance_whole(),
        chance_no_warning: chances.map(|it| rounded(it.chance_no_caution.value)),
        in_stock: candidate.is_on_shelf,
        checks: candidate.outcomes.iter().map(checked).collect(),
    }
}

fn checked(outcome: &Outcome) -> Checked<'_> {
    let band = |band: Band| [band.low, band.high];
    Checked {
        check: outcome.check,
        of: outcome.of.label(),
        state: outcome.state.word(),
        value: outcome.value.map(rounded),
        unit: outcome.unit.symbol(),
        limit: band(outcome.stop),
        warning: band(outcome.caution),
        margin_limit: outcome.margin_stop().map(rounded),
        margin_warning: outcome.margin_caution().map(rounded),
        chance: outcome.chance.map(|chance| rounded(chance.value)),
        missing: outcome
            .missing
            .iter()
            .map(|quantity| quantity.address())
            .collect(),
        says: &outcome.says,
    }
}

/// A figure to six decimals: the model's accuracy, and the same on every machine.
pub(super) fn rounded(value: f64) -> f64 {
    const DECIMALS: f64 = 1e6;
    // Adding 0 turns −0 into 0.
    (value * DECIMALS).round() / DECIMALS + 0.0
}
