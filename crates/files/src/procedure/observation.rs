use super::minute;
use super::seen::{SeenAnswer, subject, value};
use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use measurement::Regurgitation;
use serde::Deserialize;
use sizing::trial::{AskedOf, Observation, ObservationKind, Rhythm, Seen, Takes};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ObservationForm {
    pub(super) id: String,
    what: BareWord,
    of: Option<BareWord>,
    side: Option<BareWord>,
    value: Option<f64>,
    sd: Option<f64>,
    grade: Option<BareWord>,
    answer: Option<BareWord>,
    clock_position: Option<f64>,
    by: Option<BareWord>,
    min: Option<f64>,
    set_aside: Option<String>,
}

/// Reads one observation; `None` where its kind is not known.
pub(super) fn observation(
    form: &ObservationForm,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Option<Observation> {
    let what = faults.known_word::<ObservationKind>(&at.field("what"), &form.what.0);
    let id = faults.name(&at.field("id"), form.id.clone());
    let by = form.by.as_ref();
    let by = by.and_then(|by| faults.known_word(&at.field("by"), &by.0));
    let min = form.min.map(|min| minute(&at.field("min"), min, faults));
    let set_aside = form
        .set_aside
        .as_ref()
        .map(|why| faults.text(&at.field("set_aside"), why.clone()));
    let what = what?;
    let of = of(what, form, at, faults);
    let seen = seen(what, form, at, faults);
    Some(Observation {
        id,
        what,
        of,
        seen: seen?,
        sd: form.sd.map(|sd| {
            let unit = what.unit().map_or("", measurement::Unit::symbol);
            faults.above_zero(&at.field("sd"), sd, what.most(), unit)
        }),
        clock_position: form.clock_position.map(|degrees| {
            let at = at.field("clock_position");
            faults.number(&at, degrees, -360.0..=360.0, "degrees")
        }),
        by,
        min,
        set_aside,
    })
}

/// A valve stands under `of`, a side under `side`.
fn of(
    what: ObservationKind,
    form: &ObservationForm,
    at: &FieldPlace,
    faults: &mut Faults,
) -> sizing::Subject {
    let (field, said, other, unasked) = match what.asked_of() {
        AskedOf::Side => ("side", &form.side, "of", &form.of),
        AskedOf::Valve | AskedOf::Device => ("of", &form.of, "side", &form.side),
    };
    if unasked.is_some() {
        let expected = format!("no {other} for {}", what.name());
        faults.add(&at.field(other), expected, "Take it out.");
    }
    let said = said.as_ref().map(|word| word.0.as_str());
    subject(what, said, at, field, faults)
}

/// What was seen: a value, a grade or an answer, as the kind takes it, and nothing else.
fn seen(
    what: ObservationKind,
    form: &ObservationForm,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Option<Seen> {
    let taken = match what.takes() {
        Takes::Value => "value",
        Takes::Grade | Takes::Rhythm => "grade",
        Takes::Answer => "answer",
    };
    let said = [
        ("value", form.value.is_some()),
        ("grade", form.grade.is_some()),
        ("answer", form.answer.is_some()),
        // Only a value has a standard deviation.
        ("sd", form.sd.is_some() && taken != "value"),
        (
            "clock_position",
            form.clock_position.is_some() && what != ObservationKind::EdgeJet,
        ),
    ];
    for (name, is_said) in said {
        if is_said && name != taken {
            let expected = format!("no {name} for {}, which takes {}", what.name(), told(taken));
            faults.add(&at.field(name), expected, "Take it out.");
        }
    }
    let at_seen = at.field(taken);
    match (what.takes(), form.value, &form.grade, &form.answer) {
        (Takes::Value, Some(number), ..) => {
            Some(Seen::Value(value(what, number, &at_seen, faults)))
        }
        (Takes::Grade, _, Some(grade), _) => {
            let grade = faults.known_word::<Regurgitation>(&at_seen, &grade.0);
            grade.map(Seen::Grade)
        }
        (Takes::Rhythm, _, Some(grade), _) => {
            let rhythm = faults.known_word::<Rhythm>(&at_seen, &grade.0);
            rhythm.map(Seen::Rhythm)
        }
        (Takes::Answer, _, _, Some(answer)) => {
            let told = faults.known_word::<SeenAnswer>(&at_seen, &answer.0);
            told.map(|told| Seen::Answer(told.0))
        }
        _ => {
            let expected = format!("what was seen of {}", what.name());
            faults.say(
                at,
                &format!("no {taken}"),
                expected,
                format!("Add `{taken}: …`."),
            );
            None
        }
    }
}

/// A field with its article.
fn told(field: &str) -> String {
    let article = if field == "answer" { "an" } else { "a" };
    format!("{article} {field}")
}
