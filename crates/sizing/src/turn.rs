use crate::check::{Nominal, Row};
use crate::outcome::{State, nominal_value, state};
use crate::{Setting, Size};
use geometry::{Radians, Seat, degrees};

/// Degrees between the turns that are tried.
const STEP: u16 = 15;

/// How the turn of a size is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turn {
    /// The best of those that are tried.
    Best,
    /// By hand: this one.
    ByHand(Radians),
}

/// The turn at which a size is set down: of 0°, 15° … 345° the best at the values
/// as read, the lowest on a tie. A shape whose discs are all on its axis has
/// only one.
pub(crate) fn best_turn(setting: &Setting, size: &Size, rows: &[Row]) -> Radians {
    if !size.occluder.is_offset() {
        return 0.0;
    }
    let turns = (0..360 / STEP).map(|step| degrees(f64::from(step * STEP)));
    let mut best = (0.0, Standing::of(setting, size, 0.0, rows));
    for turn in turns.skip(1) {
        let standing = Standing::of(setting, size, turn, rows);
        if standing.is_better_than(&best.1) {
            best = (turn, standing);
        }
    }
    best.0
}

/// How a size stands at one turn: the ranking's own order without its chances.
struct Standing {
    worst: State,
    margin: f64,
}

impl Standing {
    fn of(setting: &Setting, size: &Size, turn: Radians, rows: &[Row]) -> Self {
        let seat = nominal_seat(setting, size, turn);
        let nominal = Nominal {
            setting,
            size,
            seat: &seat,
        };
        let mut standing = Self {
            worst: State::Ok,
            margin: f64::INFINITY,
        };
        for row in rows.iter().filter(|row| row.is_assessed()) {
            let value = nominal_value(&nominal, row);
            standing.worst = standing.worst.max(state(row, value));
            if let Some(margin) = row.stop.margin(value) {
                standing.margin = standing.margin.min(margin / row.check.about().scale);
            }
        }
        standing
    }

    fn is_better_than(&self, other: &Self) -> bool {
        self.worst < other.worst || (self.worst == other.worst && self.margin > other.margin)
    }
}

/// Every place a size may take in the anatomy as read.
pub fn nominal_seat(setting: &Setting, size: &Size, turn: Radians) -> Seat {
    let defect = &setting.anatomy().defect;
    Seat::nominal(&size.occluder, defect, setting.left_slack_share(), turn)
}
