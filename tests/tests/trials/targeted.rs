//! Targeted rounds of a whole case, against so many draws that none is needed.

use measurement::{Quantity, Weights};
use outside::page::set;
use outside::sample::shipped_catalogue;
use outside::trials::distance_seen;
use sizing::trial::{ENOUGH, Weighing, weigh};
use sizing::{Case, Draws, Work};
use std::sync::atomic::AtomicBool;

fn weighed(case: Case, draws: usize) -> Weighing {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let weighed = weigh(&set(case), &[shipped_catalogue()], draws, 1, &work);
    weighed.expect("trials").expect("nobody cancels it")
}

/// The weighted mean of the aortic rim, with its standard deviation.
fn rim(draws: &Draws) -> [f64; 2] {
    let column = draws.column(Quantity::AORTIC_RIM).expect("a rim");
    let weights: &Weights = draws.weights();
    let each = || column.iter().enumerate();
    let all: f64 = each().map(|(draw, _)| weights.of(draw)).sum();
    let mean = each()
        .map(|(draw, rim)| weights.of(draw) * rim)
        .sum::<f64>()
        / all;
    let squares = each().map(|(draw, rim)| weights.of(draw) * (rim - mean) * (rim - mean));
    [mean, (squares.sum::<f64>() / all).sqrt()]
}

/// Few of 4,096 draws agree: targeted rounds find those of a great many, within three
/// standard errors of both.
#[test]
fn a_distance_that_few_draws_explain_is_weighed_as_by_brute_force() {
    const MANY: usize = 1 << 15;
    let case = || distance_seen(&[1.5, 1.6], 0.1);
    let (few, many) = (weighed(case(), 4096), weighed(case(), MANY));
    println!(
        "{} rounds, {:.0} of {}; {:.0} of {MANY}",
        few.rounds, few.effective, few.drawn, many.effective
    );
    assert!(few.rounds > 0 && few.effective >= ENOUGH, "{few:?}");
    assert_eq!(many.rounds, 0);
    let both = 1.0 / few.effective + 1.0 / many.effective;
    for (few, many) in few.trials.iter().zip(&many.trials) {
        let [few, many] = [few, many].map(|trial| trial.as_it_lies.expect("some agree"));
        let error = (many * (1.0 - many) * both).sqrt();
        assert!((few - many).abs() < 3.0 * error, "{few} {many} ± {error}");
    }
    let of = |weighing: &Weighing| rim(weighing.draws.as_ref().expect("draws"));
    let ([few, _], [many, sd]) = (of(&few), of(&many));
    let error = sd * both.sqrt();
    assert!((few - many).abs() < 3.0 * error, "{few} {many} ± {error}");
}

/// Where a handful of draws agree, and the law lets go of what they say in all others,
/// rounds are not given up.
#[test]
fn a_handful_of_draws_that_agree_is_followed() {
    let weighing = weighed(distance_seen(&[2.5, 2.6], 0.1), 4096);
    println!("{} rounds, {:.0}", weighing.rounds, weighing.effective);
    assert!(weighing.rounds > 0);
    assert!(weighing.effective >= ENOUGH || !weighing.holds().is_empty());
}
