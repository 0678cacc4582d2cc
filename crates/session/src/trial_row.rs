//! The rows of the page of trials, and what is offered for one.

use measurement::{Answer, Modality};
use sizing::Subject;
use sizing::trial::{Cable, CameOfIt, ObservationKind, RoomBox, Seen, UsedKind};

/// One line of the page of trials.
#[derive(Clone, Debug, PartialEq)]
pub enum TrialRow {
    /// The minute since puncture.
    Minute,
    /// The release criteria of a pinned size, written or not.
    Criteria(String),
    /// One criterion of a size, as it was written.
    Written(String, ObservationKind, Subject),
    /// What a row of criteria was before any device was opened.
    Before(ObservationKind, Subject),
    /// An amount that was used.
    Used(UsedKind),
    /// A box of the room.
    Room(RoomBox),
    /// A pinned size, to be opened.
    Open(String),
    /// An observation that readings contradict, by its name.
    Conflict(String),
    /// Who looks, and in which view.
    Observer,
    /// Something that can be seen of the open device.
    Observation(ObservationKind, Subject),
    /// How the open device hangs and lies.
    Condition(Condition),
    /// What came of the open device.
    CameOfIt,
    /// The day after the procedure.
    Day,
    /// Something looked at on that day.
    Later(ObservationKind, Subject),
    /// A day of the schedule.
    Visit(u32),
    /// The device in the grown child.
    Grown,
}

/// How an open device hangs and lies: what a pull spoils does not weigh.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Condition {
    /// Whether a wire lies across a valve.
    WireAcross,
    /// How the cable hangs.
    Cable,
    /// Whether it lies where the model lays it.
    SeatAsModelled,
}

impl Condition {
    /// Every condition.
    pub const ALL: [Self; 3] = [Self::WireAcross, Self::Cable, Self::SeatAsModelled];

    /// Its name on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::WireAcross => "wire across a valve",
            Self::Cable => "cable",
            Self::SeatAsModelled => "a disc on each side, as modelled",
        }
    }
}

/// What is offered for a row and counts only once it is confirmed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pick {
    /// What it is.
    pub what: Picked,
    /// Where on the clock, in whole hours from 1 to 12; `None`: all round.
    pub hour: Option<u8>,
}

/// A value that a row takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Picked {
    /// Something seen.
    Seen(Seen),
    /// An answer about how the device lies.
    Answer(Answer),
    /// How the cable hangs.
    Cable(Cable),
    /// By what it is seen.
    By(Modality),
    /// What came of the device.
    CameOfIt(CameOfIt),
}

/// The hour of a place on the clock, in degrees clockwise from 12.
pub(crate) fn hour_of(degrees: f64) -> u8 {
    let hour = geometry::clock_hour(geometry::degrees(degrees)).round();
    let hours = 1..=12_u8;
    hours
        .into_iter()
        .find(|&one| f64::from(one) == hour)
        .unwrap_or(12)
}

/// The place of an hour on the clock, in degrees clockwise from 12.
pub(crate) const fn degrees_of(hour: f64) -> f64 {
    const PER_HOUR: f64 = 30.0;
    const ROUND: f64 = 360.0;
    hour * PER_HOUR % ROUND
}

impl Pick {
    /// It in words.
    pub fn says(self, row: &TrialRow) -> String {
        let kind = match row {
            TrialRow::Observation(kind, _)
            | TrialRow::Before(kind, _)
            | TrialRow::Later(kind, _) => Some(*kind),
            _ => None,
        };
        let what = match (self.what, kind) {
            (Picked::Seen(seen), Some(kind)) => seen.says(kind),
            (Picked::Seen(_), None) => String::new(),
            (Picked::Answer(answer), _) => answer.to_string(),
            (Picked::Cable(Cable::Slack), _) => "slack".to_owned(),
            (Picked::Cable(Cable::Taut), _) => "taut".to_owned(),
            (Picked::Cable(Cable::Unknown), _) => "unknown".to_owned(),
            (Picked::By(by), _) => by.label().to_owned(),
            (Picked::CameOfIt(came), _) => came.name().to_owned(),
        };
        match self.hour {
            Some(hour) => format!("{what} at {hour} o'clock"),
            None => what,
        }
    }
}
