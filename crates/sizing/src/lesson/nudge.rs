use super::outcome::outcome_of;
use super::question::NoAnswer;
use crate::{Candidate, Setting, Shape, State, Subject, Turn};
use measurement::{Reading, ReadingId};
use std::sync::Arc;

/// How many coarse steps of a reading are looked at on either side.
const STEPS: u32 = 40;

/// Halvings after which the edge is known to less than a fine step of any reading.
const HALVINGS: u32 = 12;

/// The value of a reading, nearest to the one it has, at which a check of a size comes
/// inside its limit.
///
/// Looked for outward by coarse steps of the quantity, then by halving; a check that is
/// inside between two coarse steps alone is not found.
pub(super) fn edge(
    setting: &Setting,
    candidate: &Candidate,
    (check, of): (&str, Subject),
    id: &ReadingId,
) -> Result<f64, NoAnswer> {
    let in_use = |one: &&Reading| one.id == *id && one.set_aside.is_none();
    let reading = setting.case().readings.iter().find(in_use);
    let reading = reading.ok_or_else(|| NoAnswer::NoReading(id.0.clone()))?;
    let info = reading.quantity.info();
    let is_inside = |value: f64| {
        let mut case = setting.case().clone();
        for one in case.readings.iter_mut().filter(|one| one.id == *id) {
            one.value = value;
        }
        let moved = Setting::new(Arc::new(case), Arc::new(setting.rules().clone()));
        let shape = Shape {
            id: candidate.shape.clone(),
            name: candidate.shape_name.clone(),
            about: String::new(),
            sizes: Vec::new(),
        };
        let size = (candidate.place, &shape, &candidate.size);
        let moved = Candidate::assess(&moved, size, Turn::ByHand(candidate.turn), None);
        outcome_of(&moved, check, of)
            .is_ok_and(|one| matches!(one.state, State::Ok | State::Caution))
    };
    if is_inside(reading.value) {
        return Err(NoAnswer::InsideAlready(check.to_owned()));
    }
    let coarse = info.steps.0.max(info.steps.1);
    for step in 1..=STEPS {
        for way in [1.0, -1.0] {
            let value = reading.value + way * f64::from(step) * coarse;
            if !(info.least..=info.most).contains(&value) || !is_inside(value) {
                continue;
            }
            let (mut inside, mut outside) = (value, value - way * coarse);
            for _ in 0..HALVINGS {
                let middle = 0.5 * (inside + outside);
                if is_inside(middle) {
                    inside = middle;
                } else {
                    outside = middle;
                }
            }
            return Ok(inside);
        }
    }
    Err(NoAnswer::NeverInside(id.0.clone()))
}
