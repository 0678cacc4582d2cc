use crate::placements::Placements;
use crate::{Row, Setting, Size, State};
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
    let mut rows: Vec<&Row> = rows.iter().filter(|row| row.is_assessed()).collect();
    let mut best = (0.0, Standing::of(setting, size, 0.0, &rows));
    for step in 1..360 / STEP {
        let turn = degrees(f64::from(step * STEP));
        if let Some(better) = Standing::better(setting, size, turn, &mut rows, &best.1) {
            best = (turn, better);
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
    /// Before any check is looked at.
    const UNHELD: Self = Self {
        worst: State::Ok,
        margin: f64::INFINITY,
    };

    fn of(setting: &Setting, size: &Size, turn: Radians, rows: &[&Row]) -> Self {
        let places = Placements::as_read(setting, size, turn);
        let mut standing = Self::UNHELD;
        for row in rows {
            standing.hold(&places, row);
        }
        standing
    }

    /// The standing at a turn if it is better than another. A check never betters
    /// it: it is given up at the first that leaves it no better, and that check
    /// comes first from then on.
    fn better(
        setting: &Setting,
        size: &Size,
        turn: Radians,
        rows: &mut [&Row],
        than: &Self,
    ) -> Option<Self> {
        let places = Placements::as_read(setting, size, turn);
        let mut standing = Self::UNHELD;
        for place in 0..rows.len() {
            standing.hold(&places, rows[place]);
            if !standing.is_better_than(than) {
                rows[..=place].rotate_right(1);
                return None;
            }
        }
        standing.is_better_than(than).then_some(standing)
    }

    /// Holds it against one more check.
    fn hold(&mut self, places: &Placements, row: &Row) {
        let value = places.roughly_worst(row);
        self.worst = self.worst.max(row.state(value));
        if let Some(margin) = row.stop.margin(value) {
            self.margin = self.margin.min(margin / row.check.about().scale);
        }
    }

    fn is_better_than(&self, other: &Self) -> bool {
        self.worst < other.worst || (self.worst == other.worst && self.margin > other.margin)
    }
}

/// Every place a size may take in the anatomy as read.
pub fn nominal_seat(setting: &Setting, size: &Size, turn: Radians) -> Seat {
    let anatomy = setting.anatomy();
    let most_left = anatomy.left_slack_share;
    Seat::nominal(&size.occluder, &anatomy.defect, most_left, turn)
}
