//! What no file may do, whatever stands in it: make the program panic, wait or grow,
//! show a control character, or come out as a number that is none.
//!
//! Each test makes `RIMWISE_MUTANTS` texts (a few hundred where it is not set) from a
//! fixed seed; `RIMWISE_MUTANTS=100000` is for a night. What failed once stands in
//! `corpus/` and is read first.

#![expect(clippy::unwrap_used, reason = "what fails here fails a test")]
#![expect(clippy::panic, reason = "what fails here fails a test")]

mod extremes;
mod held;
mod journals;
mod lessons;
mod mutant;
mod mutants;
