//! The steps of a procedure, as they are entered one after the other.

use super::{
    Before, Cable, CameOfIt, FollowUp, Observation, ObservationKind, Procedure, Seen, Trial,
};
use super::{Forecasts, RoomBox, RoomNote};
use crate::Subject;
use measurement::Answer;

/// Why a step of a procedure was not taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StepError {
    /// No trial is open.
    #[error("no device is open: open a size first")]
    NoneOpen,
    /// One is open already.
    #[error("{0} is open: say what came of it first")]
    OneOpen(String),
    /// The minute lies before what it follows on.
    #[error(
        "minute {now:.0} was given, but minute {least:.0} has passed in this case: correct the minute first"
    )]
    Before {
        /// The minute.
        now: f64,
        /// The least it can be.
        least: f64,
    },
    /// Nothing was released.
    #[error("no device was released: a follow-up begins with its release")]
    NothingReleased,
    /// There is no such observation.
    #[error("no such observation")]
    NoObservation,
}

impl Procedure {
    /// The least minute that a step can have now.
    pub fn least_minute(&self) -> f64 {
        let Some(last) = self.trials.last() else {
            return 0.0;
        };
        let seen = last.seen.iter().filter_map(|one| one.min);
        let known = seen.chain(last.closed_min).chain([last.opened_min]);
        known.fold(0.0, f64::max)
    }

    fn is_after_all(&self, now: f64) -> Result<(), StepError> {
        let least = self.least_minute();
        if now < least {
            return Err(StepError::Before { now, least });
        }
        Ok(())
    }

    /// A size is opened at a minute; `rotation_deg` is the rotation it is set down at,
    /// `None`: the ranking's.
    pub fn open_trial(
        &mut self,
        size: &str,
        rotation_deg: Option<f64>,
        now: f64,
    ) -> Result<(), StepError> {
        if let Some(open) = self.open() {
            return Err(StepError::OneOpen(open.size.clone()));
        }
        self.is_after_all(now)?;
        let ids = self.trials.iter().map(|trial| trial.id.as_str());
        self.trials.push(Trial {
            id: free("t", ids),
            size: size.to_owned(),
            rotation_deg,
            opened_min: now,
            closed_min: None,
            wire_across: Answer::Unknown,
            cable: Cable::Unknown,
            seat_as_modelled: Answer::Unknown,
            view: None,
            seen: Vec::new(),
            came_of_it: None,
            because: None,
            forecast: Forecasts::default(),
        });
        Ok(())
    }

    /// The open trial, to be changed.
    pub fn open_mut(&mut self) -> Result<&mut Trial, StepError> {
        let mut trials = self.trials.iter_mut();
        trials
            .find(|trial| trial.came_of_it.is_none())
            .ok_or(StepError::NoneOpen)
    }

    /// Something is seen in the open trial; its name is made here.
    pub fn observe(&mut self, seen: Observation) -> Result<(), StepError> {
        if let Some(now) = seen.min {
            let opened = self.open().ok_or(StepError::NoneOpen)?.opened_min;
            if now < opened {
                let least = opened;
                return Err(StepError::Before { now, least });
            }
        }
        let all = self.trials.iter().flat_map(|trial| &trial.seen);
        let later = self.follow_up.iter().flat_map(|day| &day.seen);
        let id = free("s", all.chain(later).map(|one| one.id.as_str()));
        self.open_mut()?.seen.push(Observation { id, ..seen });
        Ok(())
    }

    /// Something is seen on a day after the procedure; its name is made here.
    pub fn observe_later(&mut self, day: f64, seen: Observation) -> Result<(), StepError> {
        if self.released().is_none() {
            return Err(StepError::NothingReleased);
        }
        let all = self.trials.iter().flat_map(|trial| &trial.seen);
        let later = self.follow_up.iter().flat_map(|day| &day.seen);
        let id = free("f", all.chain(later).map(|one| one.id.as_str()));
        let seen = Observation { id, ..seen };
        let place = self.follow_up.partition_point(|one| one.day < day);
        match self.follow_up.get_mut(place) {
            Some(there) if there.day.total_cmp(&day).is_eq() => there.seen.push(seen),
            _ => {
                let seen = vec![seen];
                self.follow_up.insert(place, FollowUp { day, seen });
            }
        }
        Ok(())
    }

    /// What came of the open trial.
    pub fn close(&mut self, came_of_it: CameOfIt, now: f64) -> Result<(), StepError> {
        self.is_after_all(now)?;
        let trial = self.open_mut()?;
        trial.came_of_it = Some(came_of_it);
        trial.closed_min = Some(now);
        Ok(())
    }

    /// An observation by its name, to be changed.
    pub fn observation_mut(&mut self, id: &str) -> Result<&mut Observation, StepError> {
        let trials = self.trials.iter_mut().flat_map(|trial| &mut trial.seen);
        let later = self.follow_up.iter_mut().flat_map(|day| &mut day.seen);
        let mut all = trials.chain(later);
        all.find(|one| one.id == id).ok_or(StepError::NoObservation)
    }

    /// What a row was before; said again it is that.
    pub fn note_before(&mut self, row: ObservationKind, of: Subject, seen: Seen) {
        let mut all = self.before.iter_mut();
        match all.find(|one| one.row == row && one.of == of) {
            Some(one) => one.seen = seen,
            None => self.before.push(Before { row, of, seen }),
        }
    }

    /// A box of the room is ticked, with its minute and figure where they are known.
    pub fn tick(&mut self, what: RoomBox, min: Option<f64>, value: Option<f64>) {
        self.untick(what);
        self.room.push(RoomNote { what, min, value });
    }

    /// A box of the room is not ticked any more.
    pub fn untick(&mut self, what: RoomBox) {
        self.room.retain(|one| one.what != what);
    }

    /// The note of a box of the room, if it is ticked.
    pub fn ticked(&self, what: RoomBox) -> Option<&RoomNote> {
        self.room.iter().find(|one| one.what == what)
    }
}

/// A name that no other has: a letter and the first number that is free.
fn free<'a>(letter: &str, taken: impl Iterator<Item = &'a str>) -> String {
    let taken: Vec<&str> = taken.collect();
    let mut number = taken.len() + 1;
    loop {
        let name = format!("{letter}{number}");
        if !taken.contains(&name.as_str()) {
            return name;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(what: ObservationKind, seen: Seen, min: Option<f64>) -> Observation {
        Observation {
            id: String::new(),
            what,
            of: Subject::Shape,
            seen,
            sd: None,
            clock_position: None,
            by: None,
            min,
            set_aside: None,
        }
    }

    #[test]
    fn one_trial_is_open_at_a_time_and_minutes_go_on() {
        let mut procedure = Procedure::default();
        let slips = seen(
            ObservationKind::Slips,
            Seen::Answer(Answer::Yes),
            Some(46.0),
        );
        assert_eq!(procedure.observe(slips.clone()), Err(StepError::NoneOpen));
        procedure.open_trial("even-wide/5x3", None, 44.0).unwrap();
        let again = procedure.open_trial("even-wide/5x4", None, 45.0);
        assert_eq!(again, Err(StepError::OneOpen("even-wide/5x3".to_owned())));
        procedure.observe(slips.clone()).unwrap();
        let early = seen(ObservationKind::Slips, Seen::Answer(Answer::No), Some(40.0));
        let least = 44.0;
        assert_eq!(
            procedure.observe(early),
            Err(StepError::Before { now: 40.0, least })
        );
        assert!(procedure.close(CameOfIt::Recaptured, 45.0).is_err());
        procedure.close(CameOfIt::Recaptured, 46.0).unwrap();
        assert_eq!(procedure.open(), None);
        procedure.open_trial("even-wide/5x4", None, 50.0).unwrap();
        procedure.observe(slips).unwrap_err();
        let names: Vec<&str> = procedure.trials.iter().map(|one| one.id.as_str()).collect();
        assert_eq!(names, ["t1", "t2"]);
    }

    #[test]
    fn days_after_the_procedure_stand_in_their_order() {
        let mut procedure = Procedure::default();
        let rhythm = || {
            let what = ObservationKind::Rhythm;
            seen(what, Seen::Rhythm(crate::procedure::Rhythm::AsBefore), None)
        };
        let refused = procedure.observe_later(1.0, rhythm());
        assert_eq!(refused, Err(StepError::NothingReleased));
        procedure.open_trial("even-wide/5x3", None, 44.0).unwrap();
        procedure.close(CameOfIt::Released, 46.0).unwrap();
        for day in [30.0, 1.0, 30.0] {
            procedure.observe_later(day, rhythm()).unwrap();
        }
        let days = procedure.follow_up.iter();
        let days: Vec<(f64, usize)> = days.map(|one| (one.day, one.seen.len())).collect();
        assert_eq!(days, [(1.0, 1), (30.0, 2)]);
        assert!(procedure.observation_mut("f2").is_ok());
    }

    #[test]
    fn a_name_is_free() {
        assert_eq!(free("s", ["s1", "s3"].into_iter()), "s4");
        assert_eq!(free("s", std::iter::empty()), "s1");
    }
}
