//! The work-up: is this defect the cause, should it be closed at all, and what
//! has not been measured?
//!
//! The work-up shows figures, published limits with their sources, and its own doubt; it
//! decides nothing. Data walk one way: [`Input`] and [`Limits`] → figures of each draw →
//! [`Workup`], a page of sections and lines from which text, JSON and screen are written.
//!
//! # Example
//!
//! What is not known never counts as met:
//!
//! ```
//! use workup::Truth;
//!
//! assert_eq!(Truth::all([Truth::Met, Truth::NotKnown]), Truth::NotKnown);
//! assert_eq!(Truth::any([Truth::Met, Truth::NotKnown]), Truth::Met);
//! ```

mod as_measured;
mod circumstances;
mod contradictions;
mod derived;
mod drawn;
mod figure;
mod figures;
mod indication;
mod input;
mod inputs_used;
mod limits;
mod other_ways;
mod page;
mod published;
mod remark;
mod truth;
mod unmeasured;
mod workup;

pub use as_measured::{AsMeasured, MetRow};
pub use circumstances::Circumstances;
pub use figure::{Figure, FigureInfo};
pub use figures::Figures;
pub use indication::{Banner, Indication};
pub use input::{Evidence, Ground, Input, KnownContradiction, bears};
pub use limits::{
    Alternative, Bearing, Bounds, Condition, LimitRow, Limits, NamedFigure, OfAdult, OfChild,
    Parameter, ParameterInfo, Question, Reach, SharedFigure,
};
pub use page::{Amount, Line, Section, State};
pub use truth::Truth;
pub use workup::{Workup, contradicted};

pub use physiology::MixedVenous;
