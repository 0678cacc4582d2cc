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
    let rows = rows.iter().filter(|row| row.is_assessed());
    let mut asked = Asked {
        rows: rows.collect(),
        rotation: 0,
    };
    let mut best = (0.0, Standing::of(setting, size, 0.0, &asked.rows));
    for step in 1..360 / STEP {
        let turn = degrees(f64::from(step * STEP));
        let places = Placements::as_read(setting, size, turn);
        if let Some(better) = Standing::better(&places, &mut asked, &best.1) {
            best = (turn, better);
        }
    }
    best.0
}

/// What is asked of a turn, what gave up the last one first.
struct Asked<'a> {
    rows: Vec<&'a Row>,
    /// The first rotation to be looked at, by its place in the grid.
    rotation: usize,
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
            standing.hold(row, places.roughly_worst(row));
        }
        standing
    }

    /// The standing at a turn if it is better than another. A check never betters
    /// it, nor does a further rotation: it is given up at the first that leaves it no
    /// better, and that one comes first from then on.
    fn better(places: &Placements, asked: &mut Asked, than: &Self) -> Option<Self> {
        let mut standing = Self::UNHELD;
        for place in 0..asked.rows.len() {
            let row = asked.rows[place];
            let given_up_at = if row.is_worst_at_its_least() {
                let mut values = places.of_grid(row, asked.rotation);
                let worse = values.find(|&(_, value)| {
                    standing.hold(row, value);
                    !standing.is_better_than(than)
                });
                worse.map(|(rotation, _)| rotation)
            } else {
                standing.hold(row, places.roughly_worst(row));
                (!standing.is_better_than(than)).then_some(asked.rotation)
            };
            if let Some(rotation) = given_up_at {
                asked.rows[..=place].rotate_right(1);
                asked.rotation = rotation;
                return None;
            }
        }
        standing.is_better_than(than).then_some(standing)
    }

    /// Holds it against one more value.
    fn hold(&mut self, row: &Row, value: f64) {
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
