//! Trials: what is seen when a size is opened on its cable, and what that changes.
//!
//! Release criteria are written before; observations stand against them and re-weigh
//! the draws. No sentence, state or figure here says or advises to release.

mod conflict;
mod counted;
mod criterion;
mod drawn;
mod foretell;
mod modelled;
mod next;
mod not_counted;
mod pair_cache;
mod schedule;
mod taken_in;
mod unions;
mod weigh;
mod weighing;

pub use crate::engine::SetWeights;
pub use crate::procedure::{
    AskedOf, Before, Bounds, Cable, CameOfIt, Criterion, CriterionChange, CriterionError,
    CriterionState, FollowUp, Forecast, Forecasts, LimitForecast, Observation, ObservationKind,
    PERCENTILES, Procedure, Rhythm, RoomBox, RoomNote, Seen, SeenForecast, StepError, Takes, Trial,
    Used, UsedKind, ValueForecast, share_under,
};
pub use conflict::{Expectation, Surprise};
pub use criterion::criteria_of;
pub use drawn::ENOUGH;
pub use foretell::{Moment, foretell};
pub use next::{REPEATED_CROSSINGS, WhatNext, what_next};
pub use not_counted::NotCounted;
pub use pair_cache::PairCache;
pub use schedule::{Deterioration, Due, Visit, follow_up_says, schedule, worse_than_at_release};
pub use taken_in::{CaseAfterTrials, take_in};
pub use unions::{Unions, dominates, unions};
pub use weighing::{LEAST_DRAWS, SeenOutcome, TrialOutcome, WeighError, Weighing, weigh};
