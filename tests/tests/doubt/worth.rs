//! What a reading is worth, against cases whose answer is known.

use measurement::Weights;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use outside::stream::Stream;
use sizing::engine::{DrawSet, Engine, Plain};
use sizing::worth::{estimate::Sample, worth};
use sizing::{Assessment, Candidate, Draws, Setting, Work};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const DRAWS: usize = 4096;

/// Numbers between 0 and 1, spread evenly over every block.
fn uniform(seed: u64) -> Vec<f64> {
    let mut stream = Stream(seed);
    (0..DRAWS).map(|_| stream.number()).collect()
}

/// One holds under 0.6, the other over it: known exactly, there is always one
/// that holds. The best now holds in 60 %; the gain is 40 % (worked by hand).
#[test]
fn a_threshold_that_parts_two_sizes_is_worth_all_that_is_missing() {
    let value = uniform(1);
    let holds = [
        DrawSet::of(DRAWS, |draw| value[draw] < 0.6),
        DrawSet::of(DRAWS, |draw| value[draw] >= 0.6),
    ];
    let weights = Weights::uniform(DRAWS);
    let sample = Sample::new(&holds, &weights).expect("draws");
    assert_eq!(sample.best(), 0);
    assert!((sample.chance().value - 0.6).abs() < 0.03);
    let all = sample.not_best();
    assert!((all.value - 0.4).abs() < 0.03, "{all:?}");
    let gain = sample.gain(&value);
    // The limit lies inside one of 32 bins: at most half of it is lost.
    assert!(
        gain.value <= all.value && gain.value > all.value - 1.0 / 64.0 - 0.005,
        "{gain:?}"
    );
    assert!(sample.share_taken(&gain) > 0.95);
}

/// Chances that move with a value: one holds with chance q, the other always with
/// ½. Now both hold in ½; known, E max(q, ½) = ⅝: a gain of ⅛ (by integration).
#[test]
fn a_chance_that_moves_with_the_value_gains_an_eighth() {
    let (value, luck, other) = (uniform(2), uniform(3), uniform(4));
    let holds = [
        DrawSet::of(DRAWS, |draw| other[draw] < 0.5),
        DrawSet::of(DRAWS, |draw| luck[draw] < value[draw]),
    ];
    let weights = Weights::uniform(DRAWS);
    let sample = Sample::new(&holds, &weights).expect("draws");
    let gain = sample.gain(&value);
    // Which of two equals is best now is chance: that moves the base by as much
    // as the chances' own error, 0.8 %; three of them, and the bins' noise.
    assert!((gain.value - 0.125).abs() < 0.035, "{gain:?}");
}

/// Nothing is gained by what matters to nothing, in any of many tries, but noise
/// that the error covers.
#[test]
fn a_value_that_matters_to_nothing_is_worth_nothing() {
    let mut sum = 0.0;
    for seed in 0..20 {
        let (one, other, nothing) = (uniform(seed), uniform(seed + 50), uniform(seed + 100));
        let holds = [
            DrawSet::of(DRAWS, |draw| one[draw] < 0.62),
            DrawSet::of(DRAWS, |draw| other[draw] < 0.60),
        ];
        let weights = Weights::uniform(DRAWS);
        let sample = Sample::new(&holds, &weights).expect("draws");
        let gain = sample.gain(&nothing);
        assert!(gain.value < 3.5 * gain.error, "{seed}: {gain:?}");
        sum += gain.value;
    }
    assert!(sum / 20.0 <= 0.002, "noise gains {}", sum / 20.0);
}

/// Heavy draws count as many.
#[test]
fn weights_are_respected() {
    let value = uniform(7);
    let weight: Vec<f64> = value
        .iter()
        .map(|value| if *value < 0.5 { 0.0 } else { 2.0 })
        .collect();
    let weights = Weights::per_draw(weight).expect("weights");
    let holds = [
        DrawSet::of(DRAWS, |draw| value[draw] < 0.6),
        DrawSet::of(DRAWS, |draw| value[draw] >= 0.6),
    ];
    let sample = Sample::new(&holds, &weights).expect("draws");
    assert_eq!(sample.best(), 1);
    assert!((sample.chance().value - 0.8).abs() < 0.03);
    assert!((sample.gain(&value).value - 0.2).abs() < 0.03);
}

/// Never above perfect information on all, in a case with many sizes.
#[test]
fn one_reading_is_never_worth_more_than_all() {
    let setting = Arc::new(Setting::new(
        Arc::new(scenario("outlet-infant")),
        Arc::new(shipped_rules()),
    ));
    let draws = Draws::new(&setting, 512, 1).expect("draws");
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let mut catalogue = shipped_catalogue();
    for shape in &mut catalogue.shapes {
        shape
            .sizes
            .retain(|size| (4.0..6.5).contains(&size.occluder.waist.diameter));
    }
    let counter = Plain.prepare(draws);
    let assessment = Assessment::new(&setting, &[catalogue], &work).expect("not cancelled");
    let list = assessment.rank(None, &work).expect("not cancelled");
    let some = &list.candidates[..12];
    let found = worth(&setting, some, &*counter).expect("candidates");
    // What the list was ranked by need not be counted again.
    let by_draws = assessment.rank(Some(&*counter), &work);
    let by_draws = by_draws.expect("not cancelled").candidates;
    let counted: Vec<Candidate> = some
        .iter()
        .filter_map(|one| by_draws.iter().find(|other| other.place == one.place))
        .cloned()
        .collect();
    assert!(counted.iter().all(|one| one.holds.is_some()));
    assert_eq!(worth(&setting, &counted, &*counter).as_ref(), Some(&found));
    assert!(found.gains.len() > 20);
    for gain in &found.gains {
        assert!(gain.chance.value <= found.not_best.value, "{gain:?}");
        assert!((0.0..=1.0).contains(&gain.takes_away));
    }
    assert!(
        found
            .gains
            .windows(2)
            .all(|pair| pair[0].chance.value >= pair[1].chance.value)
    );
    assert!(found.says().ends_with('.'));
}
