use super::criteria::size;
use super::forecast::{ForecastsForm, forecasts};
use super::minute;
use super::observation::{ObservationForm, observation};
use crate::faults::{Faults, LineOfName, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::each_row;
use measurement::Answer;
use serde::Deserialize;
use sizing::trial::{Cable, ObservationKind, Trial};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TrialForm {
    id: String,
    size: String,
    rotation_deg: Option<f64>,
    opened_min: f64,
    closed_min: Option<f64>,
    wire_across: Option<BareWord>,
    cable: Option<BareWord>,
    seat_as_modelled: Option<BareWord>,
    view: Option<String>,
    #[serde(default)]
    seen: Vec<ObservationForm>,
    came_of_it: Option<BareWord>,
    because: Option<String>,
    #[serde(default)]
    forecast: ForecastsForm,
}

/// Trials in the order of their minutes: at most the last one is open.
pub(super) fn trials(forms: Vec<TrialForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<Trial> {
    let mut ids = LineOfName::new();
    let mut seen_ids = LineOfName::new();
    let mut before: Option<(usize, Option<f64>)> = None;
    let count = forms.len();
    let mut index = 0;
    each_row(forms, at, |form, at| {
        index += 1;
        faults.once(&mut ids, &form.id, &at.field("id"));
        for (place, seen) in form.seen.iter().enumerate() {
            let at = at.field("seen").item(place).field("id");
            faults.once(&mut seen_ids, &seen.id, &at);
        }
        let trial = trial(form, at, faults);
        if let Some((line, Some(closed))) = before
            && trial.opened_min < closed
        {
            let expected =
                format!("minute {closed} or later, when the trial of line {line} closed");
            let remedy = "Trials stand in the order in which they were opened.";
            faults.add(&at.field("opened_min"), expected, remedy);
        }
        if trial.came_of_it.is_none() && index < count {
            let expected = "what came of it, for another trial follows";
            let remedy =
                "Add `closed_min: …, came_of_it: recaptured`: one trial is open at a time.";
            faults.say(at, "an open trial", expected, remedy);
        }
        before = Some((at.line(), trial.closed_min));
        trial
    })
}

fn trial(form: TrialForm, at: &FieldPlace, faults: &mut Faults) -> Trial {
    let opened_min = minute(&at.field("opened_min"), form.opened_min, faults);
    let closed_min = form
        .closed_min
        .map(|min| minute(&at.field("closed_min"), min, faults));
    if let Some(closed) = closed_min
        && closed < opened_min
    {
        let expected = format!("minute {opened_min} or later, when it was opened");
        faults.add(&at.field("closed_min"), expected, "");
    }
    let came_of_it = form
        .came_of_it
        .as_ref()
        .and_then(|word| faults.known_word(&at.field("came_of_it"), &word.0));
    match (closed_min, &form.came_of_it) {
        (Some(_), None) => {
            let remedy = "Add `came_of_it: released`, recaptured, changed or abandoned.";
            faults.say(at, "closed without outcome", "what came of it", remedy);
        }
        (None, Some(_)) => {
            let remedy = "Add `closed_min: …`, the minute after puncture.";
            faults.say(at, "no closed_min", "the minute at which it closed", remedy);
        }
        _ => {}
    }
    let at_seen = at.field("seen");
    let ends = (opened_min, closed_min);
    let seen = each_row(form.seen, &at_seen, |form, at| {
        let seen = observation(&form, at, faults);
        if let Some(what) = seen.as_ref().map(|one| one.what)
            && !what.is_of_trials()
        {
            let known = ObservationKind::ALL.into_iter();
            let known = known.filter(|kind| kind.is_of_trials());
            let expected = one_of(known.map(ObservationKind::name));
            faults.add(
                &at.field("what"),
                expected,
                "It is seen in a follow-up alone.",
            );
        }
        if let Some(min) = seen.as_ref().and_then(|one| one.min) {
            in_trial(min, ends, &at.field("min"), faults);
        }
        seen
    });
    let wire_across = form.wire_across.as_ref();
    let cable = form.cable.as_ref();
    let as_modelled = form.seat_as_modelled.as_ref();
    Trial {
        id: faults.name(&at.field("id"), form.id),
        size: size(&form.size, &at.field("size"), faults),
        rotation_deg: form.rotation_deg.map(|degrees| {
            let at = at.field("rotation_deg");
            faults.number(&at, degrees, -360.0..=360.0, "degrees")
        }),
        opened_min,
        closed_min,
        wire_across: faults.word_or(&at.field("wire_across"), wire_across, Answer::Unknown),
        cable: faults.word_or(&at.field("cable"), cable, Cable::Unknown),
        seat_as_modelled: faults.word_or(
            &at.field("seat_as_modelled"),
            as_modelled,
            Answer::Unknown,
        ),
        view: form.view.map(|view| faults.text(&at.field("view"), view)),
        seen: seen.into_iter().flatten().collect(),
        came_of_it,
        because: form
            .because
            .map(|because| faults.text(&at.field("because"), because)),
        forecast: forecasts(
            form.forecast,
            closed_min.is_some(),
            &at.field("forecast"),
            faults,
        ),
    }
}

/// A minute at which the trial was open.
fn in_trial(min: f64, (opened, closed): (f64, Option<f64>), at: &FieldPlace, faults: &mut Faults) {
    if min < opened || closed.is_some_and(|closed| min > closed) {
        let until = closed.map_or_else(String::new, |closed| format!(" to {closed}"));
        let expected = format!("a minute while it was open, from {opened}{until}");
        faults.add(at, expected, "");
    }
}
