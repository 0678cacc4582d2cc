use crate::Case;
use measurement::{Reading, ReadingId};

/// What a lesson changes of its case.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Change {
    /// Readings with a new value, in the unit of their quantity.
    pub values: Vec<(ReadingId, f64)>,
    /// Readings that are taken out.
    pub without: Vec<ReadingId>,
    /// Readings that are put in; one with the name of another stands in its place.
    pub readings: Vec<Reading>,
}

impl Change {
    /// The case with this change.
    #[must_use]
    pub(crate) fn applied(&self, case: &Case) -> Case {
        let mut case = case.clone();
        for (id, value) in &self.values {
            for reading in case.readings.iter_mut().filter(|one| one.id == *id) {
                reading.value = *value;
            }
        }
        case.readings.retain(|one| !self.without.contains(&one.id));
        for reading in &self.readings {
            match case.readings.iter_mut().find(|one| one.id == reading.id) {
                Some(one) => *one = reading.clone(),
                None => case.readings.push(reading.clone()),
            }
        }
        case
    }
}
