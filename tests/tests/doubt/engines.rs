//! The fast engine counts what the reference counts, to the draw.

#![expect(clippy::expect_used, reason = "what fails here fails the test")]

use measurement::{ModelError, Weights};
use outside::random::{any_case, any_size};
use outside::sample::{case_names, scenario, shipped_rules, shipped_sizes};
use outside::stream::Stream;
use outside::stress;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use sizing::engine::{Engine, Fast, Plain, Question};
use sizing::house_rules::{Band, ModelErrorRow, Parameter};
use sizing::measure::Measure;
use sizing::{Case, Draws, HouseRules, Setting, Size, Work};
use sizing::{Row, rows};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Asserts that both engines answer alike for sizes of a case.
fn assert_alike(name: &str, case: Case, sizes: &[(Size, f64)], draws: usize) {
    assert_alike_under(name, case, shipped_rules(), sizes, draws);
}

fn assert_alike_under(
    name: &str,
    case: Case,
    rules: HouseRules,
    sizes: &[(Size, f64)],
    draws: usize,
) {
    let setting = Setting::new(Arc::new(case), Arc::new(rules));
    let draws = Draws::new(&setting, draws, 1).expect("draws");
    assert_alike_over(name, &setting, &draws, sizes);
    // All sizes again would take as long; the weights are no size's own.
    let weights = unequal_weights(draws.len());
    let weighted = draws.weighted(weights).expect("as many weights");
    let some: Vec<(Size, f64)> = sizes.iter().step_by(4).cloned().collect();
    assert_alike_over(&format!("{name}, weighted"), &setting, &weighted, &some);
}

/// A weight for each draw: some 0, the rest over nine orders of magnitude.
fn unequal_weights(draws: usize) -> Weights {
    let mut stream = Stream(11);
    let weights = (0..draws).map(|_| match stream.number() {
        number if number < 0.1 => 0.0,
        number => 10.0_f64.powf(9.0 * number - 9.0),
    });
    Weights::per_draw(weights.collect()).expect("weights")
}

fn assert_alike_over(name: &str, setting: &Setting, draws: &Draws, sizes: &[(Size, f64)]) {
    let asked: Vec<Vec<Row>> = sizes
        .iter()
        .map(|(size, _)| rows(setting, &size.occluder))
        .collect();
    let questions: Vec<Question> = sizes
        .iter()
        .zip(&asked)
        .map(|((size, turn), rows)| Question {
            setting,
            size,
            turn: *turn,
            rows,
        })
        .collect();
    let counter = Fast.prepare(draws.clone());
    let fast = counter.count_all(&questions);
    let cancel = AtomicBool::new(false);
    let two = Work {
        threads: 2,
        cancel: &cancel,
    };
    let on_two = counter.count_on(&two, &questions);
    assert!(on_two.as_ref() == Some(&fast), "{name}: on two threads");
    let reference = Plain.prepare(draws.clone());
    for (question, fast) in questions.iter().zip(fast) {
        let plain = reference.count(question);
        for ((row, fast), plain) in question.rows.iter().zip(&fast.rows).zip(&plain.rows) {
            assert_eq!(
                fast,
                plain,
                "{name}, {}: {} of {}",
                question.size.label,
                row.id(),
                row.of
            );
        }
        assert_eq!(fast, plain, "{name}, {}", question.size.label);
    }
}

/// Every shipped size, each at a turn of its own.
fn sizes_turned() -> Vec<(Size, f64)> {
    let sizes = shipped_sizes().into_iter().enumerate();
    sizes
        .map(|(place, size)| (size, 0.4 * (place % 16) as f64))
        .collect()
}

#[test]
fn in_every_scenario() {
    for name in case_names() {
        assert_alike(name, scenario(name), &sizes_turned(), 256);
    }
}

#[test]
fn in_the_stress_anatomies() {
    for (name, case) in stress::cases() {
        let mut rules = shipped_rules();
        for tilted in [1.0, 3.0] {
            let tilt = &mut rules.parameters[Parameter::TiltSd.index()].value;
            *tilt *= tilted;
            let name = format!("{name}, discs tilted {tilted} times as far");
            assert_alike_under(&name, case.clone(), rules.clone(), &sizes_turned(), 512);
        }
    }
}

#[test]
fn where_a_block_is_shorter_than_the_lanes() {
    for draws in [8, 64, 128] {
        assert_alike(
            "few draws",
            scenario("outlet-infant"),
            &sizes_turned(),
            draws,
        );
    }
}

#[test]
fn where_there_are_more_draws_than_are_laid_out_for_good() {
    let some: Vec<(Size, f64)> = sizes_turned().into_iter().step_by(50).collect();
    assert_alike("many draws", scenario("outlet-infant"), &some, 1 << 16);
}

/// The engine holds gradients against limits of the open share.
#[test]
fn with_limits_of_the_gradient_of_every_kind() {
    let some: Vec<(Size, f64)> = sizes_turned().into_iter().step_by(5).collect();
    let kinds = [
        (None, Some(2.0)),
        (Some(1.0), None),
        (Some(0.5), Some(20.0)),
        (Some(-3.0), Some(0.0)),
        (None, Some(0.02)),
        (Some(0.003), Some(1000.0)),
    ];
    for (low, high) in kinds {
        for (contraction, least) in [(0.62, 0.05), (1.0, 0.3), (0.05, 0.9)] {
            let mut rules = shipped_rules();
            for row in &mut rules.limits {
                if row.check.starts_with("outflow_gradient") {
                    row.stop = Band { low, high };
                }
            }
            rules.parameters[Parameter::Contraction.index()].value = contraction;
            rules.parameters[Parameter::LeastOpenShare.index()].value = least;
            for name in ["outlet-infant", "three-neighbours"] {
                let says = format!("{name}, {low:?} to {high:?}, {contraction}, {least}");
                assert_alike_under(&says, scenario(name), rules.clone(), &some, 256);
            }
        }
    }
}

#[test]
fn in_two_hundred_random_cases() {
    let mut runner = TestRunner::new_with_rng(
        Config::default(),
        TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]),
    );
    for number in 0..200 {
        let case = any_case().new_tree(&mut runner).expect("a case").current();
        let sizes: Vec<(Size, f64)> = (0..12)
            .map(|_| {
                let size = any_size().new_tree(&mut runner).expect("a size").current();
                let turn = (-4.0..4.0_f64)
                    .new_tree(&mut runner)
                    .expect("a turn")
                    .current();
                (size, turn)
            })
            .collect();
        assert_alike(&format!("case {number}"), case, &sizes, 512);
    }
}

#[test]
fn a_measure_of_a_checks_own_is_counted_as_the_one_that_is_bounded() {
    let setting = Setting::new(
        Arc::new(scenario("outlet-infant")),
        Arc::new(shipped_rules()),
    );
    let draws = Draws::new(&setting, 256, 1).expect("draws");
    let (plain, fast) = (Plain.prepare(draws.clone()), Fast.prepare(draws));
    let mut differs = 0;
    for (size, turn) in sizes_turned().iter().step_by(20) {
        let bounded = rows(&setting, &size.occluder);
        let mut own = bounded.clone();
        for row in &mut own {
            row.measure = match row.measure {
                Measure::WaistExcess => Measure::Own(|at| Measure::WaistExcess.value(at)),
                Measure::Slack => Measure::Own(|at| Measure::Slack.value(at)),
                other => other,
            };
        }
        let question = |rows| Question {
            setting: &setting,
            size,
            turn: *turn,
            rows,
        };
        let counts = fast.count(&question(&bounded));
        differs += usize::from(counts.no_stop.chance(1.0).value < 1.0);
        assert_eq!(fast.count(&question(&own)), counts);
        assert_eq!(plain.count(&question(&own)), counts);
    }
    assert!(differs > 0, "some limit is broken in some draw");
}

#[test]
fn a_cancelled_count_gives_nothing() {
    let setting = Setting::new(
        Arc::new(scenario("outlet-infant")),
        Arc::new(shipped_rules()),
    );
    let draws = Draws::new(&setting, 64, 1).expect("draws");
    let (size, turn) = &sizes_turned()[0];
    let rows = rows(&setting, &size.occluder);
    let question = Question {
        setting: &setting,
        size,
        turn: *turn,
        rows: &rows,
    };
    let work = Work {
        threads: 2,
        cancel: &AtomicBool::new(true),
    };
    for engine in [&Fast as &dyn Engine, &Plain] {
        assert_eq!(
            engine.prepare(draws.clone()).count_on(&work, &[question]),
            None
        );
    }
}

/// A model that is wrong in the child moves clearance, lips and gradients alike in both.
#[test]
fn model_errors_are_counted_alike() {
    let mut rules = shipped_rules();
    let sds = [0.3, 0.3, 0.2, 0.2, 0.2, 0.2];
    rules.model_errors = ModelError::ALL
        .into_iter()
        .zip(sds)
        .map(|(of, sd)| ModelErrorRow {
            of,
            sd,
            source: "to check with".into(),
        })
        .collect();
    let sizes: Vec<(Size, f64)> = shipped_sizes()
        .into_iter()
        .step_by(5)
        .map(|size| (size, 0.3))
        .collect();
    for name in [
        "outlet-infant",
        "perimembranous-shifted-opening",
        "mid-muscular",
        "slit",
    ] {
        assert_alike_under(name, scenario(name), rules.clone(), &sizes, 512);
    }
    for row in &mut rules.limits {
        if row.check.starts_with("outflow_gradient") {
            row.stop = Band {
                low: Some(0.5),
                high: Some(20.0),
            };
        }
    }
    for name in ["outlet-infant", "three-neighbours"] {
        assert_alike_under(name, scenario(name), rules.clone(), &sizes, 512);
    }
}
