use super::{
    LENGTH, MOST_SIZES, SHEATH_FR, Stuff, THICKNESS, WAIST, covers_waist, offset, thickness,
};
use crate::faults::Faults;
use crate::form::ListOr;
use crate::place::FieldPlace;
use geometry::{Disc, PerFace, Vec2, Waist};
use serde::Deserialize;
use sizing::{Sheath, Size};

/// A series of sizes by a rule: every waist with every length.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SeriesForm {
    waists: ListOr<StepsForm>,
    lengths: Vec<f64>,
    left_disc: Option<SeriesDiscForm>,
    right_disc: Option<SeriesDiscForm>,
    sheath_fr: ListOr<GrowthForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepsForm {
    from: f64,
    to: f64,
    step: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GrowthForm {
    base: f64,
    per_mm: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SeriesDiscForm {
    wider_than_waist: f64,
    thickness: f64,
    #[serde(default)]
    offset_toward_12: f64,
    #[serde(default)]
    offset_toward_3: f64,
}

/// A series without faults.
pub(super) struct Series {
    /// Each waist with its sheath in French.
    waists: Vec<(f64, f64)>,
    lengths: Vec<f64>,
    discs: PerFace<Option<SeriesDisc>>,
}

struct SeriesDisc {
    wider: f64,
    thickness: f64,
    offset: Vec2,
}

/// The smallest step between two waists, in millimetres.
const LEAST_STEP: f64 = 0.05;

/// Most that a disc may be wider than its waist, in millimetres.
const MOST_WIDER: f64 = 60.0;

/// Generated sizes are whole thousandths of a millimetre or of a French: the
/// dust of adding steps is no part of a size.
const FINEST: f64 = 1000.0;

/// Sheaths come in halves of a French.
const SHEATHS_PER_FRENCH: f64 = 2.0;

impl SeriesForm {
    /// The series; `None` where its sizes cannot even be counted.
    pub(super) fn check(self, at: &FieldPlace, faults: &mut Faults) -> Option<Series> {
        let at_lengths = at.field("lengths");
        if self.lengths.is_empty() {
            faults.add(&at_lengths, "at least one length", "");
        }
        let each = self.lengths.into_iter().enumerate();
        let lengths = each
            .map(|(index, length)| faults.number(&at_lengths.item(index), length, LENGTH, "mm"))
            .collect();
        let waists = waists(self.waists, &at.field("waists"), faults)?;
        let narrowest = waists.iter().copied().fold(f64::INFINITY, f64::min);
        let discs = PerFace::new(
            (self.left_disc, "left_disc"),
            (self.right_disc, "right_disc"),
        )
        .map(|(form, side)| form.map(|form| disc(&form, narrowest, &at.field(side), faults)));
        let sheaths = sheaths(self.sheath_fr, &waists, &at.field("sheath_fr"), faults);
        Some(Series {
            waists: waists.into_iter().zip(sheaths).collect(),
            lengths,
            discs,
        })
    }
}

impl Series {
    pub(super) fn count(&self) -> usize {
        self.waists.len().saturating_mul(self.lengths.len())
    }

    /// The sizes of the series, waist by waist.
    pub(super) fn sizes(&self, stuff: Stuff) -> impl Iterator<Item = Size> {
        self.waists.iter().flat_map(move |&(diameter, french)| {
            self.lengths.iter().map(move |&length| {
                let label = format!("{diameter}x{length}");
                let discs = self
                    .discs
                    .as_ref()
                    .map(|disc| disc.as_ref().map(|it| it.on(diameter)));
                let sheath = Sheath {
                    french,
                    outer_diameter: None,
                };
                stuff.size(label, Waist { diameter, length }, discs, sheath)
            })
        })
    }
}

impl SeriesDisc {
    fn on(&self, waist: f64) -> Disc {
        Disc {
            radius: 0.5 * tidy(waist + self.wider),
            thickness: self.thickness,
            offset: self.offset,
        }
    }
}

fn waists(form: ListOr<StepsForm>, at: &FieldPlace, faults: &mut Faults) -> Option<Vec<f64>> {
    match form {
        ListOr::List(waists) => {
            is_list(at, faults);
            if waists.is_empty() {
                faults.add(at, "at least one waist", "");
            }
            let each = waists.into_iter().enumerate();
            Some(
                each.map(|(index, it)| faults.number(&at.item(index), it, WAIST, "mm"))
                    .collect(),
            )
        }
        ListOr::Rule(StepsForm { from, to, step }) => {
            faults.number(&at.field("from"), from, WAIST, "mm");
            faults.number(&at.field("to"), to, WAIST, "mm");
            faults.number(&at.field("step"), step, LEAST_STEP..=*WAIST.end(), "mm");
            if from > to {
                faults.add(&at.field("to"), format!("at least `from`, {from} mm"), "");
            }
            let is_countable = step >= LEAST_STEP && WAIST.contains(&from) && WAIST.contains(&to);
            is_countable.then(|| {
                (0..MOST_SIZES)
                    .map(|index| tidy(from + index as f64 * step))
                    .take_while(|&waist| waist <= to)
                    .collect()
            })
        }
    }
}

fn disc(form: &SeriesDiscForm, narrowest: f64, at: &FieldPlace, faults: &mut Faults) -> SeriesDisc {
    let wider = form.wider_than_waist;
    let wider = faults.number(&at.field("wider_than_waist"), wider, 0.0..=MOST_WIDER, "mm");
    let offset = offset(form.offset_toward_12, form.offset_toward_3, at, faults);
    covers_waist(offset, wider, at, faults);
    // With no waist to compare with, its own limits are left.
    let diameter = if narrowest.is_finite() {
        narrowest + wider
    } else {
        *THICKNESS.end()
    };
    SeriesDisc {
        wider,
        thickness: thickness(form.thickness, diameter, at, faults),
        offset,
    }
}

/// The sheath of each waist, in French.
fn sheaths(
    form: ListOr<GrowthForm>,
    waists: &[f64],
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<f64> {
    match form {
        ListOr::List(sheaths) => {
            is_list(at, faults);
            if sheaths.len() != waists.len() {
                let found = format!("a list of {}", sheaths.len());
                let expected = format!("one sheath for each of {} waists", waists.len());
                faults.say(at, &found, expected, "");
            }
            let each = sheaths.into_iter().enumerate();
            each.map(|(index, it)| faults.number(&at.item(index), it, SHEATH_FR, "Fr"))
                .collect()
        }
        ListOr::Rule(GrowthForm { base, per_mm }) => {
            let sheath = |waist: &f64| {
                let french = tidy(base + per_mm * waist);
                (french * SHEATHS_PER_FRENCH).ceil() / SHEATHS_PER_FRENCH
            };
            let sheaths: Vec<f64> = waists.iter().map(sheath).collect();
            if let Some(french) = sheaths.iter().find(|french| !SHEATH_FR.contains(french)) {
                let (least, most) = SHEATH_FR.into_inner();
                let expected = format!("sheaths from {least} to {most} Fr");
                faults.say(at, &format!("a sheath of {french} Fr"), expected, "");
            }
            sheaths
        }
    }
}

/// `(3, 8)` is no list, and no rule without the names of its fields.
fn is_list(at: &FieldPlace, faults: &mut Faults) {
    if !at.text().starts_with('[') {
        faults.add(at, "a list in `[ ]` or a rule with named fields", "");
    }
}

/// To the nearest thousandth.
fn tidy(value: f64) -> f64 {
    (value * FINEST).round() / FINEST
}
