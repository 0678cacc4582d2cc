//! A lesson whose case does not show its point any more fails.

use super::{case_of, course, lessons};
use measurement::Unit;
use outside::sample::{shipped_limits, shipped_rules};
use sizing::Case;
use sizing::lesson::Point;

/// Takes what a point hangs on away, by its kind, and looks whether it is missed.
#[test]
fn a_lesson_without_its_point_fails() {
    for file in lessons() {
        let lesson = file.value().lesson.clone();
        for (index, point) in lesson.points.iter().enumerate() {
            let mut case = case_of(&file);
            let mut rules = shipped_rules();
            let mut limits = shipped_limits();
            match point {
                Point::Disputed(quantity) => {
                    let mut of = case.readings.iter_mut();
                    let one = of.find(|one| one.quantity == *quantity);
                    one.expect("a reading").set_aside = Some("for the test".to_owned());
                }
                Point::Against(_) => {
                    rules.exclusions.clear();
                    rules.measured_first.clear();
                    limits.children.clear();
                }
                Point::Trade { .. } | Point::Turns { .. } | Point::Breaks { .. } => {
                    let named = point.checks();
                    rules
                        .limits
                        .retain(|limit| !named.contains(&limit.check.as_str()));
                }
                Point::Differ(..) | Point::NothingFits | Point::InBetween(_) => {
                    rules.limits.clear();
                }
            }
            let played = course(&file, case, rules, &limits);
            let title = &lesson.title;
            assert!(
                played.lost_points.contains(&index),
                "{title}: {point:?} holds without what it hangs on"
            );
            let faults = played.faults(&file);
            let at = faults
                .iter()
                .find(|fault| fault.field == format!("points[{index}]"));
            assert!(at.is_some_and(|it| it.at.line > 1), "{title}: {faults:?}");
        }
    }
}

/// A lesson, the readings that carry its point, and a length with which it is gone.
const CHANGED: [(&str, &str, f64); 6] = [
    ("What a wide disc costs", "aortic.rim", 9.0),
    ("Nothing fits", "aortic.rim", 7.0),
    ("A disc in a small ventricle", "left_ventricle.", 60.0),
    ("Artery or vein", "artery.diameter", 9.0),
    (
        "The disc and the outflow of an infant",
        "left_outflow.",
        30.0,
    ),
    ("A trivial leak, left alone", "defect.", 6.8),
];

/// The case itself is changed: a rim grows, and nothing is left to learn.
#[test]
fn a_lesson_whose_case_was_changed_fails() {
    for (title, address, value) in CHANGED {
        let file = lessons()
            .find(|file| file.value().lesson.title == title)
            .expect("a lesson");
        let mut case: Case = case_of(&file);
        let mut changed = 0;
        for one in &mut case.readings {
            let quantity = one.quantity;
            if quantity.address().starts_with(address) && quantity.unit() == Unit::Mm {
                one.value = value;
                changed += 1;
            }
        }
        assert!(changed > 0, "{title}: no reading of {address}");
        let played = course(&file, case, shipped_rules(), &shipped_limits());
        assert_ne!(
            played.faults(&file),
            [],
            "{title} with {address} at {value}"
        );
    }
}
