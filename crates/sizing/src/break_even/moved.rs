use crate::house_rules::{Circumstances, Condition};
use crate::placements::Placements;
use crate::resolve::Basis;
use crate::row::rows_under;
use crate::{Row, Setting, Size, State};
use geometry::Radians;
use measurement::{Feature, Quantity, Structure, Values};
use std::borrow::Cow;

/// One size in one case, asked again with one value moved.
pub(super) struct Probe<'a> {
    pub(super) setting: &'a Setting,
    pub(super) size: &'a Size,
    pub(super) turn: Radians,
    pub(super) rows: &'a [Row],
    /// The state of each row as read.
    pub(super) as_read: Vec<State>,
    /// The value of each row as read.
    pub(super) values: Vec<Option<f64>>,
    read: Values,
}

/// Through what a quantity acts on the rows.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Through {
    /// The anatomy: values move steadily.
    Anatomy,
    /// Which limits count.
    Limits,
    /// Which disc the pressure seats.
    Seat,
}

/// The anatomy with one value moved, and the seat in it.
pub(super) struct MovedSeat<'a> {
    rows: Cow<'a, [Row]>,
    places: Placements<'a>,
}

impl<'a> Probe<'a> {
    pub(super) fn new(
        setting: &'a Setting,
        size: &'a Size,
        turn: Radians,
        rows: &'a [Row],
    ) -> Self {
        let places = Placements::as_read(setting, size, turn);
        let values: Vec<Option<f64>> = rows
            .iter()
            .map(|row| row.is_assessed().then(|| places.worst(row).value))
            .collect();
        let as_read = rows
            .iter()
            .zip(&values)
            .map(|(row, value)| value.map_or(State::Ok, |value| row.state(value)))
            .collect();
        Self {
            setting,
            size,
            turn,
            rows,
            as_read,
            values,
            read: setting.as_read().clone(),
        }
    }

    /// The rows whose value a quantity may move: by the needs of their checks and
    /// what follows it where nothing else was read.
    pub(super) fn moved_rows(&self, quantity: Quantity) -> Vec<usize> {
        let moves = |needed: Quantity| {
            needed == quantity
                || matches!(self.setting.basis(needed), Basis::Follows(other) if *other == quantity)
        };
        (0..self.rows.len())
            .filter(|&place| {
                let row = &self.rows[place];
                let on = row.required(self.setting).into_iter();
                row.is_assessed() && on.chain(row.movers(self.setting)).any(moves)
            })
            .collect()
    }

    /// The case with a quantity at another value.
    pub(super) fn place(&self, quantity: Quantity, value: f64) -> MovedSeat<'a> {
        let mut values = self.read.clone();
        values.set(quantity, value);
        let rows = match acts(quantity) {
            Through::Limits => Cow::Owned(rows_under(
                self.setting,
                &circumstances(self.setting, quantity, value),
                &self.size.occluder,
            )),
            Through::Anatomy | Through::Seat => Cow::Borrowed(self.rows),
        };
        let places = Placements::at(self.setting, self.size, self.turn, values);
        MovedSeat { rows, places }
    }

    /// The value of a row at a place.
    pub(super) fn value(place: &MovedSeat, row: &Row) -> f64 {
        place.places.worst(row).value
    }

    /// The worst state of all rows at a place, and the first row in it with its
    /// value.
    pub(super) fn worst<'p>(place: &'p MovedSeat) -> (State, Option<(&'p Row, f64)>) {
        let mut worst = (State::Ok, None);
        for row in place.rows.iter().filter(|row| row.is_assessed()) {
            let value = Self::value(place, row);
            let state = row.state(value);
            if state > worst.0 {
                worst = (state, Some((row, value)));
            }
        }
        worst
    }

    /// The state of one row at a place.
    pub(super) fn state(&self, place: &MovedSeat, row: usize) -> State {
        let row = &self.rows[row];
        row.state(Self::value(place, row))
    }
}

/// Through what a quantity acts.
pub(super) fn acts(quantity: Quantity) -> Through {
    let info = quantity.info();
    match (info.structure, info.feature) {
        (Structure::Patient, Feature::Weight | Feature::Age) => Through::Limits,
        (_, Feature::SystolicPressure) => Through::Seat,
        _ => Through::Anatomy,
    }
}

/// The values at which a quantity that does not act on the anatomy can change
/// anything: those its limits name, or the other pressure.
pub(super) fn jumps(setting: &Setting, quantity: Quantity) -> Vec<f64> {
    let info = quantity.info();
    match acts(quantity) {
        Through::Anatomy => Vec::new(),
        Through::Limits => setting
            .rules()
            .limits
            .iter()
            .flat_map(|limit| &limit.when)
            .filter_map(|when| match (*when, info.feature) {
                (Condition::WeightUnder(limit), Feature::Weight)
                | (Condition::AgeUnder(limit), Feature::Age) => Some(limit),
                _ => None,
            })
            .collect(),
        Through::Seat => {
            let other = match quantity {
                Quantity::LEFT_VENTRICLE_SYSTOLIC => Quantity::RIGHT_VENTRICLE_SYSTOLIC,
                _ => Quantity::LEFT_VENTRICLE_SYSTOLIC,
            };
            setting.nominal(other).into_iter().collect()
        }
    }
}

fn circumstances(setting: &Setting, quantity: Quantity, value: f64) -> Circumstances<'_> {
    let mut at = setting.circumstances();
    match quantity.info().feature {
        Feature::Weight => at.weight = Some(value),
        Feature::Age => at.age = Some(value),
        _ => {}
    }
    at
}
