use super::{Criterion, Forecasts, ObservationKind, RoomNote, Seen, Used};
use crate::{Subject, device_name};
use measurement::{Answer, Modality};

/// All of a case that belongs to the procedure and what comes after it: written before,
/// seen and used in the laboratory, and seen later. Nothing of it is a reading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Procedure {
    /// A name for the case that says nothing of the patient.
    pub case_id: Option<String>,
    /// What was there before any device was opened.
    pub before: Vec<Before>,
    /// What the criteria were written on: a digest of the readings, answers and
    /// exceptions, then of rules, catalogue and guidance.
    pub planned_on: Option<String>,
    /// Release criteria, for each size and row.
    pub criteria: Vec<Criterion>,
    /// Every deployment, in the order in which they were opened.
    pub trials: Vec<Trial>,
    /// What was used; never judged.
    pub used: Used,
    /// What was seen after the procedure.
    pub follow_up: Vec<FollowUp>,
    /// The boxes of the room: what was ready, given and looked at.
    pub room: Vec<RoomNote>,
}

/// What a row of the criteria was before any device was opened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Before {
    /// The row.
    pub row: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// What was seen.
    pub seen: Seen,
}

/// One deployment: a size opened on its cable.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// Its lasting name.
    pub id: String,
    /// The size, as `shape/size`.
    pub size: String,
    /// The rotation it was meant to be set down at, in degrees; `None`: the ranking's.
    pub rotation_deg: Option<f64>,
    /// The minute after puncture at which it was opened.
    pub opened_min: f64,
    /// The minute at which it was released, recaptured or given up.
    pub closed_min: Option<f64>,
    /// Whether a wire lies across a valve.
    pub wire_across: Answer,
    /// How the cable hangs.
    pub cable: Cable,
    /// Whether it lies where the model lays it, a disc on each side.
    pub seat_as_modelled: Answer,
    /// The view in which it was looked at.
    pub view: Option<String>,
    /// What was seen, each confirmed.
    pub seen: Vec<Observation>,
    /// What came of it; `None`: it is open.
    pub came_of_it: Option<CameOfIt>,
    /// Why.
    pub because: Option<String>,
    /// What was foretold of it.
    pub forecast: Forecasts,
}

/// How the cable of an open device hangs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Cable {
    /// Without a pull.
    Slack,
    /// Pulling on the device.
    Taut,
    /// Nobody said.
    #[default]
    Unknown,
}

/// What came of a trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CameOfIt {
    /// The device was released.
    Released,
    /// It was drawn back into the sheath.
    Recaptured,
    /// It was drawn back and another was taken.
    Changed,
    /// The procedure was given up.
    Abandoned,
}

impl CameOfIt {
    /// The word for it in files and sentences.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Released => "released",
            Self::Recaptured => "recaptured",
            Self::Changed => "changed",
            Self::Abandoned => "abandoned",
        }
    }
}

/// One thing seen in a trial, or later.
#[derive(Clone, Debug, PartialEq)]
pub struct Observation {
    /// Its lasting name.
    pub id: String,
    /// What was looked at.
    pub what: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// What was seen.
    pub seen: Seen,
    /// The observer's standard deviation; `None`: your centre's.
    pub sd: Option<f64>,
    /// Where on the clock, in degrees; `None`: all round.
    pub clock_position: Option<f64>,
    /// How it was seen.
    pub by: Option<Modality>,
    /// The minute after puncture.
    pub min: Option<f64>,
    /// Why it does not count, if it was set aside.
    pub set_aside: Option<String>,
}

/// What was seen on one day after the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct FollowUp {
    /// Days after the procedure.
    pub day: f64,
    /// What was seen.
    pub seen: Vec<Observation>,
}

impl Procedure {
    /// The trial that is open, if one is.
    pub fn open(&self) -> Option<&Trial> {
        self.trials.iter().find(|trial| trial.came_of_it.is_none())
    }

    /// The trial whose device was released, if one was.
    pub fn released(&self) -> Option<&Trial> {
        let mut trials = self.trials.iter();
        trials.find(|trial| trial.came_of_it == Some(CameOfIt::Released))
    }

    /// The last day after the procedure on which something was seen.
    pub fn last_day(&self) -> Option<f64> {
        let days = self.follow_up.iter().map(|one| one.day);
        days.reduce(f64::max)
    }

    /// Takes over forecasts that another state of the same procedure has frozen, as far
    /// as each is still of this one: one of a closing only where it closed alike.
    pub fn keep_forecasts_of(&mut self, other: &Self) {
        for trial in &mut self.trials {
            let is_it = |one: &&Trial| {
                one.id == trial.id && one.size == trial.size && one.opened_min == trial.opened_min
            };
            let Some(other) = other.trials.iter().find(is_it) else {
                continue;
            };
            let (kept, known) = (&mut trial.forecast, &other.forecast);
            if kept.opened.is_none() {
                kept.opened.clone_from(&known.opened);
            }
            let closed_alike = trial.came_of_it.is_some()
                && (trial.came_of_it, trial.closed_min) == (other.came_of_it, other.closed_min);
            if closed_alike && kept.closed.is_none() {
                kept.closed.clone_from(&known.closed);
            }
        }
    }

    /// Whether criteria are locked: from the first trial on they change with a reason
    /// alone.
    pub const fn is_locked(&self) -> bool {
        !self.trials.is_empty()
    }

    /// What a row was before; `None`: nobody looked, and what is seen counts as new.
    pub fn before(&self, row: ObservationKind, of: Subject) -> Option<Seen> {
        let mut all = self.before.iter();
        all.find(|one| one.row == row && one.of == of)
            .map(|one| one.seen)
    }

    /// Whether anything of it is written.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Trial {
    /// What was opened, when, and what came of it: words of the case as they were typed.
    pub fn says(&self) -> String {
        let size = device_name(&self.size);
        let opened = format!("{size}, opened at {} min", self.opened_min);
        let says = match (self.came_of_it, self.closed_min) {
            (Some(outcome), Some(closed)) => {
                format!("{opened}, {} at {closed} min", outcome.name())
            }
            _ => format!("{opened}, open"),
        };
        match &self.because {
            Some(because) => format!("{says}. {because}"),
            None => says,
        }
    }

    /// Whether something pulls on the device: what a pull spoils does not count.
    pub(crate) fn is_pulled(&self) -> bool {
        self.wire_across == Answer::Yes || self.cable == Cable::Taut
    }

    /// What was seen last of a kind and a subject, of what counts for its criterion.
    pub fn last_seen(&self, what: ObservationKind, of: Subject) -> Option<&Observation> {
        let spoilt = self.is_pulled() && what.is_spoilt_by_a_pull();
        let mut all = self.seen.iter().rev().filter(|_| !spoilt);
        all.find(|one| {
            one.what == what && one.of == of && one.set_aside.is_none() && one.seen.is_told()
        })
    }
}
