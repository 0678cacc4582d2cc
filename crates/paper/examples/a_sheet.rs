//! The sheet of a shipped scenario as text of 80 columns.
//!
//! `cargo run --release -p paper --example a_sheet`

use files::{Diagnostic, parse_case, parse_catalogue, parse_guidance, parse_house_rules};
use files::{setting, shipped, visible, workup_input};
use paper::{Paper, Provenance, SheetRequest, plain};
use scene::plate::Orientation;
use sizing::{Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use workup::Workup;

fn main() -> Result<(), Vec<Diagnostic>> {
    let (name, text) = shipped::SCENARIOS[0];
    let case = parse_case(name, text)?.into_value();
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)?.into_value();
    let (name, text) = shipped::GUIDANCE;
    let guidance = parse_guidance(name, text)?.into_value();
    let (name, text) = shipped::SHAPES;
    let catalogues = [parse_catalogue(name, text)?.into_value()];

    let setting = Arc::new(setting(Arc::new(case), Arc::new(rules), Some(&guidance)));
    let work = Work {
        threads: 2,
        cancel: &AtomicBool::new(false),
    };
    // As measured alone: no simulated variations, and so no chances on the sheet.
    let ranking = rank(&setting, &catalogues, None, &work);
    let workup = Workup::new(&workup_input(&setting), &guidance, 0, 1);
    let (Some(ranking), Ok(workup)) = (ranking, workup) else {
        return Ok(());
    };
    let from = Provenance {
        inputs_sha256: String::from("of the shipped files"),
        seed: 1,
        draws: 0,
    };
    let request = SheetRequest {
        ranking: &ranking,
        workup: &workup,
        weighed: None,
        shown: ranking.candidates.iter().take(2).collect(),
        otherwise: Vec::new(),
        since: None,
        from: &from,
        orientation: Orientation::RightVentricleLeft,
        paper: Paper::default(),
        visible,
    };
    print!("{}", plain::text(&request.sheet()));
    Ok(())
}
