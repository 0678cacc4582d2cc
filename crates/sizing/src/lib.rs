//! From a case, a catalogue and the rules of a house to a ranked, reasoned list.
//!
//! Data walk one way: [`Case`] → [`Setting`] → [`Draws`] → checks → ranking. Every
//! limit comes from [`HouseRules`]; every value is a [`measure::Measure`].

mod anatomy;
mod body_size;
pub mod break_even;
mod candidate;
mod case;
mod catalogue;
pub mod check;
mod checks;
mod contradiction;
mod draws;
pub mod engine;
mod exclusion;
mod facts;
pub mod fit_map;
mod guidance;
mod harm;
pub mod house_rules;
mod implausible;
pub mod measure;
mod outcome;
mod placements;
mod ranking;
mod rated;
mod repeated;
pub mod resolve;
mod rotation;
mod row;
mod setting;
mod side_by_side;
mod state;
mod subject;
pub mod trial;
mod turn;
mod verdict;
mod words;
pub mod worth;

pub use anatomy::Anatomy;
pub use candidate::{Candidate, Chances};
pub use case::{Case, Neighbour, Route};
pub use catalogue::{Catalogue, Shape, Sheath, Size, aside_unknown, is_aside, overlaid};
pub use checks::check_ids;
pub use contradiction::{Contradiction, contradictions};
pub use draws::Draws;
pub use exclusion::{Answered, answered, excluded, unanswered};
pub use facts::{Fact, FactValue, Facts, MOST_HOLES};
pub use guidance::{Against, Circulation, CirculationFigure, Guidance};
pub use harm::Harm;
pub use house_rules::HouseRules;
pub use implausible::{Implausible, implausible};
pub use measurement::Answer;
pub use outcome::Outcome;
pub use ranking::{Ranking, notes, rank};
pub use rated::NotRated;
pub use repeated::{Repeated, repeated};
pub use row::{Row, rows};
pub use setting::Setting;
pub use side_by_side::Work;
pub use state::State;
pub use subject::{Subject, face_of};
pub use turn::{Turn, nominal_seat};
pub use verdict::{Judged, Verdict};
