//! Release criteria as they are written, locked, changed and judged.

use super::{
    Bounds, Criterion, CriterionChange, CriterionState, ObservationKind, Procedure, Trial,
};
use crate::Subject;

/// Why a criterion was not changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CriterionError {
    /// There is none of that size, row and subject.
    #[error("no such criterion: write the criteria of this size first")]
    Unknown,
    /// The first trial was opened and no reason is given.
    #[error("criteria are locked from the first deployment on: say why this one changes")]
    NoReason,
}

impl Criterion {
    /// How a trial of its size stands against it.
    pub fn state(&self, procedure: &Procedure, trial: &Trial) -> CriterionState {
        let seen = trial.last_seen(self.row, self.of).map(|one| one.seen);
        let before = procedure.before(self.row, self.of);
        self.bounds.state(self.row, before, seen)
    }
}

impl Procedure {
    /// The criteria of a size.
    pub fn criteria_of(&self, size: &str) -> impl Iterator<Item = &Criterion> {
        self.criteria.iter().filter(move |one| one.size == size)
    }

    /// Writes criteria that are not there yet: of the size, row and subject of one that
    /// is there, that one stays.
    pub fn write_criteria(&mut self, criteria: Vec<Criterion>, planned_on: &str) {
        let before = self.criteria.len();
        for new in criteria {
            let is_there =
                |one: &Criterion| one.size == new.size && one.row == new.row && one.of == new.of;
            if !self.criteria.iter().any(is_there) {
                self.criteria.push(new);
            }
        }
        // Once locked, what they were planned on stays what it was.
        if self.criteria.len() > before && !(self.is_locked() && self.planned_on.is_some()) {
            self.planned_on = Some(planned_on.to_owned());
        }
    }

    /// Changes the bounds of a criterion: before the first trial freely, from then on
    /// with a reason, which stays with the minute, the old bounds and the new.
    pub fn change_criterion(
        &mut self,
        (size, row, of): (&str, ObservationKind, Subject),
        bounds: Bounds,
        min: f64,
        reason: &str,
    ) -> Result<(), CriterionError> {
        let is_locked = self.is_locked();
        let mut all = self.criteria.iter_mut();
        let criterion = all
            .find(|one| one.size == size && one.row == row && one.of == of)
            .ok_or(CriterionError::Unknown)?;
        if is_locked {
            if reason.trim().is_empty() {
                return Err(CriterionError::NoReason);
            }
            criterion.changes.push(CriterionChange {
                min,
                old: criterion.bounds,
                new: bounds,
                reason: reason.to_owned(),
            });
        }
        criterion.bounds = bounds;
        Ok(())
    }
}

#[cfg(test)]
mod tests;
