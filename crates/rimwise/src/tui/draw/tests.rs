//! The page as it is drawn, without a terminal.

mod any_keys;
mod any_size;
mod bays;
mod filled;
mod harm;
mod hostile_text;
mod page_svg;
mod pointer;
mod readme;
mod screens;
pub(in crate::tui) mod stage;
mod themes;
mod without_colour;
mod words;

/// Every size of the demonstration in order.
pub(in crate::tui) fn test_candidates() -> Vec<sizing::Candidate> {
    let session = stage::assessed("outlet-infant", stage::FEW);
    let assessed = session.results().assessed().unwrap();
    assessed.ranking.candidates.clone()
}
