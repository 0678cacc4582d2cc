use super::unions::dominates_by;
use super::{SetWeights, Unions, unions};
use crate::engine::DrawSet;
use crate::{Candidate, Ranking, device_name};
use measurement::Weights;

/// What opening more sizes would reach if every size lay alike, and which sizes another
/// one makes needless. It is no advice.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatNext {
    /// Sizes in stock that were not opened, by their index among the ranking's
    /// candidates.
    pub untried: Vec<usize>,
    /// The largest unions among them, by their index in `untried`; `None` where there is
    /// no such size.
    pub unions: Option<Unions>,
    /// Of each candidate that another one dominates the better one, by their indices
    /// among the ranking's candidates.
    pub dominated: Vec<(usize, usize)>,
}

/// Published harm of repeated crossings, said beside what more deployments would reach.
pub const REPEATED_CROSSINGS: &str = "Repeated crossings of the defect went with new aortic \
    regurgitation (odds 2.0 times as high, 1.3 to 3.1; 1,427 closures; doi \
    10.1007/s12928-025-01221-7, abstract only).";

/// What comes next of a ranking by draws of such weights, each size in the draw's own
/// seat. `None` where the case is not rated, or was ranked without draws.
pub fn what_next(ranking: &Ranking, weights: &Weights) -> Option<WhatNext> {
    let setting = &ranking.setting;
    if setting.not_rated().is_some() {
        return None;
    }
    let trials = &setting.case().procedure.trials;
    let is_tried = |one: &Candidate| trials.iter().any(|trial| trial.size == one.name());
    // Unions are looked for in the catalogue's order, which also breaks ties.
    let mut untried: Vec<usize> = (0..ranking.candidates.len())
        .filter(|&index| {
            let one = &ranking.candidates[index];
            one.is_on_shelf && !is_tried(one)
        })
        .collect();
    untried.sort_by_key(|&index| ranking.candidates[index].place);
    // The list has counted them all.
    let holds = untried
        .iter()
        .map(|&index| ranking.candidates[index].holds.as_deref());
    let holds: Vec<&DrawSet> = holds.collect::<Option<_>>()?;
    let weights = SetWeights::new(weights);
    Some(WhatNext {
        unions: unions(&holds, &weights),
        dominated: dominated(&untried, &holds, &weights),
        untried,
    })
}

/// Of each dominated size the best that dominates it.
fn dominated(untried: &[usize], holds: &[&DrawSet], weights: &SetWeights) -> Vec<(usize, usize)> {
    let alone: Vec<u64> = holds.iter().map(|set| weights.of(set)).collect();
    let mut dominated = Vec::new();
    for (one, set) in holds.iter().enumerate() {
        let better = (0..holds.len())
            .filter(|&other| {
                let pair = [alone[other], alone[one]];
                pair[0] > pair[1] && dominates_by(holds[other], set, pair, weights)
            })
            .max_by_key(|&other| alone[other]);
        if let Some(better) = better {
            dominated.push((untried[one], untried[better]));
        }
    }
    dominated
}

impl WhatNext {
    /// The best of the sizes that hold wherever another one does; `None`: there is none.
    pub fn better_than<'a>(&self, ranking: &'a Ranking, one: &Candidate) -> Option<&'a Candidate> {
        let of = |index: usize| ranking.candidates.get(index);
        let mut pairs = self.dominated.iter();
        let is_it = |index| of(index).is_some_and(|it| it.place == one.place);
        let (_, better) = pairs.find(|(worse, _)| is_it(*worse))?;
        of(*better)
    }

    /// What the unions say, in two sentences; `None` where there is no size left.
    pub fn says(&self, ranking: &Ranking) -> Option<String> {
        let unions = self.unions.as_ref()?;
        let name = |place: usize| device_name(&ranking.candidates[self.untried[place]].name());
        let of_100 = |share: f64| format!("{:.0}", 100.0 * share);
        let mut says = format!(
            "If every size lay alike, one more ({}) would be inside its limits in {} of 100 \
             simulated variations",
            name(unions.one.0),
            of_100(unions.one.1)
        );
        if let Some((pair, share)) = unions.two {
            let pair = pair.map(name).join(", ");
            let share = of_100(share);
            says = format!("{says}, the best two ({pair}) in {share}");
        }
        if let Some((three, share)) = unions.three {
            let (third, share) = (name(three[2]), of_100(share));
            says = format!("{says}, three (with {third}) in {share}");
        }
        let none = of_100(unions.none);
        Some(format!(
            "{says}; in {none} no size in stock is. Each opening lies differently, which usually \
             raises the figures for two and three; opening the same size again is not counted."
        ))
    }
}
