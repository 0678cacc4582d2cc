//! The nominal places of a size, and the worst of them for each check.
//!
//! Where the rotation of the defect was not read, any is as likely, and none may
//! be taken as read: the nominal value of a check is the one at the rotation that is
//! worst for it.

use crate::measure::Situation;
use crate::rotation::{STEP, within_half_a_turn};
use crate::{Anatomy, Row, Setting, Size};
use geometry::{Radians, Seat};
use measurement::{Quantity, Values};
use std::borrow::Cow;
use std::cmp::Ordering;

/// Within how many degrees the worst rotation is found between them, where a value
/// has one worst there.
const ACCURACY: f64 = 0.5;
/// The change of a value, in units of its check's scale, from which a rotation is
/// said to move it: half of what one decimal shows.
const MOVES: f64 = 0.05;

/// The nominal places of a size at one turn: one for each rotation looked at, or
/// the only one.
pub(crate) struct Placements<'a> {
    setting: &'a Setting,
    size: &'a Size,
    turn: Radians,
    values: Cow<'a, Values>,
    places: Vec<Placement<'a>>,
}

/// An anatomy and every place the size may take in it.
pub(crate) struct Placement<'a> {
    rotation: Option<f64>,
    anatomy: Cow<'a, Anatomy>,
    seat: Seat,
}

/// The worst value of a check over the rotations.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Worst {
    pub(crate) value: f64,
    /// The rotation in degrees; `None` where it was read or does not move the value.
    pub(crate) rotation: Option<f64>,
}

impl<'a> Placements<'a> {
    /// The places in the anatomy as read.
    pub(crate) fn as_read(setting: &'a Setting, size: &'a Size, turn: Radians) -> Self {
        let places = match setting.rotated() {
            [] => vec![(None, setting.anatomy())],
            all => all.iter().map(|(at, one)| (Some(*at), one)).collect(),
        };
        Self {
            places: places
                .into_iter()
                .map(|(rotation, anatomy)| Placement {
                    rotation,
                    seat: seat(size, anatomy, turn),
                    anatomy: Cow::Borrowed(anatomy),
                })
                .collect(),
            values: Cow::Borrowed(setting.as_read()),
            setting,
            size,
            turn,
        }
    }

    /// The places where some values are other than read.
    pub(crate) fn at(setting: &'a Setting, size: &'a Size, turn: Radians, values: Values) -> Self {
        let mut places = Self {
            setting,
            size,
            turn,
            values: Cow::Owned(values),
            places: Vec::new(),
        };
        let grid: Vec<Option<f64>> = match setting.rotated() {
            [] => vec![None],
            all => all.iter().map(|(at, _)| Some(*at)).collect(),
        };
        places.places = grid.into_iter().map(|at| places.placed(at)).collect();
        places
    }

    pub(crate) const fn setting(&self) -> &'a Setting {
        self.setting
    }

    /// The place at a rotation in degrees, or as the values have it.
    fn placed(&self, rotation: Option<f64>) -> Placement<'a> {
        let mut values = Cow::Borrowed(&*self.values);
        if let Some(degrees) = rotation {
            values.to_mut().set(Quantity::DEFECT_ROTATION, degrees);
        }
        let anatomy = self.setting.plan().anatomy(&values);
        Placement {
            rotation,
            seat: seat(self.size, &anatomy, self.turn),
            anatomy: Cow::Owned(anatomy),
        }
    }

    /// The value of a row at the worst of the rotations that are looked at first:
    /// enough to choose between turns.
    pub(crate) fn roughly_worst(&self, row: &Row) -> f64 {
        worst_of(row, &self.values_of_grid(row)).1
    }

    /// The value of a row at each rotation looked at first; one where none moves it.
    fn values_of_grid(&self, row: &Row) -> Vec<f64> {
        self.of_grid(row, 0).map(|(_, value)| value).collect()
    }

    /// The same one by one from a rotation on, with its place in the grid, round to the
    /// one before it.
    pub(crate) fn of_grid(&self, row: &Row, first: usize) -> impl Iterator<Item = (usize, f64)> {
        let all = if is_moved(row) { self.places.len() } else { 1 };
        let places = (0..all).map(move |step| (first + step) % all);
        places.map(move |place| (place, self.value(&self.places[place], row)))
    }

    /// The value of a row at the rotation that is worst for it.
    pub(crate) fn worst(&self, row: &Row) -> Worst {
        let values = self.values_of_grid(row);
        let (index, value) = worst_of(row, &values);
        let moves = MOVES * row.check.about().scale;
        let is_moved = values.iter().any(|other| (other - value).abs() > moves);
        match self.places[index].rotation.filter(|_| is_moved) {
            Some(from) => self.refined(row, from, value),
            None => Worst {
                value,
                rotation: None,
            },
        }
    }

    /// The worst value within a step of a rotation, by golden sections.
    fn refined(&self, row: &Row, from: f64, value: f64) -> Worst {
        const GOLDEN: f64 = 0.618_033_988_749_895;
        let at = |degrees| self.value(&self.placed(Some(degrees)), row);
        let mut worst = (from, value);
        let (mut low, mut high) = (from - f64::from(STEP), from + f64::from(STEP));
        let ends = |low: f64, high: f64| {
            let part = GOLDEN * (high - low);
            [high - part, low + part]
        };
        let mut inner = ends(low, high).map(|degrees| (degrees, at(degrees)));
        while high - low > ACCURACY {
            let [left, right] = inner;
            for one in inner {
                if worse(row, one.1, worst.1) == Ordering::Less {
                    worst = one;
                }
            }
            if worse(row, left.1, right.1) == Ordering::Less {
                high = right.0;
                let next = ends(low, high)[0];
                inner = [(next, at(next)), left];
            } else {
                low = left.0;
                let next = ends(low, high)[1];
                inner = [right, (next, at(next))];
            }
        }
        Worst {
            value: worst.1,
            rotation: Some(within_half_a_turn(worst.0)),
        }
    }

    fn value(&self, place: &Placement, row: &Row) -> f64 {
        row.measure.value(&self.situation(place))
    }

    fn situation<'b>(&'b self, place: &'b Placement) -> Situation<'b> {
        Situation {
            setting: self.setting,
            size: self.size,
            anatomy: &place.anatomy,
            seat: &place.seat,
        }
    }

    /// What a check says of a value found at a rotation.
    pub(crate) fn says(&self, row: &Row, worst: Worst) -> String {
        let Some(rotation) = worst.rotation else {
            return row
                .check
                .says(row.of, &self.situation(&self.places[0]), worst.value);
        };
        let place = self.placed(Some(rotation));
        let says = row.check.says(row.of, &self.situation(&place), worst.value);
        format!("{says}; the rotation was not measured, and {rotation:.0}° is the worst for this")
    }
}

fn seat(size: &Size, anatomy: &Anatomy, turn: Radians) -> Seat {
    Seat::nominal(
        &size.occluder,
        &anatomy.defect,
        anatomy.left_slack_share,
        turn,
    )
}

/// Which of some values of a row is the worst, the first of equals.
fn worst_of(row: &Row, values: &[f64]) -> (usize, f64) {
    let mut worst = (0, values[0]);
    for (index, &value) in values.iter().enumerate().skip(1) {
        if worse(row, value, worst.1) == Ordering::Less {
            worst = (index, value);
        }
    }
    worst
}

/// Whether the rotation of the defect may move a row.
fn is_moved(row: &Row) -> bool {
    row.needs.contains(&Quantity::DEFECT_ROTATION)
}

/// Less: one value of a row is worse than another, by its state, then by its margin
/// to what stops, then to what calls for caution.
fn worse(row: &Row, one: f64, other: f64) -> Ordering {
    let margin = |band: crate::house_rules::Band, value| band.margin(value).unwrap_or(0.0);
    row.state(other)
        .cmp(&row.state(one))
        .then(margin(row.stop, one).total_cmp(&margin(row.stop, other)))
        .then(margin(row.caution, one).total_cmp(&margin(row.caution, other)))
}
