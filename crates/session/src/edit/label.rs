//! What an edit did, in words: from what it set and what it replaced.

use super::{Edit, exceptions};
use crate::amount::{amount, number};
use crate::neighbour_name::neighbour;
use crate::reading_words::{retaken, taking};
use crate::{Bay, DisplayOptions, Document, Filter};
use geometry::Face;
use measurement::{Reading, Valve};
use sizing::Answer;

/// What was done by an edit whose inverse is known, to a document that has it.
pub(crate) fn label(done: &Edit, inverse: &Edit, document: &Document) -> String {
    match (done, inverse) {
        (Edit::Case { case, called, .. }, _) => format!("{called}: {}", case.title),
        (Edit::Insert(_, reading), _) => {
            format!("added: {}, {}", with_value(reading), taking(reading))
        }
        (Edit::Replace(now), Edit::Replace(was)) => replaced(was, now),
        (Edit::Remove(_), Edit::Insert(_, reading)) => format!("removed: {}", with_value(reading)),
        (Edit::Absent(one, true), _) => format!("the {} is out of reach", neighbour(*one)),
        (Edit::Absent(one, false), _) => format!("the {} may be in reach", neighbour(*one)),
        (Edit::Fact(now), Edit::Fact(was)) => {
            format!("{}: {} → {}", now.fact().label(), was.says(), now.says())
        }
        (Edit::Exclusion(id, now), Edit::Exclusion(_, was)) => {
            let asked = document
                .rules
                .exclusions
                .iter()
                .find(|exclusion| exclusion.id == *id);
            let fact = asked.map_or(id.as_str(), |exclusion| exclusion.fact.as_str());
            answered(fact, was.unwrap_or_default(), now.unwrap_or_default())
        }
        (Edit::Exceptions(now), Edit::Exceptions(was)) => exceptions::label(document, was, now),
        (Edit::Finding(finding, now), Edit::Finding(_, was)) => answered(
            finding.label(),
            was.unwrap_or_default(),
            now.unwrap_or_default(),
        ),
        (
            Edit::Shelf { called, .. }
            | Edit::Procedure { called, .. }
            | Edit::Rules { called, .. },
            _,
        ) => called.clone(),
        (Edit::Bays(now), Edit::Bays(was)) => bays(document, was, now),
        (Edit::Shown(now), Edit::Shown(was)) => shown(was, now),
        _ => String::new(),
    }
}

fn with_value(reading: &Reading) -> String {
    format!(
        "{} {}",
        reading.quantity,
        amount(reading.quantity, reading.value)
    )
}

/// What is different of a reading.
fn replaced(was: &Reading, now: &Reading) -> String {
    let quantity = now.quantity;
    let mut said = Vec::new();
    // A row of nudges may end where it began.
    if was.value != now.value || was == now {
        let (was, now) = (number(quantity, was.value), amount(quantity, now.value));
        said.push(format!("{quantity} {was} → {now}"));
    }
    if was.sd != now.sd {
        let sd = |sd: Option<f64>| sd.map_or("your centre's".into(), |sd| amount(quantity, sd));
        said.push(format!("SD of {quantity} {} → {}", sd(was.sd), sd(now.sd)));
    }
    match &now.set_aside {
        same if *same == was.set_aside => {}
        Some(_) => said.push(format!("set aside: {}", with_value(now))),
        None => said.push(format!("restored: {}", with_value(now))),
    }
    if taking(was) != taking(now) {
        said.push(format!("{quantity} measured: {}", retaken(was, now)));
    }
    said.join("; ")
}

fn answered(fact: &str, was: Answer, now: Answer) -> String {
    format!("{fact}: {was} → {now}")
}

fn bays(document: &Document, was: &[Bay], now: &[Bay]) -> String {
    let name = |bay: &Bay| sizing::device_name(&bay.name(document.shelf()));
    let only_in = |here: &[Bay], there: &[Bay]| {
        here.iter()
            .find(|bay| !there.contains(bay))
            .map(name)
            .unwrap_or_default()
    };
    if now.len() > was.len() {
        return format!("pinned {}", only_in(now, was));
    }
    if now.len() < was.len() {
        return format!("unpinned {}", only_in(was, now));
    }
    match was.iter().zip(now).find(|(was, now)| was != now) {
        Some((was, now)) if was.place == now.place && was.swapped == now.swapped => {
            let turn = |bay: &Bay| bay.turn.map_or("best".into(), |turn| format!("{turn}°"));
            format!("{} turned: {} → {}", name(now), turn(was), turn(now))
        }
        Some((was, now)) => format!("{} → {}", name(was), name(now)),
        None => String::new(),
    }
}

fn shown(was: &DisplayOptions, now: &DisplayOptions) -> String {
    if was.face != now.face {
        let from = match now.face {
            Face::Left => "left",
            Face::Right => "right",
        };
        return format!("{from} face drawn");
    }
    if was.valve != now.valve {
        return format!("{} drawn", Valve::label(now.valve));
    }
    format!("list shows {}", filter(&now.filter))
}

fn filter(filter: &Filter) -> String {
    let verdict = filter
        .verdict
        .map(|verdict| format!("what {}", verb(verdict)));
    let text = (!filter.text.is_empty()).then(|| format!("\"{}\"", filter.text));
    match (verdict, text) {
        (None, None) => "everything".into(),
        (Some(one), None) | (None, Some(one)) => one,
        (Some(verdict), Some(text)) => format!("{text}, {verdict}"),
    }
}

const fn verb(verdict: sizing::Verdict) -> &'static str {
    match verdict {
        sizing::Verdict::Borderline => "is borderline",
        sizing::Verdict::NotRated => "is not rated",
        other => other.word(),
    }
}
