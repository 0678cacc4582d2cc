//! Pages for readers that say what the code is to keep to.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

mod hazards;
mod how_we_know;
mod licences;
mod links;
mod named_tests;
