//! All figures of one set of values: those as measured, or those of one draw.

mod flows;
mod hole;
mod pressures;
mod sizes;

pub(crate) use flows::samples;
pub(crate) use pressures::{
    across_body, across_lungs, behind_defect, left_atrial, systemic_systolic,
};
pub(crate) use sizes::body;

use crate::{Circumstances, Figure};
use measurement::{Quantity, Values};

/// The figures that can be worked out, each with its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    each: [Option<f64>; Figure::COUNT],
}

impl Figures {
    /// The figures of a set of values.
    pub(crate) fn of(values: &Values, at: &Circumstances) -> Self {
        let mut figures = Self {
            each: [None; Figure::COUNT],
        };
        sizes::set(&mut figures, values, at);
        flows::set(&mut figures, values, at);
        pressures::set(&mut figures, values, at);
        hole::set(&mut figures, values, at);
        figures
    }

    /// The value of a figure, if it has one.
    pub const fn get(&self, figure: Figure) -> Option<f64> {
        self.each[figure.index()]
    }

    fn set(&mut self, figure: Figure, value: Option<f64>) {
        self.each[figure.index()] = value.filter(|value| value.is_finite());
    }
}

/// The value of a quantity, at most the largest it accepts: a drawn saturation is no more
/// than 100 %.
pub(crate) fn read(values: &Values, quantity: Quantity) -> Option<f64> {
    let most = quantity.info().most;
    values.get(quantity).map(|value| value.min(most))
}
