//! Exclusions, which stop every device, and what settles each.

use crate::document::Checked;
use crate::faults::{Faults, LineOfName, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use crate::{FileKind, Source};
use serde::Deserialize;
use sizing::Fact;
use sizing::house_rules::{Evidence, Exclusion, FigureBounds, Settles};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ExclusionForm {
    id: String,
    fact: String,
    #[serde(default)]
    sites: Vec<BareWord>,
    yes_if: Option<Vec<Vec<EvidenceForm>>>,
    no_if: Option<Vec<Vec<EvidenceForm>>>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EvidenceForm {
    fact: Option<BareWord>,
    grade_at_least: Option<BareWord>,
    grade_at_most: Option<BareWord>,
    finding: Option<BareWord>,
    is: Option<BareWord>,
    is_not: Option<BareWord>,
    figure: Option<BareWord>,
    over: Option<f64>,
    under: Option<f64>,
    at_least: Option<f64>,
    at_most: Option<f64>,
}

/// The largest value that a bound of a figure may name.
const MOST: f64 = 1000.0;

/// The note that rows were taken from the shipped file.
const NEW_ROWS: &str = "exclusions (some rows)";
/// The note that what settles a row was taken from the shipped file.
const NEW_FIELDS: &str = "exclusions (what settles some rows)";

/// The rows that a file of an earlier version cannot have.
const LATER: [&str; 4] = [
    "right_to_left_shunt",
    "outflow_needs_surgery",
    "anticoagulation_impossible",
    "no_access",
];

/// The facts that have grades.
const GRADED: [Fact; 3] = [
    Fact::Prolapse,
    Fact::AorticRegurgitation,
    Fact::PulmonaryRegurgitation,
];

/// The exclusions of a file, and which parts of them are those of the shipped
/// rules: an older file has neither the later rows nor what settles a row.
pub(super) fn exclusions(
    forms: Vec<ExclusionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> (Vec<Exclusion>, Vec<&'static str>) {
    let mut rows = plain(forms, at, faults);
    // The shipped file, which nearly every start reads, lacks nothing: it is not read
    // a second time.
    if at.is_in(crate::shipped::HOUSE_RULES.1) {
        return (rows.into_iter().map(|(row, _)| row).collect(), Vec::new());
    }
    let shipped = shipped();
    let mut from_shipped = Vec::new();
    for (row, says_what_settles) in &mut rows {
        let like = shipped.iter().find(|(one, _)| one.id == row.id);
        if let Some((like, true)) = like.filter(|_| !*says_what_settles) {
            row.yes_if.clone_from(&like.yes_if);
            row.no_if.clone_from(&like.no_if);
            from_shipped = vec![NEW_FIELDS];
        }
    }
    let mut rows: Vec<Exclusion> = rows.into_iter().map(|(row, _)| row).collect();
    let missing = |id: &&str| rows.iter().all(|row| row.id != *id);
    let later: Vec<&str> = LATER.into_iter().filter(missing).collect();
    let later = shipped
        .into_iter()
        .map(|(row, _)| row)
        .filter(|row| later.contains(&row.id.as_str()));
    let before = rows.len();
    rows.extend(later);
    if rows.len() > before {
        from_shipped.push(NEW_ROWS);
    }
    (rows, from_shipped)
}

/// The exclusions of the shipped rules, as they are written.
fn shipped() -> Vec<(Exclusion, bool)> {
    #[derive(Deserialize)]
    struct ExclusionsAlone {
        exclusions: Vec<ExclusionForm>,
    }
    let (name, text) = crate::shipped::HOUSE_RULES;
    // The shipped file is checked with every build.
    Checked::read(
        FileKind::HouseRules,
        Source::new(name, text),
        |form: ExclusionsAlone, at, faults| plain(form.exclusions, &at.field("exclusions"), faults),
    )
    .map(Checked::into_value)
    .unwrap_or_default()
}

/// Rows as they are written, each with whether it says what settles it.
fn plain(
    forms: Vec<ExclusionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<(Exclusion, bool)> {
    let mut ids = LineOfName::new();
    each_row(forms, at, |form, at| {
        let at_id = at.field("id");
        faults.once(&mut ids, &form.id, &at_id);
        let says_what_settles = form.yes_if.is_some() || form.no_if.is_some();
        let row = Exclusion {
            id: faults.name(&at_id, form.id),
            fact: faults.text(&at.field("fact"), form.fact),
            sites: faults.words(&at.field("sites"), &form.sites),
            yes_if: settles(form.yes_if, &at.field("yes_if"), faults),
            no_if: settles(form.no_if, &at.field("no_if"), faults),
            source: source(form.source, at, faults),
        };
        (row, says_what_settles)
    })
}

fn settles(lists: Option<Vec<Vec<EvidenceForm>>>, at: &FieldPlace, faults: &mut Faults) -> Settles {
    let lists = lists.unwrap_or_default();
    each_row(lists, at, |list, at| {
        each_row(list, at, |form, at| evidence(&form, at, faults))
            .into_iter()
            .flatten()
            .collect()
    })
}

/// A graded fact, a finding with an answer, or a figure with bounds.
fn evidence(form: &EvidenceForm, at: &FieldPlace, faults: &mut Faults) -> Option<Evidence> {
    let bounds = [form.over, form.under, form.at_least, form.at_most];
    let has_bounds = bounds.iter().any(Option::is_some);
    let has_grade = form.grade_at_least.is_some() || form.grade_at_most.is_some();
    let has_answer = form.is.is_some() || form.is_not.is_some();
    match (&form.fact, &form.finding, &form.figure) {
        (Some(name), None, None) if has_grade && !has_answer && !has_bounds => {
            let fact = graded(&name.0, &at.field("fact"), faults);
            match (&form.grade_at_least, &form.grade_at_most) {
                (Some(grade), None) => {
                    let grade = faults.word(&at.field("grade_at_least"), &grade.0);
                    return Some(Evidence::AtLeast(fact?, grade));
                }
                (None, Some(grade)) => {
                    let grade = faults.word(&at.field("grade_at_most"), &grade.0);
                    return Some(Evidence::AtMost(fact?, grade));
                }
                _ => {}
            }
        }
        (None, Some(name), None) if has_answer && !has_grade && !has_bounds => {
            let finding = faults.known_word(&at.field("finding"), &name.0);
            match (&form.is, &form.is_not) {
                (Some(answer), None) => {
                    let answer = faults.word(&at.field("is"), &answer.0);
                    return Some(Evidence::Is(finding?, answer));
                }
                (None, Some(answer)) => {
                    let answer = faults.word(&at.field("is_not"), &answer.0);
                    return Some(Evidence::IsNot(finding?, answer));
                }
                _ => {}
            }
        }
        (None, None, Some(name)) if has_bounds && !has_grade && !has_answer => {
            let figure = faults.known_word(&at.field("figure"), &name.0);
            let mut bound = |name, bound: Option<f64>| {
                bound.map(|value| faults.number(&at.field(name), value, 0.0..=MOST, ""))
            };
            let bounds = FigureBounds {
                over: bound("over", form.over),
                under: bound("under", form.under),
                at_least: bound("at_least", form.at_least),
                at_most: bound("at_most", form.at_most),
            };
            return Some(Evidence::Figure(figure?, bounds));
        }
        _ => {}
    }
    faults.add(
        at,
        "a graded fact, a finding with its answer or a figure with its bounds",
        "Write `(fact: …, grade_at_least: mild)`, `(finding: …, is: yes)` or \
         `(figure: …, over: …)`.",
    );
    None
}

fn graded(name: &str, at: &FieldPlace, faults: &mut Faults) -> Option<Fact> {
    let fact = GRADED.into_iter().find(|fact| fact.name() == name);
    if fact.is_none() {
        let known = || GRADED.into_iter().map(Fact::name);
        faults.unknown(at, name, known(), one_of(known()));
    }
    fact
}
