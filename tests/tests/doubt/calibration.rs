//! A chance means what it says: of all the times a chance of 70 % is stated, the
//! limits hold in 70 of 100.
//!
//! Truths are drawn from a flat prior, readings about them with the doubt they
//! state; under a flat prior that doubt about the reading is what is left to be
//! believed of the truth (JCGM 101, 6.4 and its note on Bayes' theorem; Gelman et
//! al., Bayesian Data Analysis, 3rd ed., 2.4 and 2.9, from memory).

#![expect(clippy::expect_used, reason = "what fails here fails the test")]

use measurement::{Modality, Quantity, Site};
use outside::sample::{case, reading, shipped_rules, shipped_sizes};
use outside::stream::Stream;
use sizing::engine::{Engine, Fast, Question};
use sizing::rows;
use sizing::{Case, Draws, HouseRules, Neighbour, Setting, Size, resolve};
use std::sync::Arc;

/// What is in doubt: its range and the standard deviation of a reading.
const DOUBTED: [(&str, [f64; 2], f64); 5] = [
    ("defect.long_axis", [1.5, 12.0], 0.4),
    ("defect.short_axis", [1.5, 12.0], 0.4),
    ("wall.thickness", [0.5, 12.0], 0.5),
    ("aortic.rim", [0.0, 10.0], 0.5),
    ("aortic.annulus_angle", [30.0, 150.0], 8.0),
];

/// What is known.
const KNOWN: [(&str, f64); 18] = [
    ("defect.rotation", 20.0),
    ("aortic.clock_position", 0.0),
    ("aortic.diameter", 9.0),
    ("aortic.diameter_across", 8.5),
    ("aortic.cusp_depth", 0.3),
    ("tricuspid.clock_position", 100.0),
    ("tricuspid.diameter", 14.0),
    ("tricuspid.diameter_across", 12.0),
    ("tricuspid.annulus_angle", 90.0),
    ("tricuspid.cusp_depth", 0.5),
    ("tricuspid.leaflet", 9.0),
    ("tricuspid.rim", 4.0),
    ("left_outflow.depth", 12.0),
    ("left_outflow.width", 12.0),
    ("left_outflow.velocity", 1.0),
    ("left_ventricle.length", 30.0),
    ("right_ventricle.length", 26.0),
    ("vein.diameter", 5.0),
];

/// A doubt that is none.
const SURE: f64 = 1e-9;

/// Standard deviations that a reading must keep from the ends of the prior: there
/// the prior is not flat.
const FROM_ENDS: f64 = 3.0;

/// Two standard normal deviates (Box and Muller, Ann. Math. Stat. 29, 1958).
fn deviates(stream: &mut Stream) -> [f64; 2] {
    let out = (-2.0 * (1.0 - stream.number()).ln()).sqrt();
    let (sin, cos) = (std::f64::consts::TAU * stream.number()).sin_cos();
    [out * cos, out * sin]
}

fn case_of(values: &[f64], doubt: impl Fn(f64) -> f64) -> Case {
    let doubted = DOUBTED.iter().zip(values);
    let mut readings: Vec<_> = doubted
        .map(|((address, _, sd), value)| reading(address, *value, doubt(*sd)))
        .collect();
    readings.extend(KNOWN.map(|(address, value)| reading(address, value, SURE)));
    readings.push(reading("patient.weight", 8.0, SURE));
    let mut case = case(Site::CentralPerimembranous, readings);
    for absent in ["mitral_valve", "pulmonary_valve", "right_outflow"] {
        let all = Neighbour::ALL.into_iter();
        case.absent.extend(all.filter(|one| one.name() == absent));
    }
    case
}

/// The draws of a case in which a size breaks no stop.
fn holds(case: Case, rules: &Arc<HouseRules>, size: &Size, draws: usize, seed: u64) -> Vec<bool> {
    let setting = Setting::new(Arc::new(case), Arc::clone(rules));
    let rows = rows(&setting, &size.occluder);
    let drawn = Draws::new(&setting, draws, seed).expect("draws");
    let question = Question {
        setting: &setting,
        size,
        turn: 0.0,
        rows: &rows,
    };
    let held = Fast.prepare(drawn).count(&question).holds;
    (0..draws).map(|draw| held.contains(draw)).collect()
}

/// A truth with what was read of it, and a size that is thought of.
struct Trial<'a> {
    seed: u64,
    readings: Vec<f64>,
    truths: [f64; DOUBTED.len()],
    size: &'a Size,
    /// The draw of the truth's seat.
    place: usize,
}

impl Trial<'_> {
    /// The chance that is stated, and whether the limits hold in truth.
    fn answer(&self, rules: &Arc<HouseRules>) -> (f64, bool) {
        let stated = case_of(&self.readings, |sd| sd);
        let stated = holds(stated, rules, self.size, 256, self.seed);
        let chance = stated.iter().filter(|held| **held).count() as f64 / 256.0;
        let seats = holds(
            case_of(&self.truths, |_| SURE),
            rules,
            self.size,
            8,
            self.seed,
        );
        (chance, seats[self.place])
    }
}

/// The answers in the order of the cases, worked out on two threads.
fn answers(cases: &[Trial], rules: &Arc<HouseRules>) -> Vec<(f64, bool)> {
    let all = |part: &[Trial]| -> Vec<_> { part.iter().map(|one| one.answer(rules)).collect() };
    let (first, second) = cases.split_at(cases.len() / 2);
    std::thread::scope(|scope| {
        let second = scope.spawn(|| all(second));
        let mut answers = all(first);
        answers.extend(second.join().expect("no panic"));
        answers
    })
}

/// Stated chances in tenths: how many, how often the limits held, and the mean
/// of what was stated.
fn trials(number: u64, truth: impl Fn(&mut Stream, [f64; 2]) -> f64) -> [(f64, f64, f64); 10] {
    let mut rules = shipped_rules();
    // What is known is known: no modality's scale is in doubt but the echo's.
    let scale = resolve::scales(&rules)
        .into_iter()
        .find(|(modality, _)| *modality == Modality::TransthoracicEcho)
        .map_or(0.0, |(_, sd)| sd);
    rules.title = "for calibration".into();
    let rules = Arc::new(rules);
    let sizes = shipped_sizes();
    let mut stream = Stream(20);
    let mut cases = Vec::new();
    for trial in 0..number {
        let [error, _] = deviates(&mut stream);
        let error = 1.0 + scale * error;
        let truths = DOUBTED.map(|(_, range, _)| truth(&mut stream, range));
        let mut is_inside = true;
        let readings: Vec<f64> = DOUBTED
            .iter()
            .zip(truths)
            .map(|((address, range, sd), truth)| {
                let unit = Quantity::from_address(address).expect("an address").unit();
                let is_length = unit.symbol() == "mm";
                let read = if is_length { truth / error } else { truth };
                let value = read + sd * deviates(&mut stream)[0];
                let room = FROM_ENDS * (sd + scale * value * f64::from(u8::from(is_length)));
                is_inside &= value > range[0] + room && value < range[1] - room;
                value
            })
            .collect();
        if !is_inside {
            continue;
        }
        // A size that someone might think of: what was read may decide it, what is
        // true may not.
        let read = 0.5 * (readings[0] + readings[1]);
        let thought_of: Vec<&Size> = sizes
            .iter()
            .filter(|size| (size.occluder.waist.diameter - read - 1.5).abs() < 1.0)
            .collect();
        if thought_of.is_empty() {
            continue;
        }
        let size = thought_of[stream.place(thought_of.len())];
        cases.push(Trial {
            seed: trial,
            readings,
            truths,
            size,
            // One seat of the eight: chance decides where it comes to lie.
            place: stream.place(8),
        });
    }
    let mut tenths = [(0.0, 0.0, 0.0); 10];
    for (chance, held) in answers(&cases, &rules) {
        let tenth = (1..10).take_while(|&next| f64::from(next) <= 10.0 * chance);
        let tenth = &mut tenths[tenth.count()];
        tenth.0 += 1.0;
        tenth.1 += f64::from(u8::from(held));
        tenth.2 += chance;
    }
    tenths
}

#[test]
fn a_stated_chance_is_the_share_of_times_it_holds() {
    let flat = trials(24_000, |stream, [low, high]| stream.between(low, high));
    println!("flat prior: stated, observed, times");
    for (times, held, stated) in flat {
        let (stated, observed) = (stated / times, held / times);
        println!("{stated:.3} {observed:.3} {times}");
        assert!(times > 40.0, "too few of {stated}");
        let error = (stated * (1.0 - stated) / times).sqrt();
        assert!(
            (observed - stated).abs() < 3.5 * error + 0.02,
            "{observed} of {times} where {stated} was stated"
        );
    }
    // With a prior that knows more than the readings the chances are too modest
    // or too bold, as they must be: shown, not judged.
    let informed = trials(2_000, |stream, [low, high]| {
        0.5 * (low + high) + 0.06 * (high - low) * deviates(stream)[0]
    });
    println!("informative prior, not judged: stated, observed, times");
    for (times, held, stated) in informed {
        println!("{:.3} {:.3} {times}", stated / times, held / times);
    }
}
