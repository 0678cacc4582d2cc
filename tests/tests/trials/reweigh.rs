//! What was seen in trials re-weighs the draws of a whole case.

use geometry::Seat;
use measurement::observation::Spread;
use measurement::{
    Answer, Blocks, ExchangedSeats, LogWeights, Modality, ModelError, SEATS, Valve, Weights,
};
use outside::observer::observed;
use outside::page::set;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use outside::stream::Stream;
use sizing::engine::{Engine, Fast};
use sizing::house_rules::{ObservationLaw, Parameter};
use sizing::measure::{Measure, Situation};
use sizing::trial::{
    Cable, CameOfIt, NotCounted, Observation, ObservationKind, Seen, Surprise, Trial, Weighing,
    weigh,
};
use sizing::{Case, Draws, HouseRules, Setting, Size, Subject, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const DRAWS: usize = 4096;
const SIZE: &str = "even-narrow/5.5x2";
const AORTIC: Subject = Subject::Valve(Valve::Aortic);

fn seen(id: &str, what: ObservationKind, of: Subject, seen: Seen) -> Observation {
    Observation {
        id: id.into(),
        what,
        of,
        seen,
        sd: None,
        clock_position: None,
        by: None,
        min: None,
        set_aside: None,
    }
}

fn touches(id: &str, answer: Answer) -> Observation {
    seen(id, ObservationKind::Touches, AORTIC, Seen::Answer(answer))
}

fn trial(id: &str, observations: Vec<Observation>) -> Trial {
    Trial {
        id: id.into(),
        size: SIZE.into(),
        rotation_deg: None,
        opened_min: 10.0,
        closed_min: Some(20.0),
        wire_across: Answer::No,
        cable: Cable::Slack,
        seat_as_modelled: Answer::Yes,
        view: None,
        seen: observations,
        came_of_it: Some(CameOfIt::Recaptured),
        because: None,
        forecast: sizing::trial::Forecasts::default(),
    }
}

fn with(trials: Vec<Trial>) -> Case {
    let mut case = scenario("outlet-infant");
    case.procedure.trials = trials;
    case
}

fn weighed(setting: &Setting) -> Weighing {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let weighed = weigh(setting, &[shipped_catalogue()], DRAWS, 1, &work);
    weighed.expect("trials").expect("nobody cancels it")
}

fn weights(weighing: &Weighing) -> &Weights {
    weighing.draws.as_ref().expect("draws").weights()
}

/// Whether two sets of weights are the same but for a factor.
fn are_alike(one: &Weights, other: &Weights) -> bool {
    let most = |of: &Weights| (0..DRAWS).map(|draw| of.of(draw)).fold(0.0, f64::max);
    let (a, b) = (most(one), most(other));
    (0..DRAWS).all(|draw| (one.of(draw) / a - other.of(draw) / b).abs() < 1e-9)
}

#[test]
fn what_cannot_be_told_and_what_says_nothing_change_no_count() {
    let cannot = set(with(vec![trial(
        "t1",
        vec![touches("s1", Answer::Unknown)],
    )]));
    let weighing = weighed(&cannot);
    assert!(!weighing.any_counted && weighing.effective == 4096.0);
    assert!(weighing.shifts.is_empty() && weighing.holds().is_empty());
    assert_eq!(
        weighing.trials[0].seen[0].counted,
        Err(NotCounted::CannotTell)
    );

    // An observer whose yes is as likely without contact as with it.
    let mut rules = shipped_rules();
    for row in &mut rules.observations {
        if let ObservationLaw::Answer(law) = &mut row.law {
            law.false_yes = law.hit;
        }
    }
    let blind = |trials| {
        let (case, rules) = (Arc::new(with(trials)), Arc::new(rules.clone()));
        Arc::new(files::setting(case, rules, None))
    };
    let setting = blind(vec![trial("t1", vec![touches("s1", Answer::Yes)])]);
    let weighing = weighed(&setting);
    assert!(weighing.any_counted && weighing.shifts.is_empty());
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let ranked = |setting: &Arc<Setting>, draws: Draws| {
        let counter = Fast.prepare(draws);
        let list = rank(setting, &[shipped_catalogue()], Some(&*counter), &work);
        list.expect("nobody cancels it").candidates
    };
    let before = ranked(
        &blind(Vec::new()),
        Draws::new(&setting, DRAWS, 1).expect("draws"),
    );
    let after = ranked(&setting, weighing.draws.expect("draws"));
    for (before, after) in before.iter().zip(&after) {
        assert_eq!(before.name(), after.name());
        let [before, after] = [before, after].map(|one| one.chances.expect("chances").chance);
        assert_eq!(before.value, after.value);
    }
}

/// Contact says that the rim is shorter: every disc loses, the slimmer ones less.
#[test]
fn contact_shortens_the_rim_and_leaves_what_has_nothing_to_do_with_it() {
    let setting = set(with(vec![trial("t1", vec![touches("s1", Answer::Yes)])]));
    let weighing = weighed(&setting);
    let shift = |address: &str| {
        let mut all = weighing.shifts.iter();
        let found = all.find(|(quantity, _)| quantity.address() == address);
        found.map_or(0.0, |(_, by)| *by)
    };
    let rim = weighing.shifts.iter().find(|(quantity, _)| {
        quantity.info().structure == measurement::Structure::Valve(Valve::Aortic)
            && quantity.unit().symbol() == "mm"
            && quantity.info().feature == measurement::Feature::Rim
    });
    assert!(
        rim.is_some_and(|(_, by)| *by < -0.02),
        "{:?}",
        weighing.shifts
    );
    assert_eq!(shift("patient.weight"), 0.0);
    assert!((2000.0..4096.0).contains(&weighing.effective));
    let share = weighing.trials[0].as_it_lies.expect("some agree");
    assert!((0.3..0.7).contains(&share), "{share}");
}

/// By hand, from the public parts: the mean over the sixteen seats that another group
/// lends, and no seat of the draw's own.
#[test]
fn weights_are_those_of_the_sixteen_lent_seats() {
    let setting = set(with(vec![trial("t1", vec![touches("s1", Answer::Yes)])]));
    let weighing = weighed(&setting);
    let scene = Scene::new(&setting);
    let law = law_of(setting.rules(), ObservationKind::Touches);
    let lent = scene.weights(
        |draw| scene.lent(draw),
        |clear| law.likelihood(clear, Seen::Answer(Answer::Yes)),
    );
    assert!(are_alike(weights(&weighing), &lent));
    let own = scene.weights(
        |draw| draw..draw + 1,
        |clear| law.likelihood(clear, Seen::Answer(Answer::Yes)),
    );
    assert!(!are_alike(weights(&weighing), &own));
}

/// Where a house takes the model to be wrong a gradient teaches that, and the rim stays.
#[test]
fn a_gradient_teaches_the_models_error() {
    let mut rules = shipped_rules();
    for row in &mut rules.model_errors {
        row.sd = 0.2;
    }
    let case = Arc::new(scenario("gradient-only"));
    let setting = files::setting(case, Arc::new(rules), None);
    let weighing = weighed(&setting);
    let mut errors = weighing.error_shifts.iter();
    let of_gradient = errors.find(|(error, _)| *error == ModelError::GradientLeft);
    assert!(
        of_gradient.is_some_and(|(_, by)| *by > 0.05),
        "{:?}",
        weighing.error_shifts
    );
    // What little a rim shares with the defect's axes, read on one image, is all it moves.
    let mut rims = weighing
        .shifts
        .iter()
        .filter(|(quantity, _)| quantity.info().feature == measurement::Feature::Rim);
    assert!(rims.all(|(_, by)| by.abs() < 0.05), "{:?}", weighing.shifts);
    // Without doubt of the model there is nothing to learn of it.
    assert!(
        weighed(&set(scenario("gradient-only")))
            .error_shifts
            .is_empty()
    );
}

#[test]
fn what_does_not_count_says_why() {
    let reason = |change: &dyn Fn(&mut Trial)| {
        let mut one = trial("t1", vec![touches("s1", Answer::Yes)]);
        change(&mut one);
        let weighing = weighed(&set(with(vec![one])));
        weighing.trials[0].seen[0].counted.clone().err()
    };
    assert_eq!(reason(&|_| {}), None);
    assert_eq!(
        reason(&|it| it.cable = Cable::Taut),
        Some(NotCounted::Pulled)
    );
    assert_eq!(
        reason(&|it| it.wire_across = Answer::Yes),
        Some(NotCounted::Pulled)
    );
    assert_eq!(
        reason(&|it| it.seat_as_modelled = Answer::No),
        Some(NotCounted::OtherSeat)
    );
    let aside = reason(&|it| it.seen[0].set_aside = Some("a slip".into()));
    assert_eq!(aside, Some(NotCounted::SetAside("a slip".into())));
    let slips = Seen::Answer(Answer::Yes);
    let slips = seen("s2", ObservationKind::Slips, Subject::Shape, slips);
    assert_eq!(
        reason(&|it| it.seen.push(slips.clone())),
        Some(NotCounted::Slipped)
    );
    assert_eq!(
        reason(&|it| it.seen.push(touches("s2", Answer::No))),
        Some(NotCounted::Twice)
    );
    let distance = seen("s2", ObservationKind::Distance, AORTIC, Seen::Value(0.0));
    assert_eq!(
        reason(&|it| it.seen.push(distance.clone())),
        Some(NotCounted::Twice)
    );
    let jet = seen(
        "s0",
        ObservationKind::WeaveJet,
        Subject::Shape,
        Seen::Answer(Answer::Yes),
    );
    assert_eq!(
        reason(&|it| it.seen.insert(0, jet.clone())),
        Some(NotCounted::SaysNothing)
    );
}

/// A value that the readings hardly allow is a conflict; an answer only once it is seen
/// twice.
#[test]
fn a_conflict_is_said_and_holds_until_someone_decides() {
    let far = |id: &str| seen(id, ObservationKind::Distance, AORTIC, Seen::Value(4.5));
    let setting = set(with(vec![trial("t1", vec![far("s1")])]));
    let weighing = weighed(&setting);
    let conflict = weighing.trials[0].seen[0]
        .counted
        .as_ref()
        .expect("it counts");
    assert_eq!(conflict.surprise, Some(Surprise::Conflict), "{conflict:?}");
    assert!(conflict.says.contains("rim"), "{}", conflict.says);
    let held = weighing.holds();
    assert!(held.contains(&conflict.sentence()));
    let believed = weighing.believed(&setting);
    assert_eq!(believed.held_by_trials(), held.as_slice());

    let mut aside = far("s1");
    aside.set_aside = Some("seen off its axis".into());
    assert!(
        weighed(&set(with(vec![trial("t1", vec![aside])])))
            .holds()
            .is_empty()
    );

    // An answer alone asks for a second look; by another eye it is a conflict. A waist
    // narrower than the defect leaves its discs flat.
    let narrow = |id: &str, seen| Trial {
        size: "even-narrow/4x2".into(),
        ..trial(id, seen)
    };
    let misshapen = |id: &str, by| Observation {
        by: Some(by),
        ..seen(
            id,
            ObservationKind::Misshapen,
            Subject::Shape,
            Seen::Answer(Answer::Yes),
        )
    };
    let once = vec![misshapen("s1", Modality::Angiography)];
    let surprise = |trials| {
        let weighing = weighed(&set(with(trials)));
        let seen = weighing.trials[0].seen[0].counted.clone();
        (
            seen.ok().and_then(|one| one.surprise),
            weighing.holds().is_empty(),
        )
    };
    let alone = surprise(vec![narrow("t1", once.clone())]);
    assert_eq!(alone, (Some(Surprise::LookAgain), true));
    let mut again = narrow("t2", vec![misshapen("s2", Modality::TransoesophagealEcho)]);
    again.opened_min = 30.0;
    again.closed_min = Some(40.0);
    let twice = surprise(vec![narrow("t1", once), again]);
    assert_eq!(twice, (Some(Surprise::Conflict), false));
}

#[test]
fn too_few_draws_are_refused() {
    let setting = set(with(vec![trial("t1", Vec::new())]));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 1,
        cancel: &never,
    };
    let refused = weigh(&setting, &[shipped_catalogue()], 2048, 1, &work);
    let says = refused.expect_err("too few").to_string();
    assert_eq!(
        says,
        "2048 draws: with trials at least 4096 are needed, or 0"
    );
}

/// One size over the draws of a case, its clearance from the aortic valve in every pair
/// of draw and seat that is asked for.
struct Scene<'a> {
    setting: &'a Setting,
    draws: Draws,
    size: Size,
    fresh: ExchangedSeats,
}

impl<'a> Scene<'a> {
    fn new(setting: &'a Setting) -> Self {
        let catalogue = shipped_catalogue();
        let mut sizes = catalogue.shapes.iter().flat_map(|shape| {
            let sizes = shape.sizes.iter();
            sizes.map(move |size| (format!("{}/{}", shape.id, size.label), size))
        });
        let (_, size) = sizes.find(|(name, _)| name == SIZE).expect("a size");
        Self {
            setting,
            draws: Draws::new(setting, DRAWS, 1).expect("draws"),
            size: size.clone(),
            fresh: ExchangedSeats::new(DRAWS / Blocks::COUNT, 1).expect("a trial"),
        }
    }

    fn lent(&self, draw: usize) -> std::ops::Range<usize> {
        self.fresh.of(draw)
    }

    fn clear(&self, draw: usize, seat: usize) -> f64 {
        self.clear_in(&self.draws, draw, seat)
    }

    /// The clearance in the anatomy of one draw and the seat of another.
    fn clear_in(&self, draws: &Draws, draw: usize, seat: usize) -> f64 {
        let anatomy = draws.anatomy(draw);
        let (occluder, defect) = (&self.size.occluder, &anatomy.defect);
        let drawn = &draws.seat(seat);
        let seat = Seat::drawn(occluder, defect, anatomy.left_slack_share, 0.0, drawn);
        Measure::Clearance(Valve::Aortic).value(&Situation {
            setting: self.setting,
            size: &self.size,
            anatomy: &anatomy,
            seat: &seat,
        })
    }

    fn weights(
        &self,
        seats: impl Fn(usize) -> std::ops::Range<usize>,
        law: impl Fn(f64) -> f64,
    ) -> Weights {
        let mut weights = LogWeights::uniform(DRAWS);
        let each = (0..DRAWS).map(|draw| {
            let seats = seats(draw);
            let count = seats.len() as f64;
            seats.map(|seat| law(self.clear(draw, seat))).sum::<f64>() / count
        });
        weights.multiply(&each.collect::<Vec<f64>>());
        weights.weights().expect("weights")
    }
}

fn law_of(rules: &HouseRules, what: ObservationKind) -> ObservationLaw {
    let mut rows = rules.observations.iter();
    rows.find(|row| row.what == what).expect("a law").law
}

/// Simulation-based calibration (Talts 2018, arXiv 1804.06788): of truths drawn from
/// what was believed before, with an observation made of each by its law, the truth's
/// rank among what is believed after is uniform. Of the rim, and of the clearance if the
/// size is opened again in a fresh seat. With the trial's own seat kept it is not.
#[test]
fn what_is_believed_after_a_trial_is_calibrated() {
    const TRUTHS: usize = 1000;
    let mut rules = shipped_rules();
    // Seats that differ much, and a sharp eye: so keeping one's own seat is seen.
    rules.parameters[Parameter::TiltSd.index()].value = 40.0;
    let setting = Setting::new(Arc::new(scenario("outlet-infant")), Arc::new(rules));
    let ObservationLaw::Value(mut law) = law_of(setting.rules(), ObservationKind::Distance) else {
        panic!("a distance is a value");
    };
    (law.sd, law.own) = (Spread::constant(0.1), Spread::constant(0.1));
    let scene = Scene::new(&setting);
    let anew: Vec<f64> = (0..DRAWS).map(|draw| scene.clear(draw, draw)).collect();
    let lent: Vec<f64> = (0..DRAWS)
        .flat_map(|draw| scene.lent(draw).map(move |seat| (draw, seat)))
        .map(|(draw, seat)| scene.clear(draw, seat))
        .collect();
    let rims: Vec<f64> = (0..DRAWS)
        .map(|draw| scene.draws.anatomy(draw).rims[Valve::Aortic].expect("a rim"))
        .collect();
    // Truths from draws of another seed.
    let truths = Draws::new(&setting, 8192, 77).expect("draws");
    let truth_in = |draw: usize, seat: usize| scene.clear_in(&truths, draw, seat);
    let mut stream = Stream(5);
    let mut bins = [[0_u32; 20]; 3];
    for _ in 0..TRUTHS {
        let (truth, trial, fresh) = (stream.place(8192), stream.place(8192), stream.place(8192));
        let seen = observed(&law, truth_in(truth, trial), &mut stream);
        let weights = |values: &[f64], seats: usize| {
            let likelihoods = values.chunks(seats).map(|some| {
                let each = some.iter().map(|clear| law.likelihood(*clear, seen));
                each.sum::<f64>() / seats as f64
            });
            outside::weighed::weighed(likelihoods)
        };
        let (of_lent, of_own) = (weights(&lent, SEATS), weights(&anew, 1));
        let rim = truths.anatomy(truth).rims[Valve::Aortic].expect("a rim");
        let again = truth_in(truth, fresh);
        for (bins, (values, truth, weights)) in bins.iter_mut().zip([
            (&rims, rim, &of_lent),
            (&anew, again, &of_lent),
            (&anew, again, &of_own),
        ]) {
            let rank = rank_of(truth, values, weights);
            let bin = (1..20).take_while(|&next| f64::from(next) <= 20.0 * rank);
            bins[bin.count()] += 1;
        }
    }
    let [rim, clearance, with_own] = bins.map(|bins| {
        let expected = TRUTHS as f64 / 20.0;
        let each = bins
            .iter()
            .map(|&count| (f64::from(count) - expected).powi(2) / expected);
        each.sum::<f64>()
    });
    println!("χ² of 19: rim {rim:.1}, clearance {clearance:.1}, own seats {with_own:.1}");
    // p > 0.001: 43.82.
    assert!(rim < 43.8 && clearance < 43.8, "{rim} {clearance}");
    assert!(with_own > 43.8, "own seats passed: {with_own}");
}

/// The share of the weight that lies under a truth.
fn rank_of(truth: f64, values: &[f64], weights: &Weights) -> f64 {
    let (mut under, mut all) = (0.0, 0.0);
    for (draw, value) in values.iter().enumerate() {
        let weight = weights.of(draw);
        all += weight;
        under += if *value < truth { weight } else { 0.0 };
    }
    under / all
}
