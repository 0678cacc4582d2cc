use super::doubt::{Doubt, REACH, accuracy};
use super::moved::{MovedSeat, Probe, Through, acts, jumps};
use super::{BrokenLimit, Change};
use crate::house_rules::Band;
use crate::{Row, State};
use measurement::Quantity;
use std::cell::OnceCell;

/// Places on each side that are looked at one after the other, outward: half a
/// standard deviation apart.
const PLACES: usize = 8;
const STEP: f64 = REACH / PLACES as f64;

/// The places of those eight at which a row is first asked whether it comes near
/// its limits at all.
const ASKED_FIRST: [usize; 2] = [PLACES / 2 - 1, PLACES - 1];

/// A row that keeps this share of its margin at those places is not looked at
/// further.
const KEPT: f64 = 0.5;

/// The two ways from the value as read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Direction {
    Down,
    Up,
}

impl Direction {
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Down => -1.0,
            Self::Up => 1.0,
        }
    }
}

/// The search along one quantity for where the state as read ends.
pub(super) struct Search<'a> {
    probe: &'a Probe<'a>,
    quantity: Quantity,
    doubt: &'a Doubt,
    held: State,
    value: f64,
    moved: Vec<usize>,
    /// Moved rows in the state that holds, all of which would have to leave it.
    holders: Vec<usize>,
    /// Whether a row that the quantity does not move is in that state as well.
    is_held_by_others: bool,
    /// The worst state of the rows that it does not move.
    others: State,
}

impl<'a> Search<'a> {
    pub(super) fn new(
        probe: &'a Probe<'a>,
        quantity: Quantity,
        doubt: &'a Doubt,
        held: State,
        value: f64,
    ) -> Self {
        let moved = match acts(quantity) {
            Through::Anatomy => probe.moved_rows(quantity),
            Through::Limits | Through::Seat => Vec::new(),
        };
        let in_state = |place: &usize| held > State::Ok && probe.as_read[*place] == held;
        let holders: Vec<usize> = moved.iter().copied().filter(in_state).collect();
        let others = (0..probe.rows.len())
            .filter(|place| !moved.contains(place))
            .map(|place| probe.as_read[place])
            .max()
            .unwrap_or(State::Ok);
        Self {
            is_held_by_others: held > State::Ok && others == held,
            probe,
            quantity,
            doubt,
            held,
            value,
            moved,
            holders,
            others,
        }
    }

    /// The first change on one way.
    pub(super) fn change(&self, way: Direction) -> Option<Change> {
        match acts(self.quantity) {
            Through::Anatomy => self.steady_change(way),
            Through::Limits | Through::Seat => self.jump(way),
        }
    }

    /// Within the range that files accept.
    fn accepted(&self, value: f64) -> f64 {
        let info = self.quantity.info();
        value.clamp(info.least, info.most)
    }

    fn place(&self, value: f64) -> MovedSeat<'a> {
        self.probe.place(self.quantity, value)
    }

    fn steady_change(&self, way: Direction) -> Option<Change> {
        let may_improve = !self.holders.is_empty() && !self.is_held_by_others;
        let values: [f64; PLACES] = std::array::from_fn(|index| {
            let out = way.sign() * STEP * (index + 1) as f64;
            self.accepted(self.doubt.at(out))
        });
        let places: [OnceCell<MovedSeat>; PLACES] = std::array::from_fn(|_| OnceCell::new());
        let place = |index: usize| places[index].get_or_init(|| self.place(values[index]));
        let threats: Vec<usize> = self
            .moved
            .iter()
            .copied()
            .filter(|&row| {
                let Some(margin) = self.margin(row, self.probe.values[row]) else {
                    return false;
                };
                let keeps = |&index: &usize| {
                    let value = Probe::value(place(index), &self.probe.rows[row]);
                    self.margin(row, Some(value))
                        .is_some_and(|there| there >= KEPT * margin)
                };
                !ASKED_FIRST.iter().all(keeps)
            })
            .collect();
        if threats.is_empty() && !may_improve {
            return None;
        }
        let mut within = self.value;
        for (index, &value) in values.iter().enumerate() {
            if self.has_changed(place(index), &threats, may_improve) {
                return Some(self.bisect(way, within, value, &threats, may_improve));
            }
            within = value;
        }
        None
    }

    /// How far a row's value lies from what would make the state worse; `None`
    /// where nothing of it would.
    fn margin(&self, row: usize, value: Option<f64>) -> Option<f64> {
        let row = &self.probe.rows[row];
        let to = |band: &Band| value.and_then(|value| band.margin(value));
        match self.held {
            State::Ok => match (to(&row.stop), to(&row.caution)) {
                (Some(stop), Some(caution)) => Some(stop.min(caution)),
                (one, other) => one.or(other),
            },
            State::Caution => to(&row.stop),
            State::Stop | State::NotAssessed => None,
        }
    }

    /// Whether a row's value makes the state worse.
    fn worsens(&self, row: usize, value: f64) -> bool {
        self.margin(row, Some(value))
            .is_none_or(|margin| margin < 0.0 || margin.is_nan())
    }

    fn has_changed(&self, place: &MovedSeat, threats: &[usize], may_improve: bool) -> bool {
        if may_improve {
            let still = |row: &usize| self.probe.state(place, *row) >= self.held;
            // The holders first: most often one of them is enough.
            if !self.holders.iter().any(still) && !self.moved.iter().any(still) {
                return true;
            }
        }
        threats
            .iter()
            .any(|&row| self.worsens(row, Probe::value(place, &self.probe.rows[row])))
    }

    /// Halves the way between a value where the state holds and one where it does
    /// not, until they are as near as the quantity is told apart.
    fn bisect(
        &self,
        way: Direction,
        mut within: f64,
        mut beyond: f64,
        threats: &[usize],
        may_improve: bool,
    ) -> Change {
        while (beyond - within).abs() > accuracy(self.quantity) {
            let middle = 0.5 * (within + beyond);
            if self.has_changed(&self.place(middle), threats, may_improve) {
                beyond = middle;
            } else {
                within = middle;
            }
        }
        self.described(way, within, beyond, threats)
    }

    fn described(&self, way: Direction, within: f64, beyond: f64, threats: &[usize]) -> Change {
        let there = self.place(beyond);
        let worst = threats
            .iter()
            .map(|&row| (row, Probe::value(&there, &self.probe.rows[row])))
            .filter(|&(row, value)| self.worsens(row, value))
            .map(|(row, value)| (&self.probe.rows[row], value))
            .max_by_key(|(row, value)| row.state(*value));
        if let Some((row, value)) = worst {
            return self.changed(way, within, row.state(value), broken(row, value));
        }
        let becomes = self
            .moved
            .iter()
            .map(|&row| self.probe.state(&there, row))
            .max()
            .unwrap_or(State::Ok)
            .max(self.others);
        let here = self.place(within);
        let last = self
            .holders
            .iter()
            .map(|&row| {
                let row = &self.probe.rows[row];
                (row, Probe::value(&here, row))
            })
            .rfind(|(row, value)| row.state(*value) == self.held);
        self.changed(
            way,
            within,
            becomes,
            last.and_then(|(row, value)| broken(row, value)),
        )
    }

    /// The first of a few values at which what counts can change.
    fn jump(&self, way: Direction) -> Option<Change> {
        let sign = way.sign();
        let far = self.accepted(self.doubt.at(sign * REACH));
        let mut at: Vec<f64> = jumps(self.probe.setting, self.quantity)
            .into_iter()
            .filter(|at| sign * (at - self.value) >= 0.0 && sign * (far - at) > 0.0)
            .collect();
        at.sort_by(|one, other| (sign * one).total_cmp(&(sign * other)));
        at.into_iter().find_map(|at| {
            let there = self.place(at + sign * accuracy(self.quantity));
            let (becomes, by) = Probe::worst(&there);
            if becomes == self.held {
                return None;
            }
            let by = match by {
                Some((row, value)) if becomes > self.held => broken(row, value),
                _ => self.held_by(),
            };
            Some(self.changed(way, at, becomes, by))
        })
    }

    /// What is broken as read, the first of the worst.
    fn held_by(&self) -> Option<BrokenLimit> {
        self.probe
            .rows
            .iter()
            .zip(&self.probe.values)
            .filter_map(|(row, value)| Some((row, (*value)?)))
            .find(|(row, value)| row.state(*value) == self.held)
            .and_then(|(row, value)| broken(row, value))
    }

    fn changed(&self, way: Direction, at: f64, becomes: State, by: Option<BrokenLimit>) -> Change {
        let under = self.doubt.under(at);
        Change {
            at,
            becomes,
            by,
            chance: match way {
                Direction::Down => under,
                Direction::Up => 1.0 - under,
            },
        }
    }
}

/// The limit that a row breaks at a value.
pub(super) fn broken(row: &Row, value: f64) -> Option<BrokenLimit> {
    let (severity, band) = match row.state(value) {
        State::Stop => (State::Stop, &row.stop),
        State::Caution => (State::Caution, &row.caution),
        State::Ok | State::NotAssessed => return None,
    };
    Some(BrokenLimit {
        check: row.id(),
        title: row.check.about().title,
        unit: row.check.about().name.unit,
        of: row.of,
        severity,
        limit: band.broken(value)?,
    })
}
