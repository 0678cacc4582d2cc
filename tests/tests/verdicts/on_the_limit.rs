//! A value on its limit does not break it, whatever the last bits of a sum say.

use measurement::{Site, TOLERANCE};
use outside::sample::{as_read, case, even_discs, reading, shipped_rules};
use sizing::break_even::break_even;
use sizing::engine::{Counts, Engine, Fast, Plain, Question};
use sizing::{Case, Draws, Neighbour, Setting, Size, State};
use sizing::{Row, rows};
use std::sync::Arc;

/// A defect of 6.0 × 5.4 mm far from every valve, drawn with a standard deviation,
/// in a child of whom all is known that the site needs first.
fn defect(sd: f64) -> Case {
    let values = [
        ("defect.long_axis", 6.0),
        ("defect.short_axis", 5.4),
        ("defect.rotation", 0.0),
        ("wall.thickness", 3.0),
        ("patient.weight", 6.4),
        ("left_ventricle.length", 34.0),
        ("right_ventricle.length", 30.0),
    ];
    let readings = values.map(|(address, value)| reading(address, value, sd));
    let mut case = case(Site::TrabecularMuscular, readings.to_vec());
    case.absent = Neighbour::ALL.into();
    case
}

/// Discs that cover 0.5 mm beyond the long axis: the limit of the rim overlap on
/// the left is "under 0.5", worked by hand, 0.5 · 7.0 − 0.5 · 6.0.
fn on_the_limit() -> Size {
    even_discs(6.0, 4.0, 0.5, 1.0)
}

/// The same discs, smaller by more than the tolerance.
fn under_the_limit() -> Size {
    even_discs(6.0, 4.0, 0.5 - 2.0 * TOLERANCE, 1.0)
}

#[test]
fn a_value_on_its_limit_keeps_it_with_a_margin_of_0() {
    let (case, rules) = (defect(0.3), shipped_rules());
    let of = |size: &Size| {
        let outcomes = as_read(case.clone(), rules.clone(), size, 0.0).outcomes;
        let hold = outcomes
            .into_iter()
            .find(|one| one.check == "rim_overlap_left");
        hold.expect("a rim overlap")
    };
    let on = of(&on_the_limit());
    assert_eq!(on.stop.low, Some(0.5), "the shipped limit");
    assert_eq!((on.state, on.margin_stop()), (State::Caution, Some(0.0)));
    let under = of(&under_the_limit());
    assert_eq!(under.state, State::Stop);
    assert!(under.margin_stop() < Some(-TOLERANCE));
}

#[test]
fn break_even_holds_the_same_state() {
    let setting = Setting::new(Arc::new(defect(0.3)), Arc::new(shipped_rules()));
    for (size, state) in [
        (on_the_limit(), State::Caution),
        (under_the_limit(), State::Stop),
    ] {
        let asked: Vec<Row> = rows(&setting, &size.occluder)
            .into_iter()
            .filter(|row| row.id() == "rim_overlap_left")
            .collect();
        assert_eq!(break_even(&setting, &size, 0.0, &asked, None).held, state);
    }
}

#[test]
fn both_engines_keep_every_draw_on_a_limit() {
    // So sure that every draw lies within the tolerance of the limit.
    let mut rules = shipped_rules();
    rules.scales.clear();
    let setting = Setting::new(Arc::new(defect(1e-12)), Arc::new(rules));
    let draws = Draws::new(&setting, 256, 1).expect("draws");
    let (plain, fast) = (Plain.prepare(draws.clone()), Fast.prepare(draws));
    for (size, chance) in [(on_the_limit(), 1.0), (under_the_limit(), 0.0)] {
        let asked = rows(&setting, &size.occluder);
        let question = Question {
            setting: &setting,
            size: &size,
            turn: 0.0,
            rows: &asked,
        };
        let of_hold = |counts: &Counts| {
            let place = asked.iter().position(|row| row.id() == "rim_overlap_left");
            let shares = counts.rows[place.expect("a rim overlap")];
            shares.expect("assessed").stop.chance(256.0).value
        };
        let counts = plain.count(&question);
        assert_eq!(of_hold(&counts), chance);
        assert_eq!(fast.count(&question), counts);
    }
}
