//! What the shape leaves of an outflow tract, and what that costs.

use super::{Situation, UNREAD};
use crate::house_rules::Parameter;
use geometry::{Face, Mm, Vec2};
use physiology::cost_of_narrowing;

/// The open share of a face's tract, with the shape standing off as far as its
/// seat allows.
///
/// Reduced model: a round tract of the same area, the wall at rest, the disc
/// lying on it as cloth or standing on its chord, mixed by the conformability.
pub(crate) fn open_share(at: &Situation, face: Face) -> f64 {
    at.anatomy.tracts[face].map_or(UNREAD, |tract| {
        let occluder = &at.size.occluder;
        let stand_off = at.seat.stand_off(face).most;
        let disc = at.seat.disc(occluder, face, stand_off, Vec2::ZERO);
        tract.open_share(
            disc.radius,
            disc.stand_off + disc.thickness,
            occluder.conformability,
            at.setting.parameter(Parameter::DeadSpace),
        )
    })
}

/// The peak gradient that the shape costs a tract after closure, mmHg.
///
/// Reduced model: a jet at rest through the open share, contracted after Weisbach.
pub(super) fn gradient(at: &Situation, face: Face) -> f64 {
    at.anatomy.velocities_after[face].map_or(UNREAD, |velocity| {
        cost_of_narrowing(
            velocity,
            open_share(at, face),
            at.setting.parameter(Parameter::Contraction),
            at.setting.parameter(Parameter::LeastOpenShare),
        )
        .value()
    })
}

/// 2 `ρ_t` − 2R: how much wider a tract is than the disc. `ρ_t` is the radius of the
/// round tract of the same area.
pub(super) fn room(at: &Situation, face: Face) -> Mm {
    let disc = at.seat.disc(&at.size.occluder, face, 0.0, Vec2::ZERO);
    at.anatomy.tracts[face].map_or(UNREAD, |tract| {
        2.0 * (tract.effective_radius() - disc.radius)
    })
}
