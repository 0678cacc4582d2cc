//! From a case, a catalogue and the rules of a house to a ranked, reasoned list.
//!
//! Data walk one way: [`Case`] → [`Setting`] → [`Draws`] → checks → ranking. Every
//! limit comes from [`HouseRules`]; every value is a [`measure::Measure`].
//!
//! # Example
//!
//! A value on its limit is not over it, and the margin of a value within is positive:
//!
//! ```
//! use sizing::house_rules::Band;
//!
//! let clearance = Band { low: Some(0.0), high: None };
//! assert_eq!(clearance.margin(0.4), Some(0.4));
//! assert_eq!(clearance.broken(0.0), None);
//! assert_eq!(clearance.broken(-0.2), Some(0.0));
//! ```

mod anatomy;
#[cfg(test)]
mod bare;
mod body_size;
pub mod break_even;
mod candidate;
mod case;
mod catalogue;
mod chance_words;
mod changes;
pub mod check;
mod check_name;
mod checks;
mod contradiction;
mod contradictions;
mod device_name;
mod draws;
pub mod engine;
mod exclusion;
mod facts;
pub mod fit_map;
pub mod growth;
mod guidance;
mod harm;
pub mod house_rules;
mod implausible;
pub mod lesson;
pub mod look_back;
pub mod measure;
mod measured_words;
mod moved;
mod outcome;
mod placements;
mod procedure;
mod ranking;
mod rated;
mod repeated;
pub mod resolve;
mod resolved_case;
mod rotation;
mod row;
mod setting;
mod side_by_side;
mod state;
mod subject;
pub mod trial;
mod turn;
mod verdict;
pub mod why;
mod words;
pub mod worth;

pub use anatomy::{Anatomy, ModelErrors};
pub use candidate::{Candidate, Chances};
pub use case::{Case, Neighbour, Route};
pub use catalogue::{Catalogue, Shape, Sheath, Size, aside_unknown, is_aside, overlaid};
pub use changes::Changes;
pub use check_name::{CheckName, check_ids};
pub use contradiction::Contradiction;
pub use contradictions::contradictions;
pub use device_name::{device_name, is_name_of};
pub use draws::Draws;
pub use exclusion::{ExclusionState, answered, excluded, unanswered};
pub use facts::{Fact, FactValue, Facts, MOST_HOLES};
pub use guidance::{Against, Circulation, CirculationFigure, Guidance};
pub use harm::Harm;
pub use house_rules::HouseRules;
pub use implausible::{Implausible, implausible};
pub use measurement::Answer;
pub use outcome::Outcome;
pub use ranking::{Assessment, Ranking, notes, rank};
pub use rated::NotRated;
pub use repeated::{Repeated, repeated};
pub use resolved_case::ResolvedCase;
pub use row::{Row, rows};
pub use setting::Setting;
pub use side_by_side::Work;
pub use state::State;
pub use subject::{Subject, face_of};
pub use turn::{Turn, nominal_seat};
pub use verdict::{Judged, Verdict};
