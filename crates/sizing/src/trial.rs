//! Trials: what is seen when a size is opened on its cable, and what that changes.
//!
//! Release criteria are written before; observations stand against them and re-weigh
//! the draws. No sentence, state or figure here says or advises to release.

mod conflict;
mod counted;
mod criterion;
mod kind;
mod modelled;
mod next;
mod record;
mod room;
mod seen;
mod steps;
mod taken_in;
mod unions;
mod weigh;
mod weighing;

pub use conflict::{Expected, Surprise};
pub use counted::NotCounted;
pub use criterion::{
    Bounds, Criterion, CriterionChange, CriterionError, CriterionState, criteria_of,
};
pub use kind::{AskedOf, ObservationKind};
pub use next::{REPEATED_CROSSINGS, WhatNext, what_next};
pub use record::{Before, Cable, CameOfIt, FollowUp, Observation, Procedure, Trial};
pub use room::{RoomBox, RoomNote, Used, UsedKind};
pub use seen::{Rhythm, Seen, Takes};
pub use steps::StepError;
pub use taken_in::{TakenIn, take_in};
pub use unions::{SetWeights, Unions, dominates, unions};
pub use weighing::{ENOUGH, LEAST_DRAWS, SeenOutcome, TrialOutcome, WeighError, Weighing, weigh};
