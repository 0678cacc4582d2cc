//! What laws of observations and weights make of one column of draws, against values
//! worked out apart from the program by integration over a fine grid, by hand, or
//! published, as each says.

use measurement::observation::{AnswerLaw, Range, Spread, ValueLaw};
use measurement::targeted::Proposal;
use measurement::{Answer, Blocks, LogWeights, Weights};
use outside::weighed::{deviates, moments, near, share, weighed};
use sizing::engine::DrawSet;
use sizing::trial::{SetWeights, dominates, unions};

const DRAWS: usize = 16_384;

/// E5: the waist in the wall says how wide the defect is, where the waist is wider.
#[test]
fn the_waist_in_the_wall_measures_the_defect() {
    // Log-normal by its mean 4.4 and SD 0.4.
    let log_variance = (1.0_f64 + (0.4 / 4.4) * (0.4 / 4.4)).ln();
    let log_mean = 4.4_f64.ln() - 0.5 * log_variance;
    let law = ValueLaw {
        range: Range::Free,
        sd: Spread::constant(0.3),
        own: Spread::constant(0.2),
        room: 20.0,
        wrong: 0.0,
    };
    let widths: Vec<f64> = deviates(DRAWS, 0, 6)
        .iter()
        .map(|z| (log_mean + log_variance.sqrt() * z).exp())
        .collect();
    let errors = deviates(DRAWS, 1, 6);
    for (waist, seen, mean, sd) in [
        (5.5, 4.6, 4.484_917, 0.292_023),
        (4.0, 4.0, 4.415_975, 0.387_559),
    ] {
        let each = widths.iter().zip(&errors);
        let weights = weighed(each.map(|(width, error): (&f64, &f64)| {
            law.likelihood(width.min(waist) + 0.2 * error, seen)
        }));
        let (m, s) = moments(&widths, &weights);
        let error = s / weights.effective_draws().sqrt();
        assert!(
            (m - mean).abs() < 3.0 * error && (s - sd).abs() < 3.0 * error,
            "{m}, {s}"
        );
        if waist > 5.0 {
            let narrow = share(&weights, |draw| widths[draw] <= 5.0);
            near("P(d ≤ 5)", narrow, 0.958_630, weights.effective_draws());
        }
    }
}

/// E6: pulling lightly tells whether the lips hold.
#[test]
fn a_pull_tells_the_lips() {
    let law = AnswerLaw {
        turns_at: 0.5,
        softness: 0.7,
        hit: 0.95,
        false_yes: 0.05,
    };
    let lips: Vec<f64> = deviates(DRAWS, 0, 7)
        .iter()
        .map(|z| 0.9 + 0.4 * z)
        .collect();
    let yes: f64 = lips.iter().map(|lip| law.yes(*lip)).sum::<f64>() / DRAWS as f64;
    assert!((yes - 0.328_908).abs() < 2e-3, "{yes}");
    for (seen, mean, holds) in [
        (Answer::Yes, Some(0.708_447), 0.709_613),
        (Answer::No, Some(0.993_882), 0.905_909),
        (
            Answer::Unknown,
            None,
            share(&Weights::uniform(DRAWS), |draw| lips[draw] >= 0.5),
        ),
    ] {
        let weights = weighed(lips.iter().map(|lip| law.likelihood(*lip, seen)));
        if let Some(mean) = mean {
            let (m, s) = moments(&lips, &weights);
            assert!(
                (m - mean).abs() < 3.0 * s / weights.effective_draws().sqrt(),
                "{m}"
            );
        }
        let held = share(&weights, |draw| lips[draw] >= 0.5);
        near("holds", held, holds, weights.effective_draws());
    }
}

/// E7: a gradient teaches the model's error and the open share alike.
#[test]
fn a_gradient_is_shared_between_the_share_and_the_models_error() {
    let law = ValueLaw {
        range: Range::AtLeastZero,
        sd: Spread::constant(5.0),
        own: Spread {
            least: 0.0,
            share: 0.15,
        },
        room: 100.0,
        wrong: 0.0,
    };
    let opens: Vec<f64> = deviates(DRAWS, 0, 8)
        .iter()
        .map(|z| 0.60 + 0.05 * z)
        .collect();
    let errors: Vec<f64> = deviates(DRAWS, 1, 8).iter().map(|z| 0.2 * z).collect();
    let gradients: Vec<f64> = opens
        .iter()
        .zip(&errors)
        .map(|(open, error)| {
            let velocity = measurement::MPerS(0.99);
            let gradient = physiology::cost_of_narrowing(velocity, *open, 0.8, 0.05).value();
            gradient * error.exp()
        })
        .collect();
    let before = share(&Weights::uniform(DRAWS), |draw| gradients[draw] <= 20.0);
    assert!((before - 0.957_525).abs() < 3e-3, "{before}");
    let weights = weighed(
        gradients
            .iter()
            .map(|gradient| law.likelihood(*gradient, 18.0)),
    );
    let effective = weights.effective_draws();
    let (open, spread) = moments(&opens, &weights);
    assert!(
        (open - 0.579_762).abs() < 3.0 * spread / effective.sqrt(),
        "{open}"
    );
    let (error, spread) = moments(&errors, &weights);
    assert!(
        (error - 0.062_239).abs() < 3.0 * spread / effective.sqrt(),
        "{error}"
    );
    let after = share(&weights, |draw| gradients[draw] <= 20.0);
    near("P(≤ 20)", after, 0.944_180, effective);
}

/// E8: one deviate seen at 4 ± 0.3. Plain draws leave a share of 0.000354; two targeted
/// rounds leave about a thousand of 4,096.
#[test]
fn targeted_rounds_find_what_plain_draws_miss() {
    const FEW: usize = 4096;
    let seen = |deviates: &[f64]| {
        let log = |z: &f64| {
            let from_seen = (z - 4.0) / 0.3;
            -0.5 * from_seen * from_seen
        };
        LogWeights::from_logarithms(deviates.iter().map(log).collect())
    };
    let draw = |proposal: &Proposal, seed| {
        let blocks = Blocks::new(FEW, seed).expect("draws");
        let all = (0..Blocks::COUNT).flat_map(|block| proposal.deviates(&blocks, block, 0));
        all.collect::<Vec<f64>>()
    };
    let exact = 4.0 / (1.0 + 0.09);
    assert!((exact - 3.669_725_f64).abs() < 1e-6);
    let mut proposal = Proposal::none();
    let mut effective = Vec::new();
    let mut mean = 0.0;
    for seed in 1..=3 {
        let deviates = draw(&proposal, seed);
        let own = deviates.iter().map(|z| proposal.log_weight(|_| *z));
        let own = LogWeights::from_logarithms(own.collect());
        let all = own.times(&seen(&deviates), 1.0);
        effective.push(all.effective_draws());
        mean = moments(&deviates, &all.weights().expect("weights")).0;
        let target = vec![(0, deviates.clone())];
        proposal = Proposal::toward(&target, &own, &seen(&deviates), 400.0);
    }
    assert!(effective[0] < 8.0, "{effective:?}");
    assert!((800.0..1300.0).contains(&effective[2]), "{effective:?}");
    assert!(
        (mean - exact).abs() < 3.0 * 0.2874 / effective[2].sqrt(),
        "{mean}"
    );
}

/// E9, by hand: weights of ten draws and four sizes.
#[test]
fn unions_by_hand() {
    let weights = [4.0, 1.0, 1.0, 2.0, 2.0, 1.0, 3.0, 2.0, 3.0, 1.0];
    let weights = SetWeights::new(&Weights::per_draw(weights.to_vec()).expect("weights"));
    let of = |bits: &str| DrawSet::of(10, |draw| bits.as_bytes()[draw] == b'1');
    let sets = ["1111100000", "0001111000", "1100000110", "1110000000"].map(of);
    let [a, b, c, d] = &sets;
    let unions = unions(&[a, b, c, d], &weights).expect("sizes");
    let (sizes, two) = unions.two.expect("two");
    let (_, three) = unions.three.expect("three");
    assert_eq!((unions.one.1, sizes, two), (0.5, [1, 2], 0.9));
    assert_eq!(three, 0.95);
    assert!(dominates(a, d, &weights) && !dominates(d, a, &weights));
    assert!(!dominates(a, b, &weights) && !dominates(a, a, &weights));
}

/// E12: 1 % of women have the disease; a test finds 80 % of it and cries 9.6 % of the
/// time without: after a yes 7.76 % (the mammography example of Eddy, 1982, from memory).
#[test]
fn a_published_example_of_bayes_theorem() {
    let law = AnswerLaw {
        turns_at: 0.0,
        softness: 1e-9,
        hit: 0.8,
        false_yes: 0.096,
    };
    let is_so = |draw: usize| draw.is_multiple_of(100);
    let modelled = (0..DRAWS).map(|draw| if is_so(draw) { -1.0 } else { 1.0 });
    let weights = weighed(modelled.map(|value| law.likelihood(value, Answer::Yes)));
    let exact = 0.008 / (0.008 + 0.099_f64 * 0.96);
    assert!((exact - 0.0776).abs() < 5e-5);
    // Of 16,384 draws 164 are so, by a thousandth more than one in a hundred.
    assert!((share(&weights, is_so) - exact).abs() < 1e-4);
}
