//! How far the shape reaches toward a hinge, in the plane of the wall.

use super::UNREAD;
use crate::{Anatomy, face_of};
use geometry::{Mm, Occluder, Seat, lip, radial};
use measurement::Valve;

/// The farthest the disc, or the waist's end, reaches past the opening's edge
/// toward a valve's hinge over all places of its seat.
pub(crate) fn past_edge(occluder: &Occluder, seat: &Seat, anatomy: &Anatomy, valve: Valve) -> Mm {
    let face = face_of(valve);
    let Some(azimuth) = anatomy.azimuths[valve] else {
        return UNREAD;
    };
    let opening = anatomy.defect.opening(face);
    let disc = seat.disc(occluder, face, 0.0, seat.play().support(radial(azimuth)));
    lip::lip_of(&disc, opening, azimuth)
}
