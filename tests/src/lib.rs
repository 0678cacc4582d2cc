//! Helpers shared by the outside checks.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

pub mod cohort;
pub mod folder;
pub mod observer;
pub mod page;
pub mod pdf;
pub mod random;
pub mod sample;
pub mod stream;
pub mod stress;
pub mod textbook_law;
pub mod trials;
pub mod weighed;
