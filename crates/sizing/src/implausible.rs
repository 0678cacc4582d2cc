//! Values outside the wide bounds of the house: slips of the pen, mostly, such as a
//! decimal point in the wrong place.

use crate::house_rules::{Band, WideBound, WideBoundRow};
use crate::{ResolvedCase, words};
use measurement::{Cm, Kg, Quantity, Reading, ReadingId, Years, ZScore};
use physiology::{BodySize, usual_length};

/// A reading in use whose value lies outside the wide bounds.
#[derive(Clone, Debug, PartialEq)]
pub struct Implausible {
    /// The reading.
    pub reading: ReadingId,
    /// Its quantity.
    pub quantity: Quantity,
    /// Its value, in the quantity's unit.
    pub value: f64,
    /// The bounds, in the quantity's unit.
    pub bounds: Band,
    ground: Ground,
}

/// On what the bounds of a value stand.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Ground {
    Table {
        weight: f64,
        height: f64,
        deviations: f64,
        name: &'static str,
    },
    Weight(f64),
    Any,
}

/// Every reading in use that lies outside its wide bounds, in the order of the case.
pub fn implausible(resolved: &ResolvedCase) -> Vec<Implausible> {
    let readings = resolved.case().readings.iter();
    readings
        .filter(|reading| reading.set_aside.is_none())
        .filter_map(|reading| held_against_bounds(resolved, reading))
        .collect()
}

fn held_against_bounds(resolved: &ResolvedCase, reading: &Reading) -> Option<Implausible> {
    let (quantity, value) = (reading.quantity, reading.value);
    let site = resolved.case().site;
    let is_for = |row: &&WideBoundRow| {
        row.of.contains(&quantity) && (row.sites.is_empty() || row.sites.contains(&site))
    };
    let mut rows = resolved.rules().wide_bounds.iter().filter(is_for);
    let (bounds, ground) = rows.find_map(|row| bounds(resolved, quantity, &row.bound))?;
    bounds.is_broken(value).then(|| Implausible {
        reading: reading.id.clone(),
        quantity,
        value,
        bounds,
        ground,
    })
}

/// The bounds that a rule makes of what is known of the child; `None` where it
/// cannot be applied.
fn bounds(
    resolved: &ResolvedCase,
    quantity: Quantity,
    bound: &WideBound,
) -> Option<(Band, Ground)> {
    match bound {
        WideBound::Table(deviations) => {
            let weight = resolved.weight()?;
            let height = resolved.nominal(Quantity::PATIENT_HEIGHT)?;
            let body = BodySize {
                weight: Kg(weight),
                height: Cm(height),
            };
            let age = resolved.age().map(Years);
            let usual = usual_length(quantity, ZScore(*deviations), body, age)?;
            let band = Band {
                low: Some(usual.low.value()),
                high: Some(usual.high.value()),
            };
            let ground = Ground::Table {
                weight,
                height,
                deviations: *deviations,
                name: usual.table,
            };
            Some((band, ground))
        }
        WideBound::Weight(bands) => {
            let weight = resolved.weight()?;
            Some((WideBound::at_weight(bands, weight), Ground::Weight(weight)))
        }
        WideBound::Any(band) => Some((*band, Ground::Any)),
    }
}

impl Implausible {
    /// What does not add up, in a sentence without its full stop.
    pub fn says(&self) -> String {
        format!(
            "{} was given for the {}, and {}",
            words::amount(self.quantity, self.value),
            self.quantity,
            self.expected()
        )
    }

    /// The bounds in a clause: `at 6.4 kg the wide bounds are 0 days to 3.4 years`.
    pub fn expected(&self) -> String {
        let bounds = self.bounds_said();
        match self.ground {
            Ground::Table {
                weight,
                height,
                deviations,
                name,
            } => format!(
                "{deviations} SD either side of the mean at {weight:.1} kg and {height:.0} cm are \
                 {bounds} ({name})"
            ),
            Ground::Weight(weight) => format!("at {weight:.1} kg the wide bounds are {bounds}"),
            Ground::Any => format!("the wide bounds at any weight are {bounds}"),
        }
    }

    /// From where to where; a side without a bound ends where nothing more is
    /// accepted.
    fn bounds_said(&self) -> String {
        let info = self.quantity.info();
        let low = self.bounds.low.unwrap_or(info.least).max(info.least);
        let high = self.bounds.high.unwrap_or(info.most).min(info.most);
        words::range(self.quantity, low, high)
    }
}
