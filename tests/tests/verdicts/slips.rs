//! Slips by ten and readings typed twice: how many are caught.

use measurement::{Quantity, Reading, ReadingId};
use outside::sample::{scenario, shipped_rules};
use sizing::{Case, HouseRules, Setting, contradictions};
use std::collections::BTreeMap;
use std::sync::Arc;

fn names() -> impl Iterator<Item = &'static str> {
    let all = files::shipped::SCENARIOS.iter();
    all.map(|(name, _)| name.trim_end_matches(".ron"))
}

/// What does not add up in a case because a value is outside its wide bounds or was
/// typed twice.
fn said(case: Case, rules: &Arc<HouseRules>) -> Vec<String> {
    let found = contradictions(&Setting::new(Arc::new(case), Arc::clone(rules))).into_iter();
    let of_slips =
        found.filter(|one| ["outside_wide_bounds", "typed_twice"].contains(&one.id.as_str()));
    of_slips.map(|one| one.says).collect()
}

/// Whether a quantity has wide bounds of its own, or is what bounds are given by.
fn has_bound(quantity: Quantity, rules: &HouseRules) -> bool {
    let mut rows = rules.wide_bounds.iter();
    quantity.address() == "patient.weight" || rows.any(|row| row.of.contains(&quantity))
}

#[test]
fn no_shipped_scenario_is_a_slip() {
    let rules = Arc::new(shipped_rules());
    for name in names() {
        assert_eq!(said(scenario(name), &rules), Vec::<String>::new(), "{name}");
    }
}

/// Every value of a quantity with a bound, times ten and divided by ten.
#[test]
fn slips_by_ten_are_caught() {
    let rules = Arc::new(shipped_rules());
    let mut without = shipped_rules();
    without.wide_bounds = Vec::new();
    let without = Arc::new(without);
    let (mut slips, mut passed, mut passed_before) = (0, 0, 0);
    let mut misses: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for name in names() {
        let case = scenario(name);
        for (index, reading) in case.readings.iter().enumerate() {
            if !has_bound(reading.quantity, &rules) || reading.value == 0.0 {
                continue;
            }
            for slip in [10.0 * reading.value, reading.value / 10.0] {
                slips += 1;
                let info = reading.quantity.info();
                if !(info.least..=info.most).contains(&slip) {
                    continue;
                }
                let mut changed = case.clone();
                changed.readings[index].value = slip;
                passed_before += usize::from(said(changed.clone(), &without).is_empty());
                if said(changed, &rules).is_empty() {
                    passed += 1;
                    let miss = format!("{name} {} → {slip:.2}", reading.value);
                    misses.entry(info.address).or_default().push(miss);
                }
            }
        }
    }
    println!(
        "of {slips} slips by ten {passed} pass in silence, {passed_before} without wide bounds"
    );
    for (address, misses) in &misses {
        println!("  {address}: {}", misses.join("; "));
    }
    // What passes is what can be so: a rim or a pressure may be small, an infant a
    // newborn, a membranous wall thin.
    let may_be = |address: &str| {
        ["patient.age", "aortic.cusp_depth", "wall.thickness"].contains(&address)
            || ["rim", "offset_toward_12", "mean", "diastolic"]
                .iter()
                .any(|end| address.ends_with(end))
    };
    let not_caught: Vec<_> = misses.keys().filter(|address| !may_be(address)).collect();
    assert!(20 * passed < slips, "{passed} of {slips}");
    assert!(not_caught.is_empty(), "{not_caught:?}");
}

#[test]
fn eleven_months_taken_for_years_and_an_annulus_are_said() {
    let rules = Arc::new(shipped_rules());
    let with = |name: &str, address: &str, value: f64| {
        let mut case = scenario(name);
        let of = |one: &&mut Reading| one.quantity.address() == address;
        case.readings.iter_mut().find(of).expect(address).value = value;
        said(case, &rules)
    };
    assert_eq!(
        with("malaligned-septum", "patient.age", 11.0),
        ["11 years was given for the age, and at 6.4 kg the wide bounds are 3 weeks to 3.6 years"]
    );
    assert_eq!(
        with("outlet-infant", "aortic.diameter", 26.0),
        [
            "26.0 mm was given for the aortic annulus, diameter from the hinge, and 5 SD either \
             side of the mean at 3.6 kg and 53 cm are 3.8 to 10.5 mm (Lopez 2017)"
        ]
    );
    // One wrong weight is said of all that was given beside it.
    assert!(with("mid-muscular", "patient.weight", 110.0).len() >= 2);
}

#[test]
fn the_same_reading_typed_twice_is_said() {
    let rules = Arc::new(shipped_rules());
    let twice = |change: &dyn Fn(&mut Reading)| {
        let mut case = scenario("mid-muscular");
        let of = |one: &&Reading| one.quantity.address() == "defect.long_axis";
        let mut again = case.readings.iter().find(of).expect("a defect").clone();
        again.id = ReadingId("again".into());
        change(&mut again);
        case.readings.push(again);
        said(case, &rules)
    };
    assert_eq!(
        twice(&|_| {}),
        [
            "5.0 mm was typed twice for the defect, long axis; measured the same way, it counts \
             twice"
        ]
    );
    assert!(
        twice(&|again| again.sd = Some(1.0)).len() == 1,
        "its doubt does not tell it apart"
    );
    assert!(twice(&|again| again.value = 5.1).is_empty());
    assert!(twice(&|again| again.image = Some("another image".into())).is_empty());
    assert!(twice(&|again| again.set_aside = Some("the same".into())).is_empty());
}
