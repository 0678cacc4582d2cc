//! Trials: the statistics of what is seen when a size is opened.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

mod forecast;
mod growth;
mod laws;
mod reweigh;
mod scenarios;
mod statistics;
