//! Trials: the statistics of what is seen when a size is opened.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

mod break_even;
mod cohort;
mod forecast;
mod growth;
mod kept;
mod laws;
mod look_back;
mod reweigh;
mod scenarios;
mod statistics;
mod targeted;
mod twentieths;
