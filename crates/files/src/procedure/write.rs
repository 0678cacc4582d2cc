//! The text of a procedure in a case file.

use super::seen::text;
use crate::ron_text::{Field, Style, number, quoted, record};
use crate::words::Word;
use measurement::Answer;
use sizing::Subject;
use sizing::trial::{
    AskedOf, Before, Bounds, Cable, Criterion, CriterionChange, FollowUp, Forecast, Forecasts,
    Observation, ObservationKind, RoomNote, Seen, SeenForecast, Takes, Trial, Used,
};

/// A subject, where it is not the device.
fn of(of: Subject) -> Option<String> {
    (of != Subject::Shape).then(|| of.word().to_owned())
}

pub(crate) fn before_fields(before: &Before) -> Vec<Field> {
    vec![
        ("row", Some(before.row.word().to_owned())),
        ("of", of(before.of)),
        ("seen", Some(text(before.seen))),
    ]
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
    vec![
        ("size", Some(quoted(&criterion.size))),
        ("row", Some(criterion.row.word().to_owned())),
        ("of", of(criterion.of)),
        ("who", said(&criterion.who)),
        ("view", said(&criterion.view)),
        ("inside", inside),
        ("beyond", beyond),
        ("source", Some(quoted(&criterion.source))),
        (
            "after_opening",
            criterion.after_opening.then(|| "true".to_owned()),
        ),
        ("changes", list(&changes)),
    ]
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
    vec![
        ("id", Some(quoted(&trial.id))),
        ("size", Some(quoted(&trial.size))),
        ("rotation_deg", trial.rotation_deg.map(number)),
        ("opened_min", Some(number(trial.opened_min))),
        ("closed_min", trial.closed_min.map(number)),
        ("wire_across", answer(trial.wire_across)),
        (
            "cable",
            (trial.cable != Cable::Unknown).then(|| trial.cable.word().to_owned()),
        ),
        ("seat_as_modelled", answer(trial.seat_as_modelled)),
        ("view", trial.view.as_deref().map(quoted)),
        ("seen", list(&seen)),
        (
            "came_of_it",
            trial.came_of_it.map(|it| it.word().to_owned()),
        ),
        ("because", trial.because.as_deref().map(quoted)),
        ("forecast", forecasts(&trial.forecast)),
    ]
}

fn forecasts(forecasts: &Forecasts) -> Option<String> {
    let one = |one: &Option<Forecast>| one.as_ref().map(forecast);
    let fields = [
        ("opened", one(&forecasts.opened)),
        ("closed", one(&forecasts.closed)),
    ];
    (!forecasts.is_empty()).then(|| record(&fields, &Style::ROW))
}

fn forecast(forecast: &Forecast) -> String {
    let limits = forecast.limits.iter().map(|limit| {
        let fields = [
            ("check", Some(quoted(&limit.check))),
            ("of", of(limit.of)),
            ("chance", Some(number(limit.chance))),
        ];
        record(&fields, &Style::ROW)
    });
    let limits: Vec<String> = limits.collect();
    let seen: Vec<String> = forecast.seen.iter().map(foretold).collect();
    let fields = [
        ("ess", Some(number(forecast.effective))),
        ("inside_before", forecast.inside_before.map(number)),
        ("inside", Some(number(forecast.inside))),
        ("limits", list(&limits)),
        ("seen", list(&seen)),
    ];
    record(&fields, &Style::ROW)
}

fn foretold(seen: &SeenForecast) -> String {
    let [of, side] = of_or_side(seen.what, seen.of);
    let value = seen.value.as_ref();
    let percentiles = value.map(|value| {
        let each: Vec<String> = value.percentiles.iter().copied().map(number).collect();
        format!("[{}]", each.join(", "))
    });
    let at_zero = value.map(|it| it.at_zero).filter(|&it| it > 0.0);
    let fields = [
        ("what", Some(seen.what.word().to_owned())),
        ("of", of),
        ("side", side),
        ("yes", seen.yes.map(number)),
        ("over", seen.over.map(number)),
        (
            "by_readings",
            value.and_then(|it| it.by_readings).map(number),
        ),
        ("at_most", value.and_then(|it| it.at_most).map(number)),
        ("at_zero", at_zero.map(number)),
        ("percentiles", percentiles),
    ];
    record(&fields, &Style::ROW)
}

/// A valve stands under `of`, a side under `side`.
fn of_or_side(what: ObservationKind, subject: Subject) -> [Option<String>; 2] {
    let said = of(subject);
    match what.asked_of() {
        AskedOf::Side => [None, said],
        AskedOf::Valve | AskedOf::Device => [said, None],
    }
}

pub(crate) fn observation_fields(seen: &Observation) -> Vec<Field> {
    let [of, side] = of_or_side(seen.what, seen.of);
    let in_words = Some(text(seen.seen));
    let [value, grade, answer] = match seen.what.takes() {
        Takes::Value => [in_words, None, None],
        Takes::Grade | Takes::Rhythm => [None, in_words, None],
        Takes::Answer => [None, None, in_words],
    };
    debug_assert_eq!(value.is_some(), matches!(seen.seen, Seen::Value(_)));
    vec![
        ("id", Some(quoted(&seen.id))),
        ("what", Some(seen.what.word().to_owned())),
        ("of", of),
        ("side", side),
        ("value", value),
        ("sd", seen.sd.map(number)),
        ("grade", grade),
        ("answer", answer),
        ("clock_position", seen.clock_position.map(number)),
        ("by", seen.by.map(|by| by.word().to_owned())),
        ("min", seen.min.map(number)),
        ("set_aside", seen.set_aside.as_deref().map(quoted)),
    ]
}

pub(crate) fn used_fields(used: &Used) -> Vec<Field> {
    vec![
        ("contrast_ml", used.contrast_ml.map(number)),
        ("dose_area_gy_cm2", used.dose_area_gy_cm2.map(number)),
        ("fluoroscopy_min", used.fluoroscopy_min.map(number)),
    ]
}

pub(crate) fn follow_up_fields(day: &FollowUp) -> Vec<Field> {
    let seen = day.seen.iter();
    let seen: Vec<String> = seen
        .map(|seen| record(&observation_fields(seen), &Style::ROW))
        .collect();
    vec![
        ("day", Some(number(day.day))),
        ("seen", Some(format!("[{}]", seen.join(", ")))),
    ]
}

pub(crate) fn room_fields(note: &RoomNote) -> Vec<Field> {
    vec![
        ("what", Some(note.what.word().to_owned())),
        ("min", note.min.map(number)),
        ("value", note.value.map(number)),
    ]
}
