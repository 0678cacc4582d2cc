use super::{find, find_or_first, with_ground};
use crate::break_even::break_even;
use crate::lesson::question::{Choices, NoAnswer, Question, Right};
use crate::{Ranking, Verdict, device_name, rows, words};
use measurement::Quantity;
use std::collections::BTreeSet;

/// Readings among which the one that decides is to be found.
const READINGS_SHOWN: usize = 8;

/// The least chance of a reading to turn the state that is worth a question.
const LEAST_CHANCE: f64 = 0.01;

pub(super) fn which_first(ranking: &Ranking, sizes: &[String]) -> Result<Question, NoAnswer> {
    let mut positions = Vec::new();
    for size in sizes {
        let place = ranking
            .candidates
            .iter()
            .position(|one| one.name() == *size);
        positions.push(place.ok_or_else(|| NoAnswer::NoSize(size.clone()))?);
    }
    let first = positions.iter().min().copied().ok_or(NoAnswer::Tied)?;
    let last = positions.iter().max().copied().ok_or(NoAnswer::Tied)?;
    let group = |place: usize| ranking.groups.get(place);
    // Sizes of one group cannot be told apart: each of them is as right.
    let right: BTreeSet<usize> = (0..sizes.len())
        .filter(|&index| group(positions[index]) == group(first))
        .collect();
    if right.len() == sizes.len() {
        return Err(NoAnswer::Tied);
    }
    let best = &ranking.candidates[first];
    let why = format!(
        "{}; {}.",
        with_ground(best),
        with_ground(&ranking.candidates[last])
    );
    Ok(Question {
        asks: "Which of these stands first?".to_owned(),
        choices: Choices::One(sizes.iter().map(|size| device_name(size)).collect()),
        right: Right::OneOf(right),
        answer: words::capital(&device_name(&best.name())),
        why: words::capital(&why),
        shows: best.name(),
    })
}

pub(super) fn which_fit(ranking: &Ranking, sizes: &[String]) -> Result<Question, NoAnswer> {
    let mut right = BTreeSet::new();
    let mut grounds = Vec::new();
    for (index, size) in sizes.iter().enumerate() {
        let candidate = find(ranking, size)?;
        if matches!(
            candidate.judged.verdict,
            Verdict::Fits | Verdict::Borderline
        ) {
            right.insert(index);
        }
        grounds.push(with_ground(candidate));
    }
    let answer: Vec<String> = right
        .iter()
        .map(|&index| device_name(&sizes[index]))
        .collect();
    let answer = if answer.is_empty() {
        "None of them. That leaves surgery and waiting.".to_owned()
    } else {
        words::capital(&words::list(&answer))
    };
    let shows = right.first().copied().unwrap_or(0);
    Ok(Question {
        asks: "Which of these are not ruled out? It may be none.".to_owned(),
        choices: Choices::Any(sizes.iter().map(|size| device_name(size)).collect()),
        right: Right::All(right),
        answer,
        why: words::capital(&format!("{}.", grounds.join("; "))),
        shows: sizes.get(shows).cloned().ok_or(NoAnswer::NothingInStock)?,
    })
}

pub(super) fn decides(
    ranking: &Ranking,
    size: Option<&str>,
    within: usize,
) -> Result<Question, NoAnswer> {
    let candidate = find_or_first(ranking, size)?;
    let setting = &ranking.setting;
    let asked = rows(setting, &candidate.size.occluder);
    let doubts = break_even(setting, &candidate.size, candidate.turn, &asked, None);
    let deciding = doubts.readings.iter().take(within);
    let deciding: Vec<&_> = deciding
        .filter(|one| one.chance() >= LEAST_CHANCE)
        .collect();
    let first = *deciding.first().ok_or(NoAnswer::NothingDecides)?;
    let right: BTreeSet<Quantity> = deciding.iter().map(|one| one.quantity).collect();
    // The readings that change least stand beside those that decide.
    let others = doubts.readings.iter().rev().filter(|one| !one.is_assumed);
    let others = others
        .map(|one| one.quantity)
        .filter(|one| !right.contains(one));
    let others = others.take(READINGS_SHOWN.saturating_sub(right.len()));
    let shown: BTreeSet<Quantity> = right.iter().copied().chain(others).collect();
    let name = device_name(&candidate.name());
    let nearest = first
        .ends()
        .max_by(|one, other| one.chance.total_cmp(&other.chance));
    let why = nearest.map_or_else(String::new, |end| {
        let taken = if first.is_assumed {
            "assumed"
        } else {
            "measured"
        };
        let by = end.by.map_or("", |by| by.title);
        format!(
            "The {} is {taken} as {}; beyond {} the state of {name} turns ({by}).",
            first.quantity.label(),
            words::amount(first.quantity, first.value),
            words::amount(first.quantity, end.at),
        )
    });
    let answer: Vec<&str> = deciding.iter().map(|one| one.quantity.label()).collect();
    let right = (0..).zip(&shown).filter(|(_, one)| right.contains(one));
    Ok(Question {
        asks: format!("Which reading decides most about {name}?"),
        right: Right::OneOf(right.map(|(index, _)| index).collect()),
        choices: Choices::One(shown.iter().map(|one| one.label().to_owned()).collect()),
        answer: words::capital(&words::list(&answer)),
        why,
        shows: candidate.name(),
    })
}
