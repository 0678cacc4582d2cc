//! Values at the ends of what is accepted: of every quantity, alone and together,
//! without doubt and with more doubt than value.

use crate::held;
use measurement::{Quantity, Reading};
use outside::sample::{case_names, reading, scenario, shipped_rules};
use outside::stream::Stream;
use sizing::{Case, Setting, Verdict, implausible, rows};
use std::sync::Arc;

/// A case in which a quantity has one reading, and that this value.
fn with(mut case: Case, quantity: Quantity, value: f64, sd: f64) -> Case {
    case.readings.retain(|one| one.quantity != quantity);
    case.readings.push(Reading {
        quantity,
        sd: Some(sd),
        ..reading(quantity.address(), value, 1.0)
    });
    case
}

/// The ends of a quantity, each nearly without doubt and with twice as much as value.
fn ends(quantity: Quantity) -> [(f64, f64); 4] {
    let info = quantity.info();
    let wide = (2.0 * info.most.abs()).min(info.most - info.least);
    [
        (info.least, 1e-9),
        (info.least, wide),
        (info.most, 1e-9),
        (info.most, wide),
    ]
}

#[test]
fn at_the_ends_of_every_quantity_figures_are_figures_and_nonsense_does_not_fit() {
    let sizes = held::few_sizes();
    let rules = shipped_rules();
    let mut fitted = 0;
    for name in ["mid-muscular", "thick-wall"] {
        for quantity in Quantity::all() {
            for (value, sd) in ends(quantity) {
                let case = with(scenario(name), quantity, value, sd);
                let setting = Setting::new(Arc::new(case.clone()), Arc::new(rules.clone()));
                let asked = implausible(&setting);
                let ranking = held::case(case, rules.clone(), sizes.clone());
                // What a slip of the pen has moved holds what rests on it.
                let is_asked_about =
                    |needed: &Quantity| asked.iter().any(|one| one.quantity == *needed);
                for size in &ranking.candidates {
                    if size.judged.verdict != Verdict::Fits {
                        continue;
                    }
                    let rows = rows(&setting, &size.size.occluder);
                    let needed = rows.iter().flat_map(|row| &row.needs).any(is_asked_about);
                    let at = format!("{name}, {} at {value} ± {sd}", quantity.address());
                    assert!(!needed, "{at}: {} fits", size.name());
                    fitted += 1;
                }
            }
        }
    }
    assert!(
        fitted > 100,
        "{fitted} sizes fit anywhere: the cases say nothing"
    );
}

#[test]
fn with_many_values_at_their_ends_figures_are_figures() {
    let sizes = held::few_sizes();
    let names: Vec<&str> = case_names().collect();
    let quantities: Vec<Quantity> = Quantity::all().collect();
    for number in 0..400 {
        let mut stream = Stream(number);
        let _ = stream.number();
        let mut case = scenario(names[stream.place(names.len())]);
        for _ in 0..=stream.place(12) {
            let quantity = quantities[stream.place(quantities.len())];
            let (value, sd) = ends(quantity)[stream.place(4)];
            case = with(case, quantity, value, sd);
        }
        held::case(case, shipped_rules(), sizes.clone());
    }
}
