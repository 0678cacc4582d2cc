//! Every size of a catalogue in order, with all that is said above the list.

mod groups;
mod headline;
mod order;

use crate::candidate::{Before, SizeAssessment};
use crate::contradiction::Contradiction;
use crate::engine::{Answers, Counter, Counts, Question};
use crate::exclusion::{excluded, unanswered};
use crate::house_rules::{Exclusion, Parameter};
use crate::moved::Moved;
use crate::side_by_side::side_by_side;
use crate::{
    Against, Candidate, Catalogue, Setting, Shape, Size, Turn, Verdict, Work, aside_unknown,
    is_aside,
};
use measurement::Quantity;
use std::collections::BTreeSet;
use std::sync::Arc;

/// The ranked list of a case.
#[derive(Clone, Debug)]
pub struct Ranking {
    /// The case under its rules.
    pub setting: Arc<Setting>,
    /// Every size, the best first.
    pub candidates: Vec<Candidate>,
    /// For each candidate the number of its group, from 1: candidates of one
    /// group cannot be told apart by chance.
    pub groups: Vec<usize>,
    /// The quantities that a check of some candidate misses.
    pub missed: BTreeSet<Quantity>,
    /// What is said not to be in stock today and is no size of the catalogues.
    pub aside_unknown: Vec<String>,
    /// The exclusions that hold.
    pub excluded: Vec<Exclusion>,
    /// The exclusions that nothing has answered.
    pub unanswered: Vec<Exclusion>,
    /// The guidance against closing that is met: it holds every size at borderline.
    pub against: Vec<Against>,
    /// What is said of the case that cannot be so.
    pub contradictions: Vec<Contradiction>,
    /// What the house says of the site and the weight.
    pub notes: Vec<String>,
}

/// Every size of the catalogues held against every limit as measured: what no draw
/// changes, to be ranked by any number of them.
pub struct Assessment {
    setting: Arc<Setting>,
    sizes: Vec<SizeAssessment>,
    aside_unknown: Vec<String>,
    /// What is known of the rows draw by draw, of some from before the last edit.
    answers: Option<Answers>,
}

impl Assessment {
    /// Holds the sizes of catalogues against a case as measured; `None` when it was
    /// cancelled.
    pub fn new(setting: &Arc<Setting>, catalogues: &[Catalogue], work: &Work) -> Option<Self> {
        Self::made(setting, catalogues, work, |size| {
            SizeAssessment::new(setting, size, Turn::Best)
        })
    }

    /// The same after an edit: only what it reaches is worked out anew. `answers` are those
    /// that came with the ranking before it ([`Assessment::answers`]).
    pub fn after(
        (before, answers): (&Ranking, Option<&Answers>),
        setting: &Arc<Setting>,
        catalogues: &[Catalogue],
        work: &Work,
    ) -> Option<Self> {
        let Some(moved) = Moved::between(&before.setting, setting) else {
            return Self::new(setting, catalogues, work);
        };
        let mut by_place: Vec<Option<&Candidate>> = vec![None; before.candidates.len()];
        for candidate in &before.candidates {
            if let Some(one) = by_place.get_mut(candidate.place) {
                *one = Some(candidate);
            }
        }
        let mut all = Self::made(setting, catalogues, work, |(place, shape, size)| {
            let known = by_place.get(place).copied().flatten();
            let is_it = |it: &&Candidate| it.shape == shape.id && it.size == *size;
            match known.filter(is_it) {
                Some(candidate) => {
                    let moved = &moved;
                    let before = Before { candidate, moved };
                    SizeAssessment::after(before, setting, (place, shape, size))
                }
                None => SizeAssessment::new(setting, (place, shape, size), Turn::Best),
            }
        })?;
        let standing = || all.sizes.iter().map(|size| size.standing.as_slice());
        all.answers = answers.map(|answers| answers.for_rows(standing()));
        Some(all)
    }

    fn made(
        setting: &Arc<Setting>,
        catalogues: &[Catalogue],
        work: &Work,
        made: impl Fn((usize, &Shape, &Size)) -> SizeAssessment + Sync,
    ) -> Option<Self> {
        let shapes = catalogues.iter().flat_map(|catalogue| &catalogue.shapes);
        let sizes = shapes.flat_map(|shape| shape.sizes.iter().map(move |size| (shape, size)));
        let sizes: Vec<(usize, &Shape, &Size)> = sizes
            .enumerate()
            .map(|(place, (shape, size))| (place, shape, size))
            .collect();
        // What is asked of one size depends on no other, so the split changes nothing.
        let mut sizes = side_by_side(&sizes, work, |&size| made(size))?;
        for SizeAssessment { candidate, .. } in &mut sizes {
            candidate.is_on_shelf = !is_aside(catalogues, &candidate.name());
        }
        Some(Self {
            setting: Arc::clone(setting),
            sizes,
            aside_unknown: aside_unknown(catalogues),
            answers: None,
        })
    }

    /// How many rows stand as they were before an edit, and how many there are.
    pub fn standing(&self) -> [usize; 2] {
        let standing = self.sizes.iter().flat_map(|size| &size.standing);
        let all = self.sizes.iter().map(|size| size.candidate.outcomes.len());
        [standing.flatten().count(), all.sum()]
    }

    /// What is known of its rows draw by draw.
    pub const fn answers(&self) -> Option<&Answers> {
        self.answers.as_ref()
    }

    /// Ranks the sizes by draws, and keeps what came of each row in each draw; `None` when
    /// it was cancelled.
    pub fn rank_again(&mut self, counter: &dyn Counter, work: &Work) -> Option<Ranking> {
        if self.setting.not_rated().is_some() {
            return self.rank(None, work);
        }
        let questions = self.questions();
        let (counts, answers) = counter.count_again(work, &questions, self.answers())?;
        drop(questions);
        self.answers = answers;
        Some(self.listed(self.with_counts(counter, counts)))
    }

    /// Ranks the sizes by draws, or as measured alone; `None` when it was cancelled.
    pub fn rank(&self, counter: Option<&dyn Counter>, work: &Work) -> Option<Ranking> {
        // Of a case that is not rated no chance is given.
        let counter = counter.filter(|_| self.setting.not_rated().is_none());
        let candidates = match counter {
            None => self.sizes.iter().map(|it| it.candidate.clone()).collect(),
            Some(counter) => {
                let counts = counter.count_on(work, &self.questions())?;
                self.with_counts(counter, counts)
            }
        };
        Some(self.listed(candidates))
    }

    fn questions(&self) -> Vec<Question<'_>> {
        let sizes = self.sizes.iter();
        sizes.map(|it| it.question(&self.setting)).collect()
    }

    /// The candidates with their chances, in the catalogue's order.
    fn with_counts(&self, counter: &dyn Counter, counts: Vec<Counts>) -> Vec<Candidate> {
        let effective = counter.draws().weights().effective_draws();
        let counted = self.sizes.iter().zip(counts);
        counted
            .map(|(size, counts)| size.counted_once(&self.setting, counts, effective))
            .collect()
    }

    /// Ranks the sizes once, without a copy of each.
    fn into_ranking(mut self, counter: Option<&dyn Counter>, work: &Work) -> Option<Ranking> {
        let counter = counter.filter(|_| self.setting.not_rated().is_none());
        let counted = match counter {
            None => None,
            Some(counter) => {
                let effective = counter.draws().weights().effective_draws();
                Some((counter.count_on(work, &self.questions())?, effective))
            }
        };
        let sizes = std::mem::take(&mut self.sizes).into_iter();
        let candidates = match counted {
            None => sizes.map(|size| size.candidate).collect(),
            Some((counts, effective)) => sizes
                .zip(counts)
                .map(|(size, counts)| size.counted(&self.setting, counts, effective))
                .collect(),
        };
        Some(self.listed(candidates))
    }

    /// Candidates in order, with all that is said above the list.
    fn listed(&self, mut candidates: Vec<Candidate>) -> Ranking {
        let setting = &self.setting;
        let groups = order::order(&mut candidates, setting.parameter(Parameter::Tie));
        let outcomes = candidates.iter().flat_map(|one| &one.outcomes);
        let missed = outcomes.flat_map(|outcome| &outcome.missing).copied();
        Ranking {
            groups,
            missed: missed.collect(),
            aside_unknown: self.aside_unknown.clone(),
            excluded: excluded(setting).cloned().collect(),
            unanswered: unanswered(setting).cloned().collect(),
            against: setting.guidance().against.clone(),
            contradictions: setting.contradictions().to_vec(),
            notes: notes(setting),
            setting: Arc::clone(setting),
            candidates,
        }
    }
}

/// Ranks every size of the catalogues; `None` when it was cancelled.
pub fn rank(
    setting: &Arc<Setting>,
    catalogues: &[Catalogue],
    counter: Option<&dyn Counter>,
    work: &Work,
) -> Option<Ranking> {
    Assessment::new(setting, catalogues, work)?.into_ranking(counter, work)
}

/// The first of a list and the first of another shape, or else the next.
fn shown_first<'a>(list: impl Iterator<Item = &'a Candidate> + Clone) -> Vec<&'a Candidate> {
    let mut shown: Vec<&Candidate> = Vec::new();
    for one in list.clone() {
        if shown.iter().all(|other| other.shape != one.shape) {
            shown.push(one);
        }
    }
    for one in list {
        if shown.iter().all(|other| other.place != one.place) {
            shown.push(one);
        }
    }
    shown.truncate(Ranking::SHOWN_FIRST);
    shown
}

impl Ranking {
    /// How many sizes are shown side by side where nobody chose any.
    pub(crate) const SHOWN_FIRST: usize = 2;

    /// The sizes that are shown side by side where nobody chose any, at most
    /// two: the first in stock and the first of another shape, so
    /// that there is something to compare; the next of the same shape where there is no
    /// other.
    pub fn shown_first(&self) -> Vec<&Candidate> {
        shown_first(self.on_shelf())
    }

    /// What is in stock today, the best first.
    pub fn on_shelf(&self) -> impl Iterator<Item = &Candidate> + Clone {
        self.candidates.iter().filter(|one| one.is_on_shelf)
    }

    /// The next larger or smaller size of a candidate's shape that is on the shelf:
    /// the nearest waist, and of that the nearest length.
    pub(crate) fn beside_on_shelf(
        &self,
        candidate: &Candidate,
        larger: bool,
    ) -> Option<&Candidate> {
        let waist = |one: &Candidate| one.size.occluder.waist;
        let from = waist(candidate);
        let apart = |one: &Candidate| {
            let by = waist(one).diameter - from.diameter;
            if larger { by } else { -by }
        };
        let stretch = |one: &Candidate| (waist(one).length - from.length).abs();
        self.on_shelf()
            .filter(|one| one.shape == candidate.shape && apart(one) > 0.0)
            .min_by(|one, other| {
                let nearer = apart(one).total_cmp(&apart(other));
                nearer.then_with(|| stretch(one).total_cmp(&stretch(other)))
            })
    }

    /// What is said of a size that is not in stock today, with what is next to
    /// it there; nothing of one that is.
    pub fn aside(&self, candidate: &Candidate) -> Option<String> {
        if candidate.is_on_shelf {
            return None;
        }
        let beside = [(true, "next up"), (false, "next down")];
        let beside = beside.into_iter().filter_map(|(larger, word)| {
            let other = self.beside_on_shelf(candidate, larger)?;
            Some(format!("{word} {}", other.size.label))
        });
        let beside: Vec<String> = beside.collect();
        Some(if beside.is_empty() {
            "not in stock today, nor a larger or smaller one of its shape".to_owned()
        } else {
            format!("not in stock today; {}", beside.join(", "))
        })
    }

    /// Whether nothing on the shelf fits, not even as borderline.
    pub fn nothing_fits(&self) -> bool {
        self.on_shelf()
            .all(|one| one.judged.verdict == Verdict::DoesNotFit)
    }

    /// The candidate with a name such as `shape/size`.
    pub fn find(&self, name: &str) -> Option<&Candidate> {
        self.candidates
            .iter()
            .find(|candidate| candidate.name() == name)
    }
}

/// What is said where a list is of the readings alone, though the case has trials.
const LEFT_OUT: &str = "the case has trials: what was seen in them is left out of this list";

/// What the house says of the site and the weight of a case, each with its source, after
/// a word on trials that are left out.
pub fn notes(setting: &Setting) -> Vec<String> {
    let site = setting.case().site;
    let weight = setting.weight();
    let qp_qs = setting.nominal(Quantity::FLOW_QP_QS);
    let rules = setting.rules();
    let notes = rules.notes.iter();
    let notes = notes.filter(|note| note.applies(site, weight, qp_qs));
    let from_shipped = (!rules.from_shipped.is_empty()).then(|| {
        format!(
            "your centre's rules lack {}: the shipped rows count",
            crate::words::list(&rules.from_shipped)
        )
    });
    let left_out = setting.leaves_trials_out().then(|| LEFT_OUT.to_owned());
    left_out
        .into_iter()
        .chain(notes.map(|note| format!("{}. Source: {}", note.says, note.source)))
        .chain(from_shipped)
        .collect()
}

#[cfg(test)]
mod tests;
