//! One size in the heart of a shipped scenario, as an SVG file.
//!
//! `cargo run -p scene --example a_plate > plate.svg`

use files::{Diagnostic, parse_case, parse_catalogue, parse_house_rules, shipped};
use scene::plate::{Column, Orientation, Plate, usual_views};
use scene::stroke::PageGround;
use scene::svg::svg;
use sizing::{Candidate, Setting, Turn};
use std::sync::Arc;

fn main() -> Result<(), Vec<Diagnostic>> {
    let (name, text) = shipped::SCENARIOS[0];
    let case = parse_case(name, text)?.into_value();
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)?.into_value();
    let (name, text) = shipped::SHAPES;
    let shapes = parse_catalogue(name, text)?.into_value().shapes;

    let setting = Setting::new(Arc::new(case), Arc::new(rules));
    let first = shapes
        .iter()
        .find_map(|shape| Some((shape, shape.sizes.first()?)));
    let Some((shape, size)) = first else {
        return Ok(());
    };
    // As measured: a picture needs no simulated variations.
    let candidate = Candidate::assess(&setting, (0, shape, size), Turn::Best, None);
    let name = candidate.name();
    let plate = Plate {
        title: &setting.case().title,
        notes: &[],
        setting: &setting,
        columns: vec![Column {
            name: &name,
            reason: None,
            candidate: &candidate,
        }],
        views: usual_views(&setting, &candidate),
        orientation: Orientation::RightVentricleLeft,
        width: Plate::WIDTH,
    };
    print!("{}", svg(&plate.draw(), PageGround::Light));
    Ok(())
}
