use crate::house_rules::CriterionRow;
use crate::procedure::{Criterion, ObservationKind};
use crate::{Neighbour, Setting, Size, Subject};
use geometry::Face;
use measurement::Valve;

/// The criteria that apply to a size, from the rules of a house.
pub fn criteria_of(setting: &Setting, name: &str, size: &Size) -> Vec<Criterion> {
    let rows = setting.rules().release_criteria.iter();
    rows.flat_map(|row| subjects(setting, row, size).map(move |of| (row, of)))
        .map(|(row, of)| Criterion {
            size: name.to_owned(),
            row: row.row,
            of,
            who: row.who.clone(),
            view: row.view.clone(),
            bounds: row.bounds,
            source: row.source.clone(),
            after_opening: setting
                .case()
                .procedure
                .trials
                .iter()
                .any(|trial| trial.size == name),
            changes: Vec::new(),
        })
        .collect()
}

/// The subjects of a row that are there in this case.
fn subjects(setting: &Setting, row: &CriterionRow, size: &Size) -> impl Iterator<Item = Subject> {
    let case = setting.case();
    let at = setting.circumstances();
    let is_of_site = row.is_of(case.site);
    let is_there = |of: Subject| match of {
        Subject::Valve(valve) => !case.is_absent(Neighbour::Valve(valve)),
        Subject::Face(Face::Left) => !case.is_absent(Neighbour::LeftOutflow),
        Subject::Face(Face::Right) => !case.is_absent(Neighbour::RightOutflow),
        _ => true,
    };
    let subjects: Vec<Subject> = candidates(row.row)
        .into_iter()
        .filter(|of| row.of.is_empty() || row.of.contains(of))
        .filter(|&of| is_of_site && is_there(of))
        .filter(|&of| {
            row.when
                .iter()
                .all(|when| when.holds(&at, &size.occluder, of))
        })
        .collect();
    subjects.into_iter()
}

/// What a kind of row can be asked of.
fn candidates(row: ObservationKind) -> Vec<Subject> {
    let valves = Valve::ALL.map(Subject::Valve);
    let sides = Face::BOTH.map(Subject::Face);
    let all = [Subject::Shape].into_iter().chain(valves).chain(sides);
    all.filter(|&of| row.can_be_of(of)).collect()
}
