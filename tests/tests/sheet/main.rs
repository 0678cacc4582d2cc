//! The sheet: what it says stands in every back end, and on its paper.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

mod bundle;
mod deployments;
mod hostile;
mod made;
mod on_its_paper;
mod says;
mod tagged;
