//! Properties of the whole assessment: how its values answer to a change of
//! scale, of side and of hand, and what taking a reading away does.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use geometry::Vec2;
use measurement::{Feature, Quantity, Reading, Structure, Unit, Valve};
use outside::random::{any_case, any_size};
use outside::sample::{as_read, even_discs, shipped_rules};
use proptest::prelude::*;
use sizing::house_rules::Parameter;
use sizing::{
    Candidate, Case, Catalogue, Draws, Route, Setting, Shape, Size, Subject, Verdict, Work,
    engine::{Engine, Plain},
    rank,
};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Agreement of two routes to one value: each is found within 1e-6.
const AGREE: f64 = 4e-6;

type Row = (&'static str, Subject, f64, Unit);

fn values(candidate: &Candidate) -> Vec<Row> {
    candidate
        .outcomes
        .iter()
        .filter_map(|one| Some((one.check, one.of, one.value?, one.unit)))
        .collect()
}

/// Rows of the first that stand in the second with the value `expected`.
fn agree(
    one: &[Row],
    other: &[Row],
    twin: impl Fn(&'static str, Subject) -> (&'static str, Subject),
    expected: impl Fn(&Row) -> f64,
) -> Result<(), TestCaseError> {
    prop_assert!(!one.is_empty());
    for row in one {
        let (check, of) = twin(row.0, row.1);
        let found = other.iter().find(|other| other.0 == check && other.1 == of);
        prop_assert!(found.is_some(), "{check} of {of} is missing");
        let (found, wanted) = (found.map_or(f64::NAN, |row| row.2), expected(row));
        prop_assert!(
            (found - wanted).abs() <= AGREE * wanted.abs().max(1.0),
            "{check} of {of}: {found} for {wanted}"
        );
    }
    Ok(())
}

fn scaled(size: &Size, factor: f64) -> Size {
    let mut size = size.clone();
    size.occluder.waist.diameter *= factor;
    size.occluder.waist.length *= factor;
    for disc in size.occluder.discs.iter_mut().flatten() {
        disc.radius *= factor;
        disc.thickness *= factor;
        disc.offset = disc.offset * factor;
    }
    size.sheath.outer_diameter = size.sheath.outer_diameter.map(|outer| outer * factor);
    size
}

/// The hand of a case: every azimuth, turn and shift across u the other way.
fn other_hand(case: &Case) -> Case {
    let mut case = case.clone();
    for reading in &mut case.readings {
        let feature = reading.quantity.info().feature;
        if matches!(
            feature,
            Feature::ClockPosition | Feature::Rotation | Feature::OffsetToward3
        ) {
            reading.value = -reading.value;
        }
    }
    case
}

/// A case seen through the wall: all that was left is right.
fn other_side(case: &Case) -> Case {
    let mut case = case.clone();
    for reading in &mut case.readings {
        reading.quantity = twin_quantity(reading.quantity);
    }
    case
}

fn twin_quantity(quantity: Quantity) -> Quantity {
    let info = quantity.info();
    let structure = match info.structure {
        Structure::LeftOpening => Structure::RightOpening,
        Structure::RightOpening => Structure::LeftOpening,
        Structure::LeftOutflow => Structure::RightOutflow,
        Structure::RightOutflow => Structure::LeftOutflow,
        Structure::LeftVentricle => Structure::RightVentricle,
        Structure::RightVentricle => Structure::LeftVentricle,
        Structure::Valve(valve) => Structure::Valve(twin_valve(valve)),
        other => other,
    };
    Quantity::find(structure, info.feature).unwrap_or(quantity)
}

fn twin_valve(valve: Valve) -> Valve {
    match valve {
        Valve::Aortic => Valve::Pulmonary,
        Valve::Pulmonary => Valve::Aortic,
        Valve::Mitral => Valve::Tricuspid,
        Valve::Tricuspid => Valve::Mitral,
    }
}

fn twin_row(check: &'static str, of: Subject) -> (&'static str, Subject) {
    let of = match of {
        Subject::Face(face) => Subject::Face(face.opposite()),
        Subject::Valve(valve) => Subject::Valve(twin_valve(valve)),
        other => other,
    };
    let swapped = sizing::check_ids().into_iter().find(|id| {
        check
            .strip_suffix("_left")
            .is_some_and(|stem| id.strip_suffix("_right") == Some(stem))
            || check
                .strip_suffix("_right")
                .is_some_and(|stem| id.strip_suffix("_left") == Some(stem))
    });
    (swapped.unwrap_or(check), of)
}

/// Both sides alike but for the anatomy: equal pressures, the same flow.
fn even_rules() -> sizing::HouseRules {
    let mut rules = shipped_rules();
    rules.parameters[Parameter::SystemicRise.index()].value = 1.0;
    rules.parameters[Parameter::LeftSlackShare.index()].value = 1.0;
    rules
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn lengths_scale_and_everything_else_stays(
        case in any_case(), size in any_size(), factor in 0.8..1.25_f64, turn in -3.0..3.0_f64,
    ) {
        let mut larger = case.clone();
        for reading in &mut larger.readings {
            if reading.quantity.unit() == Unit::Mm {
                reading.value *= factor;
            }
        }
        let one = as_read(case, shipped_rules(), &size, turn);
        let other = as_read(larger, shipped_rules(), &scaled(&size, factor), turn);
        agree(&values(&one), &values(&other), |check, of| (check, of), |row| {
            if row.3 == Unit::Mm { row.2 * factor } else { row.2 }
        })?;
    }

    #[test]
    fn the_other_hand_has_the_same_values(
        case in any_case(), size in any_size(), turn in -3.0..3.0_f64,
    ) {
        let mut mirrored = size.clone();
        for disc in mirrored.occluder.discs.iter_mut().flatten() {
            disc.offset = Vec2::new(disc.offset.u, -disc.offset.v);
        }
        let one = as_read(case.clone(), shipped_rules(), &size, turn);
        let other = as_read(other_hand(&case), shipped_rules(), &mirrored, -turn);
        agree(&values(&one), &values(&other), |check, of| (check, of), |row| row.2)?;
    }

    #[test]
    fn swapping_the_sides_swaps_the_rows(
        case in any_case(), size in any_size(), turn in -3.0..3.0_f64,
    ) {
        let mut swapped = size.clone();
        swapped.occluder.discs = swapped.occluder.discs.swapped();
        let one = as_read(case.clone(), even_rules(), &size, turn);
        let other = as_read(other_side(&case), even_rules(), &swapped, turn);
        agree(&values(&one), &values(&other), twin_row, |row| row.2)?;
    }
}

fn catalogue(sizes: Vec<Size>) -> Catalogue {
    let shape = Shape {
        id: "any".into(),
        name: "any".into(),
        about: String::new(),
        sizes,
    };
    Catalogue {
        title: "any".into(),
        shapes: vec![shape],
        put_aside: std::collections::BTreeSet::new(),
    }
}

fn ranked(case: Case, sizes: Vec<Size>) -> sizing::Ranking {
    let setting = Arc::new(Setting::new(Arc::new(case), Arc::new(shipped_rules())));
    let counter = Plain.prepare(Draws::new(&setting, 256, 1).expect("256 draws"));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 1,
        cancel: &never,
    };
    rank(&setting, &[catalogue(sizes)], Some(&*counter), &work).expect("not cancelled")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_valid_case_ranks_without_nan(
        case in any_case(),
        sizes in prop::collection::vec(any_size(), 1..4),
        route in prop::sample::select(vec![Route::Antegrade, Route::Retrograde, Route::Perventricular]),
        kept in prop::collection::vec(prop::bool::weighted(0.9), 80),
    ) {
        let mut case = case;
        case.route = route;
        let mut keep = kept.into_iter().cycle();
        case.readings.retain(|_| keep.next().unwrap_or(true));
        let count = sizes.len();
        let ranking = ranked(case, sizes);
        prop_assert_eq!(ranking.candidates.len(), count);
        for candidate in &ranking.candidates {
            for outcome in &candidate.outcomes {
                prop_assert!(outcome.value.is_none_or(f64::is_finite), "{:?}", outcome);
                prop_assert!(!outcome.says.is_empty());
                prop_assert!(outcome.value.is_some() || !outcome.missing.is_empty());
            }
            // Of a case that is not rated no chance is given.
            prop_assert_eq!(candidate.chances.is_some(), candidate.is_case_rated);
            if let Some(chances) = candidate.chances {
                prop_assert!((0.0..=1.0).contains(&chances.chance.value));
                prop_assert!(chances.chance_no_caution.value <= chances.chance.value);
            }
        }
    }
}

/// A case that some sizes fit: an easy hole with everything read.
fn easy(major: f64, rims: f64) -> Case {
    let mut readings: Vec<Reading> = [
        ("defect.long_axis", major, 0.2),
        ("defect.short_axis", 0.95 * major, 0.2),
        ("wall.thickness", 3.0, 0.3),
        ("left_ventricle.length", 30.0, 1.0),
        ("right_ventricle.length", 30.0, 1.0),
        ("left_ventricle.systolic", 85.0, 3.0),
        ("right_ventricle.systolic", 35.0, 3.0),
        ("vein.diameter", 5.0, 0.3),
        ("patient.weight", 12.0, 0.1),
        ("patient.age", 2.0, 0.1),
        ("flow.qp_qs", 2.0, 0.2),
    ]
    .into_iter()
    .map(|(address, value, sd)| reading(address, value, sd))
    .collect();
    for name in ["aortic", "mitral", "tricuspid", "pulmonary"] {
        readings.push(reading(&format!("{name}.rim"), rims, 0.3));
        readings.push(reading(&format!("{name}.diameter"), 12.0, 0.4));
        if matches!(name, "mitral" | "tricuspid") {
            readings.push(reading(&format!("{name}.leaflet"), 12.0, 0.5));
        }
    }
    for name in ["left_outflow", "right_outflow"] {
        readings.push(reading(&format!("{name}.depth"), 16.0, 0.5));
        readings.push(reading(&format!("{name}.width"), 16.0, 0.5));
        readings.push(reading(&format!("{name}.velocity"), 0.8, 0.05));
    }
    outside::sample::case(measurement::Site::TrabecularMuscular, readings)
}

use outside::sample::reading;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// One reading of each kind. Where several like readings are fused, taking
    /// one away moves their mean, and nothing is claimed; where the house has an
    /// assumption, the assumption serves and is said.
    #[test]
    fn removing_a_reading_never_makes_a_shape_fit(
        major in 3.5..6.0_f64, rims in 2.0..9.0_f64, over in 0.6..2.6_f64, gone in any::<prop::sample::Index>(),
    ) {
        let case = easy(major, rims);
        let size = even_discs(major + over, 3.0, 1.5, 1.0);
        let before = ranked(case.clone(), vec![size.clone()]).candidates[0].judged.verdict;
        let mut less = case;
        let removed = less.readings.remove(gone.index(less.readings.len()));
        let after = &ranked(less, vec![size]).candidates[0];
        prop_assert!(
            after.judged.verdict != Verdict::Fits || before == Verdict::Fits,
            "fits without {}", removed.quantity
        );
    }
}

#[test]
fn an_easy_case_fits_so_that_the_property_above_has_something_to_lose() {
    let size = even_discs(6.5, 3.0, 1.5, 1.0);
    let candidate = &ranked(easy(5.0, 9.0), vec![size]).candidates[0];
    assert_eq!(
        candidate.judged.verdict,
        Verdict::Fits,
        "{:?}",
        candidate.judged.because
    );
}
