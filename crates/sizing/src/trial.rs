//! Trials: what is seen when a size is opened on its cable, and what that changes.
//!
//! Release criteria are written before; observations stand against them and re-weigh
//! the draws. No sentence, state or figure here says or advises to release.

mod criterion;
mod kind;
mod record;
mod seen;
mod unions;

pub use criterion::{
    Bounds, Criterion, CriterionChange, CriterionError, CriterionState, criteria_of,
};
pub use kind::{AskedOf, ObservationKind};
pub use record::{
    Before, Cable, CameOfIt, FollowUp, Observation, Procedure, RoomBox, RoomNote, Trial, Used,
};
pub use seen::{Rhythm, Seen, Takes};
pub use unions::{SetWeights, Unions, dominates, unions};
