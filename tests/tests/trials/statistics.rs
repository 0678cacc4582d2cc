//! The statistics of trials on a scene small enough to work out otherwise.
//!
//! Scene: c = r + b + x − reach, where r is a rim, normal(1.7, 0.4), b the model's
//! error, normal(0, 0.3), the same in every opening, and x what a fresh seat adds,
//! normal(0, 0.3). Sizes P, Q and S reach 1.2, 1.5 and 0.8. Expected values: the
//! conjugate case in closed form here; the others by integration over a fine grid,
//! worked out apart from the program.

use measurement::observation::{AnswerLaw, Range, Spread, ValueLaw};
use measurement::{
    Answer, BlockShares, Blocks, Chance, ExchangedSeats, LogWeights, Shift, Weights, normal,
};
use outside::weighed::{deviates, moments, near};
use std::ops::Range as Span;

const P: f64 = 1.2;
const Q: f64 = 1.5;
const S: f64 = 0.8;

/// Of each scene; several scenes, so that three errors are a few thousandths and the
/// error itself is known from more than eight blocks.
const DRAWS: usize = 16_384;
const SCENES: u64 = 8;

/// Contact as the scene has it.
const TOUCHES: AnswerLaw = AnswerLaw {
    turns_at: 0.0,
    softness: 0.5,
    hit: 0.9,
    false_yes: 0.1,
};

fn distance(sd: f64, wrong: f64, range: Range) -> ValueLaw {
    ValueLaw {
        range,
        sd: Spread::constant(sd),
        own: Spread::constant(0.3),
        room: 10.0,
        wrong,
    }
}

/// The draws of the scene with the weights gathered so far.
struct Scene {
    rims: Vec<f64>,
    errors: Vec<f64>,
    seats: Vec<f64>,
    per_block: usize,
    weights: LogWeights,
}

impl Scene {
    fn new(seed: u64) -> Self {
        let blocks = Blocks::new(DRAWS, seed).expect("draws");
        let column = |dimension, mean: f64, sd: f64| -> Vec<f64> {
            let per_block = 0..blocks.per_block();
            (0..Blocks::COUNT)
                .flat_map(|block| per_block.clone().map(move |index| (block, index)))
                .map(|(block, index)| mean + sd * blocks.normal(block, index, dimension))
                .collect()
        };
        Self {
            rims: column(0, 1.7, 0.4),
            errors: column(1, 0.0, 0.3),
            seats: column(128, 0.0, 0.3),
            per_block: blocks.per_block(),
            weights: LogWeights::uniform(DRAWS),
        }
    }

    fn clear(&self, draw: usize, seat: usize, reach: f64) -> f64 {
        self.rims[draw] + self.errors[draw] + self.seats[seat] - reach
    }

    /// Gathers a trial, its likelihood averaged over other draws' seats; gives the
    /// evidence and, of all pairs of draw and seat, the share in which it is clear as it
    /// lies.
    fn open(&mut self, trial: usize, reach: f64, law: impl Fn(f64) -> f64) -> (f64, f64) {
        let fresh = ExchangedSeats::new(self.per_block, trial).expect("a trial");
        self.open_in(reach, law, |draw| fresh.of(draw))
    }

    fn open_in(
        &mut self,
        reach: f64,
        law: impl Fn(f64) -> f64,
        seats: impl Fn(usize) -> Span<usize>,
    ) -> (f64, f64) {
        let before = self.weights.weights().expect("weights");
        let (mut as_it_lies, mut all, mut of_draws) = (0.0, 0.0, 0.0);
        let mut likelihoods = Vec::with_capacity(DRAWS);
        for draw in 0..DRAWS {
            let (mut sum, mut clear, mut count) = (0.0, 0.0, 0.0);
            for seat in seats(draw) {
                let apart = self.clear(draw, seat, reach);
                let likelihood = law(apart);
                sum += likelihood;
                count += 1.0;
                clear += if apart >= 0.0 { likelihood } else { 0.0 };
            }
            let weight = before.of(draw);
            likelihoods.push(sum / count);
            as_it_lies += weight * clear / count;
            all += weight * sum / count;
            of_draws += weight;
        }
        self.weights.multiply(&likelihoods);
        (all / of_draws, as_it_lies / all)
    }

    fn touches(&mut self, trial: usize, reach: f64, seen: Answer) -> (f64, f64) {
        self.open(trial, reach, |apart| TOUCHES.likelihood(apart, seen))
    }

    /// The chance that a size is clear in a fresh seat.
    fn if_opened(&self, reach: f64) -> Chance {
        let weights = self.weights.weights().expect("weights");
        let mut sums = [[0.0; Blocks::COUNT]; 2];
        for draw in 0..DRAWS {
            let (block, weight) = (draw / self.per_block, weights.of(draw));
            sums[1][block] += weight;
            if self.clear(draw, draw, reach) >= 0.0 {
                sums[0][block] += weight;
            }
        }
        BlockShares::from_weights(sums[0], sums[1]).chance(weights.effective_draws())
    }

    /// The mean and standard deviation of the rim.
    fn rim(&self) -> (f64, f64) {
        let weights = self.weights.weights().expect("weights");
        moments(&self.rims, &weights)
    }
}

/// The scenes of some seeds after a run of trials, with what the run gives, averaged.
fn scenes<const N: usize>(run: impl Fn(&mut Scene) -> [f64; N]) -> (Vec<Scene>, [f64; N]) {
    let mut given = [0.0; N];
    let scenes = (1..=SCENES).map(|seed| {
        let mut scene = Scene::new(seed);
        for (sum, one) in given.iter_mut().zip(run(&mut scene)) {
            *sum += one / SCENES as f64;
        }
        scene
    });
    (scenes.collect(), given)
}

/// Effective draws of all scenes together.
fn effective(scenes: &[Scene]) -> f64 {
    scenes.iter().map(|one| one.weights.effective_draws()).sum()
}

fn is_told(what: &str, scenes: &[Scene], rim: (f64, f64), if_opened: [f64; 3]) {
    let mean_of = |of: &dyn Fn(&Scene) -> f64| -> f64 {
        scenes.iter().map(of).sum::<f64>() / scenes.len() as f64
    };
    // 1/√ESS is the error of a mean of plain draws; Sobol points do better.
    let error = 1.0 / effective(scenes).sqrt();
    let (mean, sd) = (mean_of(&|one| one.rim().0), mean_of(&|one| one.rim().1));
    assert!(
        (mean - rim.0).abs() < 3.0 * sd * error,
        "{what}: mean {mean}"
    );
    assert!((sd - rim.1).abs() < 3.0 * sd * error, "{what}: SD {sd}");
    for (reach, expected) in [P, Q, S].into_iter().zip(if_opened) {
        let chance = mean_of(&|one| one.if_opened(reach).value);
        let squares = mean_of(&|one| one.if_opened(reach).error.powi(2));
        let error = (squares / scenes.len() as f64).sqrt();
        assert!(
            (chance - expected).abs() < 3.0 * error,
            "{what}, reach {reach}: {chance} ± {error}, not {expected}"
        );
    }
}

#[test]
fn before_any_trial() {
    let (scenes, []) = scenes(|_| []);
    is_told(
        "before",
        &scenes,
        (1.7, 0.4),
        [0.804_414, 0.634_200, 0.938_644],
    );
}

/// E1, the conjugate case: all is normal, so the posterior is known in closed form.
#[test]
fn a_normal_observation_gives_the_conjugate_posterior() {
    let law = distance(0.4, 0.0, Range::Free);
    let (scenes, [evidence, as_it_lies]) =
        scenes(|scene| scene.open(1, P, |apart| law.likelihood(apart, 1.1)).into());

    // Seen o = r + b + x − reach + e, e of variance 0.4² + 0.3².
    let (rim, error, seat, noise) = (0.16, 0.09, 0.09, 0.25);
    let total: f64 = rim + error + seat + noise;
    let apart = 1.1 - (1.7 - P);
    let mean = |variance: f64| variance / total * apart;
    let closed = (1.7 + mean(rim), (rim - rim * rim / total).sqrt());
    assert!((closed.0 - 1.862_712).abs() < 1e-6 && (closed.1 - 0.341_482).abs() < 1e-6);
    let clear = |reach: f64| {
        let known = rim + error;
        let spread = (known - known * known / total + seat).sqrt();
        normal::probability((1.7 - reach + mean(known)) / spread)
    };
    let expected = [P, Q, S].map(clear);
    for (one, stated) in expected.iter().zip([0.940_498, 0.826_105, 0.991_478]) {
        assert!((one - stated).abs() < 1e-6, "{one}");
    }
    is_told("E1", &scenes, closed, expected);
    let in_closed_form = normal::density(apart / total.sqrt()) / total.sqrt();
    assert!((in_closed_form - 0.382_814).abs() < 1e-6);
    assert!((evidence - in_closed_form).abs() < 3e-3, "{evidence}");
    near("as it lies", as_it_lies, 0.987_068, effective(&scenes));
}

/// E1b: the same by the law of a distance, which cannot be below 0 and may be wrong.
#[test]
fn a_distance_by_its_own_law() {
    let law = distance(0.4, 0.02, Range::AtLeastZero);
    let (scenes, [evidence, as_it_lies]) =
        scenes(|scene| scene.open(1, P, |apart| law.likelihood(apart, 1.1)).into());
    is_told(
        "E1b",
        &scenes,
        (1.862_279, 0.341_754),
        [0.940_136, 0.825_595, 0.991_337],
    );
    assert!((evidence - 0.376_157).abs() < 3e-3, "{evidence}");
    near("as it lies", as_it_lies, 0.986_69, effective(&scenes));
}

/// E2. With the trial's own seat kept, Q would be 0.349 if opened: far too sure.
#[test]
fn contact_lowers_the_rim_and_the_chance_of_every_size() {
    let (scenes, [evidence, as_it_lies]) = scenes(|scene| scene.touches(1, P, Answer::Yes).into());
    is_told(
        "E2",
        &scenes,
        (1.524_242, 0.391_076),
        [0.649_409, 0.438_439, 0.867_623],
    );
    assert!((evidence - 0.306_033).abs() < 3e-3, "{evidence}");
    near("as it lies", as_it_lies, 0.5721, effective(&scenes));

    let mut own = Scene::new(3);
    own.open_in(
        P,
        |apart| TOUCHES.likelihood(apart, Answer::Yes),
        |draw| draw..draw + 1,
    );
    let Chance { value, error } = own.if_opened(P);
    let fresh = 0.649_409;
    assert!(value < fresh - 10.0 * error, "{value} ± {error}");
}

/// E3: two trials in their own seats.
#[test]
fn two_trials_speak_one_after_the_other() {
    let (scenes, [evidence, as_it_lies]) = scenes(|scene| {
        let (first, _) = scene.touches(1, Q, Answer::Yes);
        let (second, as_it_lies) = scene.touches(2, P, Answer::No);
        [first * second, as_it_lies]
    });
    is_told(
        "E3",
        &scenes,
        (1.635_119, 0.364_308),
        [0.778_132, 0.570_492, 0.939_707],
    );
    assert!((evidence - 0.254_278).abs() < 3e-3);
    near("as it lies", as_it_lies, 0.8324, effective(&scenes));
}

/// E4: a distance of 0, which the law takes as anything at or below.
#[test]
fn a_distance_of_nothing_is_censored() {
    let law = distance(0.3, 0.02, Range::AtLeastZero);
    let (scenes, [evidence, as_it_lies]) =
        scenes(|scene| scene.open(1, P, |apart| law.likelihood(apart, 0.0)).into());
    is_told("E4", &scenes, (1.4262, 0.3566), [0.5570, 0.3257, 0.8245]);
    assert!((evidence - 0.2492).abs() < 3e-3, "{evidence}");
    near("as it lies", as_it_lies, 0.427, effective(&scenes));
}

/// E8: what the readings hardly allow, and what a second look makes of it.
#[test]
fn an_outlier_lets_go() {
    let mut scene = Scene::new(9);
    let law = distance(0.3, 0.02, Range::AtLeastZero);
    let fresh = ExchangedSeats::new(scene.per_block, 1).expect("a trial");
    let mut above = 0.0;
    for draw in 0..DRAWS {
        for seat in fresh.of(draw) {
            above += law.faultless().tails(scene.clear(draw, seat, P), 3.0)[1];
        }
    }
    let tail = 2.0 * above / (16.0 * DRAWS as f64);
    assert!((tail - 0.000_527).abs() < 3e-5, "{tail}");
    let both = |apart: f64| law.likelihood(apart, 3.0) * TOUCHES.likelihood(apart, Answer::Yes);
    scene.open(1, P, both);
    let (mean, sd) = scene.rim();
    let error = sd / scene.weights.effective_draws().sqrt();
    assert!((mean - 1.8108).abs() < 3.0 * error, "{mean} ± {error}");
    assert!((sd - 0.5733).abs() < 6.0 * error, "{sd}");
}

/// What moved is told from what did not: the rim falls after contact, what nothing saw
/// stays.
#[test]
fn only_what_moved_is_told() {
    let mut scene = Scene::new(3);
    scene.touches(1, P, Answer::Yes);
    let weights = scene.weights.weights().expect("weights");
    let before = Weights::uniform(DRAWS);
    let rim = Shift::between(&scene.rims, &before, &weights, false).expect("a shift");
    assert!(rim.is_told(2.36) && (rim.by + 0.17).abs() < 0.02, "{rim:?}");
    let unseen = deviates(DRAWS, 7, 3);
    let other = Shift::between(&unseen, &before, &weights, false).expect("a shift");
    assert!(other.by.abs() < 0.02, "{other:?}");
}
