//! Limits of the gradient after closure as limits of the open share.
//!
//! The gradient 4 v1² (1/f² − 1) falls as the effective share f grows, and f =
//! s (c + (1 − c) s³) grows with the open share s, see
//! [`physiology::cost_of_narrowing`]. So a limit of the gradient is one of the share
//! in each draw, the same for every size: it is solved for once, and each size
//! compares its share. Where the model is wrong by a factor in a draw, the limit is
//! divided by it there.

use super::columns::Columns;
use super::enclosure::{Enclosure, LaneStates, settled};
use super::lanes::{LANES, Lane, max, min};
use crate::Setting;
use crate::house_rules::{Band, Parameter};
use geometry::Face;
use multiversion::multiversion;
use std::array::from_fn;

/// What [`ShareLimits`] depend on.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct GradientForm {
    face: Face,
    /// The low and the high limit of the gradient.
    limits: [Option<f64>; 2],
    /// c.
    contraction: f32,
    /// The least effective share that counts.
    least: f32,
}

/// Between which open shares a band of the gradient holds, in each lane.
#[derive(Clone)]
pub(super) struct ShareLimits {
    is_free: bool,
    /// Whether there is a high limit of the gradient and no other, as in most houses.
    is_high_alone: bool,
    /// The share at the high limit of the gradient.
    low: Enclosure,
    /// The share at its low limit.
    high: Enclosure,
}

/// By what part of itself the share at a limit may be wrong: more than its chain of
/// operations rounds, and more than the tolerance of a limit of [`LEAST_LIMIT`].
const DOUBT: f32 = 2e-5;

/// A limit nearer 0, mmHg, is left to `f64`: its tolerance is no small part of it.
const LEAST_LIMIT: f64 = 1e-2;

/// Steps of Newton's method, which comes from above and never passes the root.
const STEPS: usize = 6;

impl GradientForm {
    pub(super) fn of(setting: &Setting, face: Face, band: Band) -> Self {
        Self {
            face,
            limits: [band.low, band.high],
            contraction: setting.parameter(Parameter::Contraction) as f32,
            least: setting.parameter(Parameter::LeastOpenShare) as f32,
        }
    }

    /// Works the limits out for a group of draws.
    pub(super) fn fill(&self, columns: &Columns, shares: &mut ShareLimits) {
        let [low, high] = self.limits;
        shares.is_free = low.is_none() && high.is_none();
        shares.is_high_alone = low.is_none();
        // A share is never beyond these.
        shares.low = Enclosure::same(f32::NEG_INFINITY);
        shares.high = Enclosure::same(f32::INFINITY);
        for (limit, share) in [(high, &mut shares.low), (low, &mut shares.high)] {
            let Some(limit) = limit else { continue };
            let is_usual =
                limit >= LEAST_LIMIT && (0.0..=1.0).contains(&self.contraction) && self.least > 0.0;
            match &columns.tracts[self.face.index()] {
                Some(tract) if is_usual => {
                    let jet = [self.contraction, self.least];
                    let mut limits = [limit as f32; LANES];
                    if let Some(times) = &columns.times[self.face.index()] {
                        limits = from_fn(|lane| limits[lane] / times[lane]);
                    }
                    share_at(&tract.velocity, &limits, jet, share);
                }
                _ => *share = Enclosure::same(f32::NAN),
            }
        }
    }
}

/// Bounds of the open share at which the gradient is at a limit; not a number where it
/// is not found.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn share_at(velocity: &Lane, limits: &Lane, [contraction, least]: [f32; 2], share: &mut Enclosure) {
    let bend = 1.0 - contraction;
    for lane in 0..LANES {
        let square = velocity[lane] * velocity[lane];
        let jet = 1.0 / (1.0 + limits[lane] / (4.0 * square)).sqrt();
        let mut at = min(jet / contraction, 1.0);
        for _ in 0..STEPS {
            let cube = at * at * at;
            let over = at * (contraction + bend * cube) - jet;
            at -= over / (contraction + 4.0 * bend * cube);
        }
        let left = at * (contraction + bend * at * at * at) - jet;
        let is_found = left.abs() <= 0.1 * DOUBT * jet;
        let at = if is_found { at } else { f32::NAN };
        // What is narrower than the least that counts costs no more than that.
        let is_ever_over = jet > least * (1.0 + DOUBT);
        share.low[lane] = if is_ever_over {
            at * (1.0 - DOUBT)
        } else {
            f32::NEG_INFINITY
        };
        share.high[lane] = if max(jet, 0.0) < least * (1.0 - DOUBT) {
            f32::NEG_INFINITY
        } else {
            at * (1.0 + DOUBT)
        };
    }
}

impl ShareLimits {
    pub(super) const UNKNOWN: Self = Self {
        is_free: false,
        is_high_alone: false,
        low: Enclosure::OPEN,
        high: Enclosure::OPEN,
    };

    /// What bounds of the open share say of the gradient's band.
    pub(super) fn settle(&self, share: &Enclosure) -> LaneStates {
        if self.is_free {
            return LaneStates::HOLDS;
        }
        if self.is_high_alone {
            return from(share, &self.low);
        }
        between(share, &self.low, &self.high)
    }
}

/// Whether shares lie at or over one that is known within bounds.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn from(share: &Enclosure, least: &Enclosure) -> LaneStates {
    settled(
        |lane| share.low[lane] >= least.high[lane],
        |lane| share.high[lane] < least.low[lane],
    )
}

/// Whether shares lie between two that are known within bounds.
#[expect(
    clippy::needless_bitwise_bool,
    reason = "without a branch, so that lanes are compared side by side"
)]
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn between(share: &Enclosure, low: &Enclosure, high: &Enclosure) -> LaneStates {
    settled(
        |lane| (share.low[lane] >= low.high[lane]) & (share.high[lane] <= high.low[lane]),
        |lane| (share.high[lane] < low.low[lane]) | (share.low[lane] > high.high[lane]),
    )
}
