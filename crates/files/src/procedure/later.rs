use super::minute;
use super::observation::{ObservationForm, observation};
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::ron_text::number;
use crate::rows::each_row;
use crate::words::Word;
use serde::Deserialize;
use sizing::trial::{FollowUp, RoomBox, RoomNote, Used, UsedKind};

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct UsedForm {
    contrast_ml: Option<f64>,
    dose_area_gy_cm2: Option<f64>,
    fluoroscopy_min: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FollowUpForm {
    day: f64,
    seen: Vec<ObservationForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RoomForm {
    what: BareWord,
    min: Option<f64>,
    value: Option<f64>,
}

/// A hundred years of days.
const MOST_DAYS: f64 = 36_525.0;

pub(super) fn used(form: &UsedForm, at: &FieldPlace, faults: &mut Faults) -> Used {
    let mut used = |kind: UsedKind, value: Option<f64>, name| {
        value.map(|value| faults.number(&at.field(name), value, 0.0..=kind.most(), kind.unit()))
    };
    Used {
        contrast_ml: used(UsedKind::Contrast, form.contrast_ml, "contrast_ml"),
        dose_area_gy_cm2: used(
            UsedKind::DoseArea,
            form.dose_area_gy_cm2,
            "dose_area_gy_cm2",
        ),
        fluoroscopy_min: used(
            UsedKind::Fluoroscopy,
            form.fluoroscopy_min,
            "fluoroscopy_min",
        ),
    }
}

/// Days after the procedure, the earlier first, each once.
pub(super) fn follow_up(
    forms: Vec<FollowUpForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<FollowUp> {
    let mut days = LineOfName::new();
    let mut ids = LineOfName::new();
    let mut before = 0.0;
    each_row(forms, at, |form, at| {
        let at_day = at.field("day");
        let day = faults.number(&at_day, form.day, 0.0..=MOST_DAYS, "days");
        faults.once(&mut days, &number(day), &at_day);
        if day < before {
            let expected = format!("day {before} or later");
            faults.add(&at_day, expected, "Days stand in their order.");
        }
        before = day;
        let seen = each_row(form.seen, &at.field("seen"), |form, at| {
            faults.once(&mut ids, &form.id, &at.field("id"));
            observation(&form, at, faults)
        });
        FollowUp {
            day,
            seen: seen.into_iter().flatten().collect(),
        }
    })
}

/// Ticked boxes; the same box twice at two minutes.
pub(super) fn room(forms: Vec<RoomForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<RoomNote> {
    let mut seen = LineOfName::new();
    let notes = each_row(forms, at, |form, at| {
        let what = faults.known_word::<RoomBox>(&at.field("what"), &form.what.0)?;
        let min = form.min.map(|min| minute(&at.field("min"), min, faults));
        let at_value = at.field("value");
        let value = match (what.most(), form.value) {
            (_, None) => None,
            (Some(most), Some(value)) => Some(faults.number(&at_value, value, 0.0..=most, "")),
            (None, Some(value)) => {
                let expected = format!("no figure for {}", what.word());
                faults.add(&at_value, expected, "Take it out.");
                Some(value)
            }
        };
        let note = RoomNote { what, min, value };
        faults.once(&mut seen, &room_key(&note), at);
        Some(note)
    });
    notes.into_iter().flatten().collect()
}

/// By what a ticked box is told from all others.
pub(crate) fn room_key(note: &RoomNote) -> String {
    let min = note.min.map_or_else(String::new, number);
    format!("{} {min}", note.what.word()).trim_end().to_owned()
}
