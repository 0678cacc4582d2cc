//! Bounds of what takes a handful of operations.

use super::enclosure::Enclosure;
use super::fields::{WaistField, doubt};
use super::lanes::{LANES, Lane, max};
use super::stand::Radii;
use multiversion::multiversion;

/// w − d_fit.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn excess(fit: &Lane, waist: f32, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let value = waist - fit[lane];
        let doubt = doubt(waist + fit[lane]);
        bounds.low[lane] = value - doubt;
        bounds.high[lane] = value + doubt;
    }
}

/// A length over another.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn ratio(whole: &Lane, part: f32, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let value = part / whole[lane];
        let doubt = doubt(value);
        bounds.low[lane] = value - doubt;
        bounds.high[lane] = value + doubt;
    }
}

/// A length that is read.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn length(length: &Lane, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let doubt = doubt(length[lane]);
        bounds.low[lane] = length[lane] - doubt;
        bounds.high[lane] = length[lane] + doubt;
    }
}

/// s.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn slack(waist: &WaistField, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        bounds.low[lane] = waist.slack[lane] - waist.doubt;
        bounds.high[lane] = waist.slack[lane] + waist.doubt;
    }
}

/// max(0, −s).
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn clamp(waist: &WaistField, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let clamp = max(-waist.slack[lane], 0.0);
        bounds.low[lane] = clamp - waist.doubt;
        bounds.high[lane] = clamp + waist.doubt;
    }
}

/// 2(ρ_t − R).
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn room(tract: &Lane, radii: &Radii, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let radius = radii.of(lane);
        let room = 2.0 * (tract[lane] - radius);
        let doubt = doubt(tract[lane] + radius);
        bounds.low[lane] = room - doubt;
        bounds.high[lane] = room + doubt;
    }
}
