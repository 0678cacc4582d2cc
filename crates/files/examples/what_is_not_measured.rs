//! What the work-up of a shipped scenario still misses, and what does not add up.
//!
//! `cargo run -p files --example what_is_not_measured`

use files::{Diagnostic, parse_case, parse_guidance, parse_house_rules};
use files::{setting, shipped, visible, workup_input};
use std::sync::Arc;
use workup::Workup;

fn main() -> Result<(), Vec<Diagnostic>> {
    let (name, text) = shipped::SCENARIOS[0];
    let case = parse_case(name, text)?.into_value();
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)?.into_value();
    let (name, text) = shipped::GUIDANCE;
    let guidance = parse_guidance(name, text)?.into_value();

    let setting = setting(Arc::new(case), Arc::new(rules), Some(&guidance));
    // None where the number of draws is out of range.
    let workup = Workup::new(&workup_input(&setting), &guidance, 1024, 1).ok();
    for section in workup.iter().flat_map(|page| &page.sections) {
        if !["not_measured", "contradictions"].contains(&section.id) {
            continue;
        }
        println!("{}", section.title);
        for line in &section.lines {
            println!("  {}; {}", visible(&line.label), visible(&line.note));
        }
    }
    Ok(())
}
