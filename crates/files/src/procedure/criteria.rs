use super::seen::{bounds, seen, subject, text};
use super::{MOST_MINUTES, minute};
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use serde::Deserialize;
use serde::de::IgnoredAny;
use sizing::trial::{Before, Bounds, Criterion, CriterionChange, ObservationKind};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BeforeForm {
    row: BareWord,
    of: Option<BareWord>,
    #[serde(rename = "seen")]
    _seen: IgnoredAny,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CriterionForm {
    size: String,
    row: BareWord,
    of: Option<BareWord>,
    who: Option<String>,
    view: Option<String>,
    inside: Option<IgnoredAny>,
    beyond: Option<IgnoredAny>,
    source: String,
    #[serde(default)]
    after_opening: bool,
    #[serde(default)]
    changes: Vec<ChangeForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ChangeForm {
    min: f64,
    old: BoundsForm,
    new: BoundsForm,
    reason: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BoundsForm {
    inside: Option<IgnoredAny>,
    beyond: Option<IgnoredAny>,
}

/// A row of criteria by its word.
pub(crate) fn row(
    word: &BareWord,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Option<ObservationKind> {
    let kind = faults.known_word::<ObservationKind>(at, &word.0)?;
    if !kind.is_row() {
        let known = ObservationKind::ALL
            .into_iter()
            .filter(|kind| kind.is_row());
        let known = crate::faults::one_of(known.map(ObservationKind::name));
        faults.add(at, known, "It is no row of release criteria.");
        return None;
    }
    Some(kind)
}

/// What was there before.
pub(super) fn before(forms: Vec<BeforeForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<Before> {
    let mut known = LineOfName::new();
    let each = each_row(forms, at, |form, at| {
        let row = row(&form.row, &at.field("row"), faults)?;
        let of = form.of.as_ref().map(|word| word.0.as_str());
        let of = subject(row, of, at, "of", faults);
        faults.once(&mut known, &format!("{} of {}", row.name(), of.name()), at);
        let seen = seen(row, &at.field("seen"), faults)?;
        Some(Before { row, of, seen })
    });
    each.into_iter().flatten().collect()
}

/// Criteria, each once for a size, a row and a subject.
pub(super) fn criteria(
    forms: Vec<CriterionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Criterion> {
    let mut known = LineOfName::new();
    let each = each_row(forms, at, |form, at| {
        let criterion = criterion(form, at, faults)?;
        faults.once(&mut known, &key(&criterion), at);
        Some(criterion)
    });
    each.into_iter().flatten().collect()
}

/// By what a criterion is told from all others.
pub(crate) fn key(criterion: &Criterion) -> String {
    let Criterion { size, row, of, .. } = criterion;
    format!("{} of {} of {size}", row.name(), of.name())
}

fn criterion(form: CriterionForm, at: &FieldPlace, faults: &mut Faults) -> Option<Criterion> {
    let size = size(&form.size, &at.field("size"), faults);
    let row = row(&form.row, &at.field("row"), faults);
    let source = source(form.source, at, faults);
    let row = row?;
    let of = form.of.as_ref().map(|word| word.0.as_str());
    let of = subject(row, of, at, "of", faults);
    let said = [form.inside.is_some(), form.beyond.is_some()];
    let bounds = bounds(row, said, at, faults);
    let at_changes = at.field("changes");
    let changes = changes(form.changes, row, &at_changes, faults);
    if let Some(last) = changes.last()
        && last.new != bounds
    {
        let expected = format!("the bounds of its last change, {}", told(last.new));
        faults.say(at, &told(bounds), expected, "A change stays for good.");
    }
    Some(Criterion {
        size,
        row,
        of,
        who: form.who.unwrap_or_default(),
        view: form.view.unwrap_or_default(),
        bounds,
        source,
        after_opening: form.after_opening,
        changes,
    })
}

fn told(bounds: Bounds) -> String {
    let told = |bound: Option<_>| bound.map_or_else(|| "nothing".to_owned(), text);
    format!(
        "inside {}, beyond {}",
        told(bounds.inside),
        told(bounds.beyond)
    )
}

/// Changes, each from where the one before it led, in the order of their minutes.
fn changes(
    forms: Vec<ChangeForm>,
    row: ObservationKind,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<CriterionChange> {
    let mut before: Option<(f64, Bounds)> = None;
    each_row(forms, at, |form, at| {
        let mut side = |form: &BoundsForm, name| {
            let said = [form.inside.is_some(), form.beyond.is_some()];
            bounds(row, said, &at.field(name), faults)
        };
        let (old, new) = (side(&form.old, "old"), side(&form.new, "new"));
        let min = minute(&at.field("min"), form.min, faults);
        if let Some((earliest, led_to)) = before {
            if min < earliest {
                let expected = format!("a minute from {earliest} to {MOST_MINUTES}");
                faults.add(&at.field("min"), expected, "Changes stand in their order.");
            }
            if old != led_to {
                let expected = format!("what the change before led to, {}", told(led_to));
                faults.add(&at.field("old"), expected, "");
            }
        }
        before = Some((min, new));
        CriterionChange {
            min,
            old,
            new,
            reason: faults.text(&at.field("reason"), form.reason),
        }
    })
}

/// A size by its name; whether a catalogue has it is asked later.
pub(super) fn size(name: &str, at: &FieldPlace, faults: &mut Faults) -> String {
    let has_parts = name
        .split_once('/')
        .is_some_and(|(shape, size)| !shape.is_empty() && !size.is_empty());
    if !has_parts {
        faults.add(at, "a shape and a size, as \"long-waist/8x5\"", "");
    }
    name.to_owned()
}
