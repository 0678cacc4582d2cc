//! Keys pressed on the long axis of the demonstration's defect: what each changes, which
//! effects follow, and what the footer then says.
//!
//! `cargo run -p session --example a_key_and_its_effects`

use files::{Diagnostic, parse_case, parse_catalogue, parse_house_rules, shipped};
use measurement::Quantity;
use session::{Event, Key, Session};

fn main() -> Result<(), Vec<Diagnostic>> {
    let (name, text) = shipped::SCENARIOS[0];
    let case = parse_case(name, text)?.into_value();
    let (name, text) = shipped::SHAPES;
    let shapes = parse_catalogue(name, text)?.into_value();
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)?.into_value();

    let mut session = Session::open(case, vec![shapes], rules);
    for key in ["l", "l", "u", "2", "?"] {
        let effects = key
            .parse::<Key>()
            .map(|key| session.update(Event::Key(key)));
        let reading = session.document().sole_reading(Quantity::DEFECT_LONG_AXIS);
        let value = reading.map_or(f64::NAN, |reading| reading.value);
        println!("{key}: the long axis is {value:.1} mm");
        for effect in effects.iter().flatten() {
            let words = format!("{effect:?}");
            let name = words.split(['(', ' ']).next().unwrap_or_default();
            println!("   effect {name}");
        }
        for hint in session.footer().iter().take(2) {
            println!("   footer: {} {}", hint.key, hint.does);
        }
    }
    Ok(())
}
