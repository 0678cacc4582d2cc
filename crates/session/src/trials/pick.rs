use crate::trial_row::{Condition, Pick, Picked, TrialRow};
use crate::{Model, Refused};
use measurement::{Answer, Modality, Regurgitation};
use sizing::trial::{Cable, CameOfIt, ObservationKind, Rhythm, Seen, Takes};

/// A step from one value to another: forward or back, fine or coarse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Step {
    pub(crate) is_forward: bool,
    pub(crate) is_coarse: bool,
}

/// How a kind of value is stepped: where it begins, its fine and its coarse step.
const fn steps(kind: ObservationKind) -> (f64, f64, f64) {
    match kind {
        ObservationKind::EdgeJet => (0.0, 0.5, 0.5),
        ObservationKind::Gradient => (0.0, 1.0, 5.0),
        ObservationKind::Pressure => (100.0, 5.0, 10.0),
        ObservationKind::Turn => (0.0, 5.0, 15.0),
        ObservationKind::Waist => (0.0, 0.1, 0.5),
        ObservationKind::LeftVentricleZ => (0.0, 0.1, 1.0),
        ObservationKind::Haemoglobin => (12.0, 0.1, 1.0),
        ObservationKind::Ldh => (1.0, 0.1, 1.0),
        _ => (0.0, 0.5, 1.0),
    }
}

/// What modalities an open device is looked at by, the usual one first.
const BY: [Modality; 5] = [
    Modality::TransoesophagealEcho,
    Modality::TransthoracicEcho,
    Modality::ThreeDimensionalEcho,
    Modality::Angiography,
    Modality::Catheter,
];

/// Answers, the one that is inside most criteria first.
const ANSWERS: [Answer; 3] = [Answer::No, Answer::Yes, Answer::Unknown];
const CABLES: [Cable; 3] = [Cable::Slack, Cable::Taut, Cable::Unknown];
const OUTCOMES: [CameOfIt; 4] = [
    CameOfIt::Recaptured,
    CameOfIt::Changed,
    CameOfIt::Abandoned,
    CameOfIt::Released,
];

/// What a row offers after a step.
pub(crate) fn stepped(model: &Model, row: &TrialRow, step: Step) -> Result<Pick, Refused> {
    let is_offered = model.is_offered(row);
    let now = model.picked(row);
    let from = now.map(|pick| pick.what);
    let plain = |what| Pick { what, hour: None };
    Ok(match row {
        TrialRow::Observation(kind, _) | TrialRow::Before(kind, _) | TrialRow::Later(kind, _) => {
            seen(*kind, now, step)
        }
        TrialRow::Condition(Condition::Cable) => {
            let now = match from {
                Some(Picked::Cable(cable)) if cable != Cable::Unknown || is_offered => Some(cable),
                _ => None,
            };
            plain(Picked::Cable(next(&CABLES, now, step)))
        }
        TrialRow::Condition(_) => {
            let now = match from {
                Some(Picked::Answer(answer)) if answer != Answer::Unknown || is_offered => {
                    Some(answer)
                }
                _ => None,
            };
            plain(Picked::Answer(next(&ANSWERS, now, step)))
        }
        TrialRow::Observer => {
            let now = match from {
                Some(Picked::By(by)) => Some(by),
                _ => None,
            };
            plain(Picked::By(next(&BY, now, step)))
        }
        TrialRow::CameOfIt => {
            let now = match from {
                Some(Picked::CameOfIt(came)) => Some(came),
                _ => None,
            };
            plain(Picked::CameOfIt(next(&OUTCOMES, now, step)))
        }
        _ => return Err(Refused::TakesEnterAlone),
    })
}

fn seen(kind: ObservationKind, now: Option<Pick>, step: Step) -> Pick {
    let from = match now.map(|pick| pick.what) {
        Some(Picked::Seen(seen)) => Some(seen),
        _ => None,
    };
    let hour = now.and_then(|pick| pick.hour);
    if kind == ObservationKind::EdgeJet && step.is_coarse {
        let from = from.unwrap_or(Seen::Value(0.0));
        let what = Picked::Seen(from);
        return Pick {
            what,
            hour: Some(next_hour(hour, step.is_forward)),
        };
    }
    let what = match kind.takes() {
        Takes::Value => {
            let (first, fine, coarse) = steps(kind);
            let by = if step.is_coarse { coarse } else { fine };
            let by = if step.is_forward { by } else { -by };
            let value = match from {
                Some(Seen::Value(value)) => tidy(value + by),
                _ => first,
            };
            Seen::Value(value.clamp(kind.least(), kind.most()))
        }
        Takes::Grade => {
            let now = match from {
                Some(Seen::Grade(grade)) => Some(grade),
                _ => None,
            };
            Seen::Grade(next(&Regurgitation::ALL, now, step))
        }
        Takes::Rhythm => {
            let now = match from {
                Some(Seen::Rhythm(rhythm)) => Some(rhythm),
                _ => None,
            };
            Seen::Rhythm(next(&Rhythm::ALL, now, step))
        }
        Takes::Answer => {
            let now = match from {
                Some(Seen::Answer(answer)) => Some(answer),
                _ => None,
            };
            Seen::Answer(next(&ANSWERS, now, step))
        }
    };
    Pick {
        what: Picked::Seen(what),
        hour,
    }
}

/// A value without what adding tenths in binary leaves.
fn tidy(value: f64) -> f64 {
    const PER_UNIT: f64 = 100.0;
    (value * PER_UNIT).round() / PER_UNIT
}

/// The next of a list, not past its ends; the first, or back from nothing the last.
fn next<T: Copy + PartialEq>(all: &[T], now: Option<T>, step: Step) -> T {
    let last = all.len() - 1;
    let at = now.and_then(|now| all.iter().position(|&one| one == now));
    let to = match (at, step.is_forward) {
        (None, true) => 0,
        (None, false) => last,
        (Some(at), true) => (at + 1).min(last),
        (Some(at), false) => at.saturating_sub(1),
    };
    all[to]
}

/// The next hour of the clock, round it.
const fn next_hour(hour: Option<u8>, is_forward: bool) -> u8 {
    match (hour, is_forward) {
        (Some(hour), true) => hour % 12 + 1,
        (None, _) | (Some(1), false) => 12,
        (Some(hour), false) => hour - 1,
    }
}
