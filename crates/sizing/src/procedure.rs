//! What a case says of the procedure: criteria written before, trials with what was
//! seen in them, what was used, and what was seen later. Plain data and their steps;
//! what they change is worked out in [`trial`](crate::trial).

mod bounds;
mod criterion;
mod forecast;
mod kind;
mod record;
mod room;
mod seen;
mod steps;
mod written;

pub use bounds::{Bounds, CriterionState};
pub use criterion::{Criterion, CriterionChange};
pub use forecast::{
    Forecast, Forecasts, LimitForecast, PERCENTILES, SeenForecast, ValueForecast, share_under,
};
pub use kind::{AskedOf, ObservationKind, Takes};
pub use record::{Before, Cable, CameOfIt, FollowUp, Observation, Procedure, Trial};
pub use room::{RoomBox, RoomNote, Used, UsedKind};
pub use seen::{Rhythm, Seen};
pub use steps::StepError;
pub use written::CriterionError;
