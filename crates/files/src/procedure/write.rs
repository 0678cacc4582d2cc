//! The procedure as files write it.

use super::seen::text;
use crate::ron_text::{Field, Style, number, quoted, record};
use crate::words::Word;
use measurement::Answer;
use sizing::Subject;
use sizing::trial::{
    AskedOf, Before, Bounds, Cable, Criterion, CriterionChange, FollowUp, Observation, RoomNote,
    Seen, Takes, Trial, Used,
};

pub(crate) const BEFORE_FIELDS: [&str; 3] = ["row", "of", "seen"];
pub(crate) const CRITERION_FIELDS: [&str; 10] = [
    "size",
    "row",
    "of",
    "who",
    "view",
    "inside",
    "beyond",
    "source",
    "after_opening",
    "changes",
];
pub(crate) const TRIAL_FIELDS: [&str; 12] = [
    "id",
    "size",
    "rotation_deg",
    "opened_min",
    "closed_min",
    "wire_across",
    "cable",
    "seat_as_modelled",
    "view",
    "seen",
    "came_of_it",
    "because",
];
pub(crate) const OBSERVATION_FIELDS: [&str; 12] = [
    "id",
    "what",
    "of",
    "side",
    "value",
    "sd",
    "grade",
    "answer",
    "clock_position",
    "by",
    "min",
    "set_aside",
];
pub(crate) const USED_FIELDS: [&str; 3] = ["contrast_ml", "dose_area_gy_cm2", "fluoroscopy_min"];
pub(crate) const FOLLOW_UP_FIELDS: [&str; 2] = ["day", "seen"];
pub(crate) const ROOM_FIELDS: [&str; 3] = ["what", "min", "value"];

/// A subject, where it is not the device.
fn of(of: Subject) -> Option<String> {
    (of != Subject::Shape).then(|| of.word().to_owned())
}

pub(crate) fn before_fields(before: &Before) -> Vec<Field> {
    let values = [
        Some(before.row.word().to_owned()),
        of(before.of),
        Some(text(before.seen)),
    ];
    BEFORE_FIELDS.into_iter().zip(values).collect()
}

fn bound_fields(bounds: Bounds) -> [Field; 2] {
    [
        ("inside", bounds.inside.map(text)),
        ("beyond", bounds.beyond.map(text)),
    ]
}

pub(crate) fn criterion_fields(criterion: &Criterion) -> Vec<Field> {
    let said = |text: &str| (!text.is_empty()).then(|| quoted(text));
    let [inside, beyond] = bound_fields(criterion.bounds).map(|(_, value)| value);
    let changes: Vec<String> = criterion.changes.iter().map(change).collect();
    let values = [
        Some(quoted(&criterion.size)),
        Some(criterion.row.word().to_owned()),
        of(criterion.of),
        said(&criterion.who),
        said(&criterion.view),
        inside,
        beyond,
        Some(quoted(&criterion.source)),
        criterion.after_opening.then(|| "true".to_owned()),
        list(&changes),
    ];
    CRITERION_FIELDS.into_iter().zip(values).collect()
}

fn change(change: &CriterionChange) -> String {
    let side = |bounds| record(&bound_fields(bounds), &Style::ROW);
    let fields = [
        ("min", Some(number(change.min))),
        ("old", Some(side(change.old))),
        ("new", Some(side(change.new))),
        ("reason", Some(quoted(&change.reason))),
    ];
    record(&fields, &Style::ROW)
}

/// A list on one line; an empty one is left out.
fn list(items: &[String]) -> Option<String> {
    (!items.is_empty()).then(|| format!("[{}]", items.join(", ")))
}

/// A trial's fields, what was seen among them.
pub(crate) fn trial_fields(trial: &Trial) -> Vec<Field> {
    let answer = |answer: Answer| (answer != Answer::Unknown).then(|| answer.word().to_owned());
    let seen = trial.seen.iter();
    let seen: Vec<String> = seen
        .map(|seen| record(&observation_fields(seen), &Style::ROW))
        .collect();
    let values = [
        Some(quoted(&trial.id)),
        Some(quoted(&trial.size)),
        trial.rotation_deg.map(number),
        Some(number(trial.opened_min)),
        trial.closed_min.map(number),
        answer(trial.wire_across),
        (trial.cable != Cable::Unknown).then(|| trial.cable.word().to_owned()),
        answer(trial.seat_as_modelled),
        trial.view.as_deref().map(quoted),
        list(&seen),
        trial.came_of_it.map(|it| it.word().to_owned()),
        trial.because.as_deref().map(quoted),
    ];
    TRIAL_FIELDS.into_iter().zip(values).collect()
}

pub(crate) fn observation_fields(seen: &Observation) -> Vec<Field> {
    let said = of(seen.of);
    let (of, side) = match seen.what.asked_of() {
        AskedOf::Side => (None, said),
        AskedOf::Valve | AskedOf::Device => (said, None),
    };
    let in_words = Some(text(seen.seen));
    let [value, grade, answer] = match seen.what.takes() {
        Takes::Value => [in_words, None, None],
        Takes::Grade | Takes::Rhythm => [None, in_words, None],
        Takes::Answer => [None, None, in_words],
    };
    debug_assert_eq!(value.is_some(), matches!(seen.seen, Seen::Value(_)));
    let values = [
        Some(quoted(&seen.id)),
        Some(seen.what.word().to_owned()),
        of,
        side,
        value,
        seen.sd.map(number),
        grade,
        answer,
        seen.clock_position.map(number),
        seen.by.map(|by| by.word().to_owned()),
        seen.min.map(number),
        seen.set_aside.as_deref().map(quoted),
    ];
    OBSERVATION_FIELDS.into_iter().zip(values).collect()
}

pub(crate) fn used_fields(used: &Used) -> Vec<Field> {
    let values = [
        used.contrast_ml,
        used.dose_area_gy_cm2,
        used.fluoroscopy_min,
    ];
    let values = values.map(|value| value.map(number));
    USED_FIELDS.into_iter().zip(values).collect()
}

pub(crate) fn follow_up_fields(day: &FollowUp) -> Vec<Field> {
    let seen = day.seen.iter();
    let seen: Vec<String> = seen
        .map(|seen| record(&observation_fields(seen), &Style::ROW))
        .collect();
    let values = [
        Some(number(day.day)),
        Some(format!("[{}]", seen.join(", "))),
    ];
    FOLLOW_UP_FIELDS.into_iter().zip(values).collect()
}

pub(crate) fn room_fields(note: &RoomNote) -> Vec<Field> {
    let values = [
        Some(note.what.word().to_owned()),
        note.min.map(number),
        note.value.map(number),
    ];
    ROOM_FIELDS.into_iter().zip(values).collect()
}
