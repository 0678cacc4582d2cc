//! The laws by which observations in a trial weigh the draws.

use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use measurement::observation::{AnswerLaw, Range, Spread, ValueLaw};
use serde::Deserialize;
use sizing::house_rules::{ObservationLaw, ObservationRow};
use sizing::trial::ObservationKind;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ObservationRowForm {
    what: BareWord,
    sd: Option<f64>,
    sd_share: Option<f64>,
    own: Option<f64>,
    own_share: Option<f64>,
    room: Option<f64>,
    wrong: Option<f64>,
    turns_at: Option<f64>,
    softness: Option<f64>,
    hit: Option<f64>,
    false_yes: Option<f64>,
    source: String,
}

/// Rows of laws, each kind once; a row of an unknown kind is a fault and left out.
pub(super) fn rows(
    forms: Vec<ObservationRowForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<ObservationRow> {
    let mut known = LineOfName::new();
    let rows = each_row(forms, at, |form, at| {
        let at_what = at.field("what");
        let what = faults.known_word::<ObservationKind>(&at_what, &form.what.0)?;
        faults.once(&mut known, what.name(), &at_what);
        if !what.is_weighed() {
            faults.add(
                &at_what,
                "an observation of geometry",
                "It weighs nothing: take it out.",
            );
        }
        let law = if is_of_value(what) {
            ObservationLaw::Value(value_law(what, &form, at, faults))
        } else {
            ObservationLaw::Answer(answer_law(&form, at, faults))
        };
        Some(ObservationRow {
            what,
            law,
            source: source(form.source, at, faults),
        })
    });
    rows.into_iter().flatten().collect()
}

/// Whether a kind is weighed by its value; a jet is weighed by whether there is one.
fn is_of_value(what: ObservationKind) -> bool {
    what.unit().is_some() && what != ObservationKind::EdgeJet
}

/// Bounds of what laws may say.
const MOST: f64 = 1000.0;

fn value_law(
    what: ObservationKind,
    form: &ObservationRowForm,
    at: &FieldPlace,
    faults: &mut Faults,
) -> ValueLaw {
    without(
        &[
            ("turns_at", form.turns_at),
            ("softness", form.softness),
            ("hit", form.hit),
            ("false_yes", form.false_yes),
        ],
        "a value",
        at,
        faults,
    );
    let mut spread = |names: [&str; 2], least: Option<f64>, share: Option<f64>| {
        let spread = Spread {
            least: faults.number(&at.field(names[0]), least.unwrap_or(0.0), 0.0..=MOST, ""),
            share: faults.number(&at.field(names[1]), share.unwrap_or(0.0), 0.0..=1.0, ""),
        };
        if spread.least <= 0.0 && spread.share <= 0.0 {
            let expected = format!("{} above 0", names[0]);
            faults.say(at, &format!("no {}", names[0]), expected, "");
        }
        spread
    };
    ValueLaw {
        range: match what {
            ObservationKind::Waist => Range::Free,
            ObservationKind::Turn => Range::Turning,
            _ => Range::AtLeastZero,
        },
        sd: spread(["sd", "sd_share"], form.sd, form.sd_share),
        own: spread(["own", "own_share"], form.own, form.own_share),
        room: faults.above_zero(&at.field("room"), form.room.unwrap_or(0.0), MOST, ""),
        wrong: inside_one(form.wrong, &at.field("wrong"), faults),
    }
}

fn answer_law(form: &ObservationRowForm, at: &FieldPlace, faults: &mut Faults) -> AnswerLaw {
    without(
        &[
            ("sd", form.sd),
            ("sd_share", form.sd_share),
            ("own", form.own),
            ("own_share", form.own_share),
            ("room", form.room),
            ("wrong", form.wrong),
        ],
        "an answer",
        at,
        faults,
    );
    let law = AnswerLaw {
        turns_at: faults.number(
            &at.field("turns_at"),
            form.turns_at.unwrap_or(f64::NAN),
            -MOST..=MOST,
            "",
        ),
        softness: faults.above_zero(
            &at.field("softness"),
            form.softness.unwrap_or(0.0),
            MOST,
            "",
        ),
        hit: inside_one(form.hit, &at.field("hit"), faults),
        false_yes: inside_one(form.false_yes, &at.field("false_yes"), faults),
    };
    if law.false_yes > law.hit {
        let remedy = "A yes is no likelier where it is not so.";
        let expected = format!("at most hit, {}", law.hit);
        faults.add(&at.field("false_yes"), expected, remedy);
    }
    law
}

/// A chance that is neither none nor certain.
fn inside_one(chance: Option<f64>, at: &FieldPlace, faults: &mut Faults) -> f64 {
    let chance = chance.unwrap_or(f64::NAN);
    if !(chance > 0.0 && chance < 1.0) {
        faults.add(at, "a number above 0 and under 1", "");
    }
    chance
}

/// What a law of this kind does not say.
fn without(said: &[(&str, Option<f64>)], of: &str, at: &FieldPlace, faults: &mut Faults) {
    for (name, value) in said {
        if value.is_some() {
            let expected = format!("no {name} in the law of {of}");
            faults.add(&at.field(name), expected, "Take it out.");
        }
    }
}
