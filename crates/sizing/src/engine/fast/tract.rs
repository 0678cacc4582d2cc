//! The open share of an outflow tract in many draws, see
//! [`geometry::OutflowTract::open_share`].

use super::columns::TractColumns;
use super::enclosure::Enclosure;
use super::fields::{CHAIN, ROUNDING};
use super::lanes::{LANES, asin, clamp, max, min, root};
use super::stand::Stand;
use multiversion::multiversion;
use std::f32::consts::{FRAC_PI_2, PI, TAU};

/// What the open share depends on beside the tract and how the disc stands.
#[derive(Clone, Copy)]
pub(super) struct Cover {
    pub(super) conformability: f32,
    pub(super) dead_space_factor: f32,
}

/// Bounds of the open share. All lengths are taken in units of the tract's
/// radius, where the circle's area is π.
///
/// With r half the chord and h = √(1 − r²) its distance from the middle, the
/// part of a layer y inside the circle is the rectangle 2r · min(y, 2h) and what
/// the circle leaves of it above; asin h = π/2 − asin r saves an arc sine. A disc
/// wider than the tract in every lane, which most are that do not fit, closes the
/// near half and what the layer takes of the far one.
pub(super) fn open_share(tract: &TractColumns, disc: &Stand, cover: Cover, share: &mut Enclosure) {
    if disc.radii.own > BEYOND * tract.widest {
        share_beyond(tract, disc, cover, share);
    } else {
        share_of_any(tract, disc, cover, share);
    }
}

/// The open share where the disc is wider than the tract.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn share_beyond(tract: &TractColumns, disc: &Stand, cover: Cover, share: &mut Enclosure) {
    for lane in 0..LANES {
        let unit = tract.per_radius[lane];
        let layer = clamp((disc.gap[lane] + disc.thickness) * unit, 0.0, 1.0);
        let inner = 1.0 - layer;
        let around = min(2.0 * disc.radius(lane) * unit, TAU);
        let cloth = 0.5 * (1.0 - inner) * (1.0 + inner) * around;
        let above = layer * root((1.0 - layer) * (1.0 + layer)) + asin(layer);
        let stiff = cover.dead_space_factor * FRAC_PI_2 + above;
        let taken = cover.conformability * cloth + (1.0 - cover.conformability) * stiff;
        let open = clamp(1.0 - taken * (1.0 / PI), 0.0, 1.0);
        share.low[lane] = open - CHAIN * ROUNDING;
        share.high[lane] = open + CHAIN * ROUNDING;
    }
}

/// The open share in any case.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn share_of_any(tract: &TractColumns, disc: &Stand, cover: Cover, share: &mut Enclosure) {
    for lane in 0..LANES {
        let unit = tract.per_radius[lane];
        let layer = clamp((disc.gap[lane] + disc.thickness) * unit, 0.0, 2.0);
        let reach = max(disc.radius(lane) * unit, 0.0);
        let half = min(reach, 1.0);
        let inner = 1.0 - min(layer, 1.0);
        let cloth = 0.5 * (1.0 - inner) * (1.0 + inner) * min(2.0 * reach, TAU);
        let from_middle = root((1.0 - half) * (1.0 + half));
        let arc = asin(half);
        let dead = arc - half * from_middle;
        let straight = 2.0 * half * min(layer, 2.0 * from_middle);
        let top = clamp(layer - from_middle, from_middle, 1.0);
        let above = top * root((1.0 - top) * (1.0 + top)) + asin(top);
        let below = from_middle * half + (FRAC_PI_2 - arc);
        let slab = straight + max(above - below, 0.0);
        let stiff = cover.dead_space_factor * dead + slab;
        let taken = cover.conformability * cloth + (1.0 - cover.conformability) * stiff;
        let open = clamp(1.0 - taken * (1.0 / PI), 0.0, 1.0);
        // Near a chord as long as the circle is wide the dead space grows without
        // bound against its half-length: √(1 − r²) in the denominator.
        let steep = 1.0 / max(from_middle, ROUNDING);
        let doubt = CHAIN * ROUNDING * if reach < BEYOND { steep } else { 1.0 };
        share.low[lane] = open - doubt;
        share.high[lane] = open + doubt;
    }
}

/// Reach over the tract's radius from which rounding cannot bring it below 1.
const BEYOND: f32 = 1.0 + 8.0 * ROUNDING;
