//! From a case file to a ranked list.
//!
//! `cargo run --release -p files --example a_ranking`

use files::{Diagnostic, parse_case, parse_catalogue, parse_house_rules, shipped};
use sizing::engine::{Engine, Fast};
use sizing::{Draws, Setting, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

fn main() -> Result<(), Vec<Diagnostic>> {
    let (name, text) = shipped::SCENARIOS[0];
    let case = parse_case(name, text)?.into_value();
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)?.into_value();
    let (name, text) = shipped::SHAPES;
    let catalogues = [parse_catalogue(name, text)?.into_value()];

    let setting = Arc::new(Setting::new(Arc::new(case), Arc::new(rules)));
    // None where the number of draws is out of range: then values as measured alone.
    let counter = Draws::new(&setting, 4096, 1).map(|draws| Fast.prepare(draws));
    let work = Work {
        threads: 2,
        cancel: &AtomicBool::new(false),
    };
    let ranking = rank(&setting, &catalogues, counter.ok().as_deref(), &work);
    for candidate in ranking.iter().flat_map(|list| &list.candidates).take(5) {
        let chance = candidate.chance_in_per_cent().unwrap_or_default();
        let verdict = candidate.judged.verdict.word();
        println!("{:<24}{verdict:<14}{chance:>5}", candidate.name());
    }
    Ok(())
}
