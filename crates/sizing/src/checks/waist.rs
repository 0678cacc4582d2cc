//! The free waist against the hole it is to fill.

use crate::check::Lanes;
use geometry::Mm;

/// Fills each lane with w − d_fit.
pub(super) fn excess(lanes: &Lanes, values: &mut [Mm]) {
    let waist = lanes.occluder().waist.diameter;
    lanes.each(values, |anatomy, _| waist - anatomy.defect.fit_diameter());
}

/// Fills each lane with w / d_fit.
pub(super) fn ratio(lanes: &Lanes, values: &mut [f64]) {
    let waist = lanes.occluder().waist.diameter;
    lanes.each(values, |anatomy, _| waist / anatomy.defect.fit_diameter());
}
