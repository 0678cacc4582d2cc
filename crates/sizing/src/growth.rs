//! How a device that stays as it is stands once the child around it has grown.
//!
//! A reduced model: no child grows so exactly, and how a rim grows was found nowhere. So
//! a rim is taken twice, as it is today and grown like the valve beside it.

use crate::measure::Measure;
use crate::outcome::outcome;
use crate::placements::Placements;
use crate::{Outcome, Row, Setting, Size, rows};
use geometry::Radians;
use measurement::{Cm, Feature, Kg, Quantity, SquareMetres, Structure, Values};
use physiology::{AreaFormula, BodySize};

/// A body by its weight and height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// Weight in kilograms.
    pub weight: f64,
    /// Height in centimetres.
    pub height: f64,
}

/// A size in a child of today and in the same child once it has grown.
#[derive(Clone, Debug, PartialEq)]
pub struct Growth {
    /// The child as measured.
    pub now: Body,
    /// The child as it is to be.
    pub then: Body,
    /// By what annuli and outflow tracts grow.
    pub factor: f64,
    /// Each check that growth moves.
    pub rows: Vec<GrownCheck>,
}

/// A check of today and of the grown child.
#[derive(Clone, Debug, PartialEq)]
pub struct GrownCheck {
    /// As measured.
    pub now: Outcome,
    /// Grown, the rims being those of today.
    pub rims_of_today: Outcome,
    /// Grown, the rims as well.
    pub rims_grown: Outcome,
}

/// Why growth is not assessed.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum GrowthError {
    /// Nobody measured weight or height.
    #[error("growth is not assessed: measure both weight and height of today first")]
    BodyNotMeasured,
    /// The later body is no larger.
    #[error(
        "{weight} kg and {height} cm are no more than today's {weight_now} kg and {height_now} cm: \
         give the weight and height of a later day",
        weight = .then.weight,
        height = .then.height,
        weight_now = .now.weight,
        height_now = .now.height
    )]
    NotGrown {
        /// The child as measured.
        now: Body,
        /// What was asked.
        then: Body,
    },
}

impl Body {
    /// Body surface after Haycock, with which the tables of valves were made.
    pub fn surface(self) -> SquareMetres {
        let body = BodySize {
            weight: Kg(self.weight),
            height: Cm(self.height),
        };
        AreaFormula::Haycock.area(body).value
    }

    /// By what annuli and outflow tracts grow up to another body: the square root of the
    /// body surfaces' ratio, at which a z-score stays about the same (Lopez 2017).
    pub fn growth_to(self, then: Self) -> f64 {
        (then.surface().value() / self.surface().value()).sqrt()
    }
}

/// A size at a rotation, today and in a child of a later weight and height.
///
/// Annuli with the depth of their cusps, and outflow tracts, grow alike; velocities, the
/// defect, the device and its seat stay. Whether the rims hold it is not asked: by then
/// it has grown in. The limits are those of today.
pub fn grow(
    setting: &Setting,
    size: &Size,
    rotation: Radians,
    then: Body,
) -> Result<Growth, GrowthError> {
    let weight = setting.nominal(Quantity::PATIENT_WEIGHT);
    let height = setting.nominal(Quantity::PATIENT_HEIGHT);
    let now = weight
        .zip(height)
        .map(|(weight, height)| Body { weight, height })
        .ok_or(GrowthError::BodyNotMeasured)?;
    let factor = now.growth_to(then);
    if !(factor > 1.0 && factor.is_finite()) {
        return Err(GrowthError::NotGrown { now, then });
    }
    let today = Placements::as_read(setting, size, rotation);
    let grown = |is_grown: fn(Quantity) -> bool| {
        let values = grown(setting.as_read(), factor, is_grown);
        Placements::at(setting, size, rotation, values)
    };
    let rims_of_today = grown(grows);
    let rims_grown = grown(|quantity| grows(quantity) || is_rim(quantity));
    let asked = rows(setting, &size.occluder);
    let moved = asked.iter().filter(|row| is_moved(row));
    Ok(Growth {
        now,
        then,
        factor,
        rows: moved
            .map(|row| GrownCheck {
                now: outcome(&today, row),
                rims_of_today: outcome(&rims_of_today, row),
                rims_grown: outcome(&rims_grown, row),
            })
            .collect(),
    })
}

/// Whether growth moves what a check measures.
const fn is_moved(row: &Row) -> bool {
    matches!(
        row.measure,
        Measure::Clearance(_) | Measure::OpenShare(_) | Measure::TractGradient(_)
    )
}

/// Whether a quantity grows with the child: those of valves and outflow tracts.
fn grows(quantity: Quantity) -> bool {
    let info = quantity.info();
    match info.structure {
        Structure::Valve(_) => matches!(
            info.feature,
            Feature::Diameter | Feature::DiameterAcross | Feature::CuspDepth
        ),
        Structure::LeftOutflow | Structure::RightOutflow => {
            matches!(info.feature, Feature::Depth | Feature::Width)
        }
        _ => false,
    }
}

fn is_rim(quantity: Quantity) -> bool {
    quantity.info().feature == Feature::Rim
}

fn grown(of_today: &Values, factor: f64, is_grown: fn(Quantity) -> bool) -> Values {
    let mut values = of_today.clone();
    for quantity in Quantity::all().filter(|&quantity| is_grown(quantity)) {
        if let Some(value) = of_today.get(quantity) {
            values.set(quantity, factor * value);
        }
    }
    values
}

impl Growth {
    /// What grows by how much, what stays, and what is not known, in sentences.
    pub fn says(&self) -> String {
        let Self {
            now, then, factor, ..
        } = self;
        format!(
            "From {} kg and {} cm to {} kg and {} cm body surface grows from {:.2} to {:.2} m² \
             (Haycock), annuli, the depth of cusps and outflow tracts {factor:.2} times. The \
             defect, the device and the velocities stay. How a rim grows was found nowhere: it \
             is shown as it is today, and grown alike. Whether the rims hold is no longer asked. \
             Limits are those of today.",
            now.weight,
            now.height,
            then.weight,
            then.height,
            now.surface().value(),
            then.surface().value(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_grows_is_of_valves_and_outflow_tracts() {
        let grown: Vec<&str> = Quantity::all()
            .filter(|&quantity| grows(quantity))
            .map(Quantity::address)
            .collect();
        for address in ["aortic.diameter", "left_outflow.depth", "aortic.cusp_depth"] {
            assert!(grown.contains(&address), "{address} of {grown:?}");
        }
        for address in ["aortic.rim", "defect.long_axis", "left_outflow.velocity"] {
            assert!(!grown.contains(&address), "{address}");
        }
    }
}
