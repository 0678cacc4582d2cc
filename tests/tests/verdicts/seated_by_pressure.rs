//! The disc that the pressure seats is chosen in each draw, by the pressures drawn.

#![expect(clippy::expect_used, reason = "what fails here fails the test")]

use outside::sample::{reading, scenario, shipped_rules, shipped_sizes};
use sizing::engine::{Counts, Engine, Fast, Plain, Question};
use sizing::{Case, Draws, Setting};
use sizing::{Row, rows};
use std::sync::Arc;

const DRAWS: usize = 512;

/// The demonstration case with systolic pressures of 80 mmHg on the left and one on
/// the right, both read to 5 mmHg.
fn with_right_pressure(right: f64) -> Case {
    let mut case = scenario("outlet-infant");
    for (address, value) in [
        ("left_ventricle.systolic", 80.0),
        ("right_ventricle.systolic", right),
    ] {
        let pressure = reading(address, value, 5.0);
        case.readings
            .retain(|known| known.quantity != pressure.quantity);
        case.readings.push(pressure);
    }
    case
}

/// The chance of each row's stop and caution, for every third shipped size.
fn chances(right: f64) -> Vec<f64> {
    let setting = Setting::new(
        Arc::new(with_right_pressure(right)),
        Arc::new(shipped_rules()),
    );
    let draws = Draws::new(&setting, DRAWS, 1).expect("draws");
    let (plain, fast) = (Plain.prepare(draws.clone()), Fast.prepare(draws));
    let mut chances = Vec::new();
    for size in shipped_sizes().iter().step_by(3) {
        let asked: Vec<Row> = rows(&setting, &size.occluder);
        let question = Question {
            setting: &setting,
            size,
            turn: 0.0,
            rows: &asked,
        };
        let counts: Counts = plain.count(&question);
        assert_eq!(fast.count(&question), counts, "{}", size.label);
        let chance = |shares: measurement::BlockShares| shares.chance(DRAWS as f64).value;
        for shares in counts.rows.iter().flatten() {
            chances.extend([chance(shares.stop), chance(shares.caution)]);
        }
    }
    chances
}

/// A hair between the pressures as read, far under their doubt, moves next to no
/// draw to the other side: no chance may jump.
#[test]
fn no_chance_jumps_where_the_pressures_are_about_equal() {
    let (under, over) = (chances(79.999), chances(80.001));
    assert_eq!(under.len(), over.len());
    let jump = under
        .iter()
        .zip(&over)
        .map(|(one, other)| (one - other).abs());
    let most = jump.fold(0.0, f64::max);
    assert!(most < 0.01, "a chance jumps by {most}");
}

/// Where the right pressure is far under the left in every draw, and where it is
/// far over it, the chances do differ.
#[test]
fn the_pressures_do_matter() {
    let (low, high) = (chances(30.0), chances(130.0));
    let moved = low
        .iter()
        .zip(&high)
        .map(|(one, other)| (one - other).abs());
    assert!(moved.fold(0.0, f64::max) > 0.05);
}
