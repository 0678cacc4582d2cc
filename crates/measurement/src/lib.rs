//! Units, quantities, readings with their standard deviations, the fusion of like
//! readings, the laws of their doubt, and random draws from those laws.
//!
//! Uncertainty follows JCGM 100 and JCGM 101: a reading carries a standard deviation,
//! like readings are fused, and doubt is propagated by draws. The walk is [`Reading`] →
//! [`select`] → [`Estimate`] → [`Joint`] → draws, which [`Weights`] may re-weigh.
//!
//! *Same answer on every machine.* Transcendental functions come from `libm`, and sums
//! run in a fixed order.
//!
//! # Example
//!
//! Every quantity has one address, unit and range:
//!
//! ```
//! use measurement::{Quantity, Unit};
//!
//! let rim = Quantity::AORTIC_RIM;
//! assert_eq!(rim.address(), "aortic.rim");
//! assert_eq!(rim.info().unit, Unit::Mm);
//! ```

mod age;
mod anatomy;
mod answer;
mod chance;
mod estimate;
mod exchanged;
mod finding;
mod fusion;
mod grade;
mod how_measured;
mod joint;
mod law;
mod log_weights;
pub mod look_back;
mod model_error;
pub mod normal;
pub mod observation;
mod parameter;
mod per_valve;
mod preference;
mod quantity;
mod reading;
mod shared_edge;
mod shift;
mod sobol;
mod split_mix;
mod summary;
pub mod targeted;
mod tolerance;
mod unit;
pub mod units;
mod values;
mod weights;
mod whole;

pub use age::Age;
pub use anatomy::{Side, Site, Valve};
pub use answer::Answer;
pub use chance::{BlockShares, Chance, tied};
pub use estimate::Estimate;
pub use exchanged::{ExchangedSeats, SEATS, TooManyTrials};
pub use finding::{Finding, Findings};
pub use fusion::{Corrected, Dispute, Fused, fuse};
pub use grade::{Conduction, Prolapse, Regurgitation};
pub use joint::Joint;
pub use law::Law;
pub use log_weights::LogWeights;
pub use model_error::ModelError;
pub use parameter::{ParameterInfo, ParameterList};
pub use per_valve::PerValve;
pub use preference::{
    Choose, GroupKey, GroupPattern, Preference, Selection, Term, like_groups, select,
};
pub use quantity::{Feature, LawKind, Quantity, QuantityInfo, ReportGroup, Structure};
pub use reading::{Method, Modality, Phase, Reading, ReadingId};
pub use shared_edge::shared_edge_correlation;
pub use shift::{Shift, weighted_median};
pub use sobol::{Blocks, DrawsError};
pub use summary::{Interval, Summary};
pub use tolerance::{TOLERANCE, is_at_least, is_at_most, is_over, is_under, over};
pub use unit::Unit;
pub use units::{
    Amount, BeatsPerMin, Cm, Degrees, GPerDl, Grams, Kg, LPerMin, LPerMinM2, MPerS, Ml, MlPerL,
    MlPerMin, MlPerMinM2, Mm, MmHg, Percent, Ratio, Seconds, SquareCm, SquareMetres, Wood, WoodM2,
    Years, ZScore,
};
pub use values::Values;
pub use weights::Weights;
pub use whole::whole;
