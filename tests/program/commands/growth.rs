//! `rimwise growth`: a device that stays, in a child that grows.

use crate::call::{Call, json, text};

const CALL: [&str; 6] = [
    "growth",
    "outlet-infant",
    "--weight",
    "7.2",
    "--height",
    "67",
];

#[test]
fn the_same_device_is_shown_today_and_grown_with_the_rim_both_ways() {
    let page = text(&CALL);
    for says in [
        "the first of the list; nothing was released",
        "body surface grows from",
        "grown, rim too",
        "aortic clearance",
        "of cohorts and not of this child",
    ] {
        assert!(page.contains(says), "{says} is not in\n{page}");
    }
}

#[test]
fn programs_are_told_the_factor_and_each_check_three_times() {
    let call = [&CALL[..], &["--format", "json"]].concat();
    let page = json(&call);
    let factor = page["factor"].as_f64().unwrap();
    assert!(factor > 1.0, "{factor}");
    let checks = page["checks"].as_array().unwrap();
    let aortic = checks.iter().find(|one| one["of"] == "aortic_valve");
    let aortic = aortic.unwrap();
    let of = |state: &str| aortic[state]["value"].as_f64().unwrap();
    // A rim that grows keeps the valve farther from the same disc.
    assert!(of("grown_with_rim") > of("grown"), "{aortic}");
    let share = checks.iter().find(|one| one["unit"] == "share");
    let share = share.unwrap();
    let of = |state: &str| share[state]["value"].as_f64().unwrap();
    assert!(of("grown") > of("today"), "{share}");
}

#[test]
fn a_body_that_is_no_larger_is_refused_with_its_remedy() {
    let says = Call::of(&["growth", "outlet-infant", "--weight", "1", "--height", "40"]).refused();
    assert!(
        says.contains("give the weight and height of a later day"),
        "{says}"
    );
    let says = Call::of(&["growth", "outlet-infant", "--weight", "7.2"]).refused();
    assert!(says.contains("--height"), "{says}");
}
