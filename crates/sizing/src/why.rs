//! Why a size and not its neighbours: one dimension is changed at a time, and what then
//! becomes of every limit is told.

mod neighbour;
mod says;

use crate::lesson::outcome_of;
use crate::{Candidate, Outcome, Setting, Shape, Size, State, Subject, Turn};

/// Which dimension of a size is changed, and which way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DimensionStep {
    /// None: the size itself.
    AsItIs,
    /// The next waist up.
    WiderWaist,
    /// The next waist down.
    NarrowerWaist,
    /// Wider discs on the same waist.
    WiderDisc,
    /// Narrower discs on the same waist.
    NarrowerDisc,
    /// A longer waist.
    Longer,
    /// A shorter waist.
    Shorter,
}

/// One step of the walk: a neighbour of a size, as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct WhyStep {
    /// Which dimension is changed.
    pub way: DimensionStep,
    /// Whether the catalogue has the neighbour; otherwise nobody need make it.
    pub is_made: bool,
    /// The neighbour as measured, at its best turn; `None`: there is no such form.
    pub candidate: Option<Candidate>,
    /// The check that turns, if one does.
    pub turned: Option<ChangedCheck>,
    /// What becomes of the limits, in one sentence.
    pub says: String,
}

/// A check that has another state for the neighbour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChangedCheck {
    /// The check's id.
    pub check: &'static str,
    /// Its subject.
    pub of: Subject,
    /// Its state for the size.
    pub from: State,
    /// Its state for the neighbour.
    pub to: State,
}

impl DimensionStep {
    /// Every way, in the order of the walk.
    pub const ALL: [Self; 7] = [
        Self::AsItIs,
        Self::WiderWaist,
        Self::NarrowerWaist,
        Self::WiderDisc,
        Self::NarrowerDisc,
        Self::Longer,
        Self::Shorter,
    ];

    /// Its name on screens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AsItIs => "as it is",
            Self::WiderWaist => "next waist up",
            Self::NarrowerWaist => "next waist down",
            Self::WiderDisc => "wider discs",
            Self::NarrowerDisc => "narrower discs",
            Self::Longer => "longer waist",
            Self::Shorter => "shorter waist",
        }
    }
}

/// The walk through the neighbours of a size: the size itself, then one change after the
/// other. Everything is as measured; no chance is counted.
///
/// Of several checks that turn, that is told which becomes worst, and of these the one
/// with the gravest harm; where none becomes worse, the gravest that becomes better.
pub fn why(setting: &Setting, shape: &Shape, size: &Size, place: usize) -> Vec<WhyStep> {
    let assess = |size: &Size| Candidate::assess(setting, (place, shape, size), Turn::Best, None);
    let own = assess(size);
    DimensionStep::ALL
        .into_iter()
        .map(|way| match neighbour::of(shape, size, way) {
            None => WhyStep {
                way,
                is_made: false,
                candidate: None,
                turned: None,
                says: says::no_such(way).to_owned(),
            },
            Some((other, is_made)) => {
                let candidate = assess(&other);
                let turned = turned(&own, &candidate);
                WhyStep {
                    way,
                    is_made,
                    says: says::step(way, (&own, &candidate), turned.as_ref()),
                    candidate: Some(candidate),
                    turned,
                }
            }
        })
        .collect()
}

/// The check that turns from one size to another.
fn turned(own: &Candidate, other: &Candidate) -> Option<ChangedCheck> {
    let changed = other.outcomes.iter().filter_map(|outcome| {
        let before = outcome_of(own, outcome.check, outcome.of).ok()?;
        let is_known = |state: State| state != State::NotAssessed;
        let differs = before.state != outcome.state;
        (differs && is_known(before.state) && is_known(outcome.state)).then_some((before, outcome))
    });
    let changed: Vec<(&Outcome, &Outcome)> = changed.collect();
    let worse = changed.iter().filter(|(from, to)| to.state > from.state);
    let worst = worse.min_by(|(_, one), (_, other)| {
        let graver = other.state.cmp(&one.state);
        graver.then_with(|| one.by_harm(other))
    });
    let better = changed.iter().filter(|(from, to)| to.state < from.state);
    let gravest = || {
        better.min_by(|(one, _), (other, _)| {
            let graver = other.state.cmp(&one.state);
            graver.then_with(|| one.by_harm(other))
        })
    };
    let (from, to) = worst.or_else(gravest)?;
    Some(ChangedCheck {
        check: to.check,
        of: to.of,
        from: from.state,
        to: to.state,
    })
}
