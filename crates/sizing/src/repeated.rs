//! One reading typed twice, which would count as two.

use crate::{Case, words};
use measurement::{Quantity, Reading, ReadingId};

/// Two readings in use that agree in everything but their names.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeated {
    /// The first of them.
    pub first: ReadingId,
    /// The second.
    pub second: ReadingId,
    /// Their quantity.
    pub quantity: Quantity,
    value: f64,
}

/// Every reading in use that stands in the case before, in the order of the case.
pub fn repeated(case: &Case) -> Vec<Repeated> {
    let in_use = |reading: &&Reading| reading.set_aside.is_none();
    let readings: Vec<&Reading> = case.readings.iter().filter(in_use).collect();
    let mut found = Vec::new();
    for (index, second) in readings.iter().enumerate() {
        let first = readings[..index].iter().find(|one| are_one(one, second));
        found.extend(first.map(|first| Repeated {
            first: first.id.clone(),
            second: second.id.clone(),
            quantity: second.quantity,
            value: second.value,
        }));
    }
    found
}

/// Whether nothing tells two readings apart but their names and doubts.
fn are_one(one: &Reading, other: &Reading) -> bool {
    one.quantity == other.quantity
        && one.value == other.value
        && one.modality == other.modality
        && one.side == other.side
        && one.phase == other.phase
        && one.method == other.method
        && may_be_one_image(one, other)
}

/// Whether two readings may come from one image: an image that is not named may be
/// any.
fn may_be_one_image(one: &Reading, other: &Reading) -> bool {
    match (&one.image, &other.image) {
        (Some(one), Some(other)) => one == other,
        _ => true,
    }
}

impl Repeated {
    /// What does not add up, in a sentence without its full stop.
    pub fn says(&self) -> String {
        format!(
            "{} was typed twice for the {}; measured the same way, it counts twice",
            words::amount(self.quantity, self.value),
            self.quantity
        )
    }
}
