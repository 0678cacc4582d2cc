//! What differs between two states of a case: since the conference, or since the
//! sheet on the wall was printed.

use crate::{Case, Fact, Ranking, words};
use measurement::{Finding, Reading};
use std::collections::{BTreeMap, BTreeSet};

/// What differs between two states of a case, a phrase for each difference.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// Readings added, removed, changed or set aside.
    pub readings: Vec<String>,
    /// Answers about the child and the defect.
    pub answers: Vec<String>,
    /// Exceptions from the rules of the house.
    pub exceptions: Vec<String>,
    /// Verdicts of sizes.
    pub verdicts: Vec<String>,
}

impl Changes {
    /// What differs in the later of two states, each under its own rules.
    pub fn between(earlier: &Ranking, later: &Ranking) -> Self {
        let (was, is) = (earlier.setting.case(), later.setting.case());
        Self {
            readings: readings(&was.readings, &is.readings),
            answers: answers(was, is),
            exceptions: exceptions(earlier.setting.exceptions(), later.setting.exceptions()),
            verdicts: verdicts(earlier, later),
        }
    }

    /// Whether nothing differs.
    pub const fn is_empty(&self) -> bool {
        self.readings.is_empty()
            && self.answers.is_empty()
            && self.exceptions.is_empty()
            && self.verdicts.is_empty()
    }

    /// In how much it differs: "3 readings, 12 verdicts"; "nothing" where in nothing.
    pub fn counted(&self) -> String {
        let counts = [
            (self.readings.len(), "reading"),
            (self.answers.len(), "answer"),
            (self.exceptions.len(), "exception"),
            (self.verdicts.len(), "verdict"),
        ];
        let counted: Vec<String> = counts
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, what)| format!("{count} {what}{}", if count == 1 { "" } else { "s" }))
            .collect();
        if counted.is_empty() {
            "nothing".to_owned()
        } else {
            words::list(&counted)
        }
    }
}

fn readings(was: &[Reading], is: &[Reading]) -> Vec<String> {
    let find = |all: &'_ [Reading], of: &Reading| all.iter().position(|one| one.id == of.id);
    let removed = was.iter().filter(|one| find(is, one).is_none());
    let removed = removed.map(|one| format!("{} removed: {}", named(one), told(one)));
    let changed = is.iter().filter_map(|now| {
        let Some(before) = find(was, now).map(|index| &was[index]) else {
            return Some(format!("{} added: {}", named(now), told(now)));
        };
        (before != now).then(|| format!("{}: {}", named(now), differs(before, now)))
    });
    changed.chain(removed).collect()
}

fn named(reading: &Reading) -> String {
    format!("{} ({})", reading.quantity, reading.id.0)
}

/// A reading as it was entered.
fn told(reading: &Reading) -> String {
    let value = words::amount(reading.quantity, reading.value);
    let sd = reading.sd.map_or_else(String::new, |sd| format!(" ± {sd}"));
    format!("{value}{sd}, {}", how(reading))
}

fn how(reading: &Reading) -> String {
    let words = [
        reading.modality.label(),
        reading.side.label(),
        reading.phase.label(),
        reading.method.label(),
    ];
    let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
    words.join(", ")
}

/// What of a reading differs; where nothing that is told does, that its source does.
fn differs(was: &Reading, is: &Reading) -> String {
    let mut differs = Vec::new();
    let value = |one: &Reading| words::amount(one.quantity, one.value);
    if was.quantity != is.quantity {
        differs.push(format!("was a reading of {}", was.quantity));
    } else if was.value != is.value {
        differs.push(format!("{} → {}", value(was), value(is)));
    }
    if was.sd != is.sd {
        let sd = |one: &Reading| {
            let sd = one.sd.map(|sd| sd.to_string());
            sd.unwrap_or_else(|| "by the rules".to_owned())
        };
        differs.push(format!("SD {} → {}", sd(was), sd(is)));
    }
    if how(was) != how(is) {
        differs.push(format!("{} → {}", how(was), how(is)));
    }
    match (&was.set_aside, &is.set_aside) {
        (None, Some(why)) => differs.push(format!("set aside: {why}")),
        (Some(_), None) => differs.push("counts again".to_owned()),
        (Some(was), Some(is)) if was != is => differs.push(format!("set aside: {is}")),
        _ => {}
    }
    if differs.is_empty() {
        differs.push("another image is named".to_owned());
    }
    differs.join("; ")
}

fn answers(was: &Case, is: &Case) -> Vec<String> {
    let mut differs = Vec::new();
    let mut put = |what: &str, was: &str, is: &str| {
        if was != is {
            differs.push(format!("{what}: {was} → {is}"));
        }
    };
    put("site", was.site.label(), is.site.label());
    put(
        "edge",
        &format!("{:?}", was.edge).to_lowercase(),
        &format!("{:?}", is.edge).to_lowercase(),
    );
    put(
        "route",
        &format!("{:?}", was.route).to_lowercase(),
        &format!("{:?}", is.route).to_lowercase(),
    );
    for finding in Finding::ALL {
        let [was, is] = [was, is].map(|case| case.finding(finding).to_string());
        put(finding.label(), &was, &is);
    }
    let asked: BTreeSet<&String> = was.exclusions.keys().chain(is.exclusions.keys()).collect();
    for id in asked {
        let answer = |case: &Case| {
            case.exclusions
                .get(id)
                .copied()
                .unwrap_or_default()
                .to_string()
        };
        put(&id.replace('_', " "), &answer(was), &answer(is));
    }
    for fact in Fact::ALL {
        let (before, now) = (was.facts.get(fact), is.facts.get(fact));
        if before == now {
            continue;
        }
        let how = match (before.is_unknown(), now.is_unknown()) {
            (true, false) => "answered now",
            (false, true) => "no longer answered",
            _ => "answered otherwise",
        };
        differs.push(format!("{}: {how}", fact.label()));
    }
    let reach = |case: &Case| -> Vec<String> {
        let absent = case.absent.iter();
        absent.map(|one| one.name().replace('_', " ")).collect()
    };
    differs.extend(exceptions(&reach(was), &reach(is)).into_iter().map(|says| {
        let says = says.replacen("added: ", "now out of reach: ", 1);
        says.replacen("no longer: ", "no longer out of reach: ", 1)
    }));
    differs
}

/// Phrases that only one of two lists has.
fn exceptions(was: &[String], is: &[String]) -> Vec<String> {
    let only = |of: &[String], other: &[String], word: &str| -> Vec<String> {
        let only = of.iter().filter(|one| !other.contains(one));
        only.map(|one| format!("{word}{one}")).collect()
    };
    let mut differs = only(is, was, "added: ");
    differs.extend(only(was, is, "no longer: "));
    differs
}

/// Verdicts that differ, in the order of the later list; then what only one list has.
fn verdicts(earlier: &Ranking, later: &Ranking) -> Vec<String> {
    let was: BTreeMap<String, &'static str> = by_name(earlier).collect();
    let is: BTreeMap<String, &'static str> = by_name(later).collect();
    let changed = by_name(later).filter_map(|(name, now)| match was.get(&name) {
        Some(before) if *before == now => None,
        Some(before) => Some(format!("{name}: {before} → {now}")),
        None => Some(format!("{name}: not in the earlier catalogue; {now}")),
    });
    let gone = by_name(earlier).filter(|(name, _)| !is.contains_key(name));
    let gone = gone.map(|(name, before)| format!("{name}: {before}; no longer in the catalogue"));
    changed.chain(gone).collect()
}

fn by_name(ranking: &Ranking) -> impl Iterator<Item = (String, &'static str)> {
    let candidates = ranking.candidates.iter();
    candidates.map(|one| (one.name(), one.judged.verdict.word()))
}
