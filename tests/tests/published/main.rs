//! Published formulas, examples, tables and limits.

mod body_surface;
mod gradients;
mod published_values;
mod shunt;
mod sources;
mod trade;
mod workup;
mod workup_scenarios;
mod z_scores;
