//! How far a seated disc reaches past the edge of the opening it lies on.

mod arc_set;
mod edge_and_disc;
mod edge_walk;
mod over_play;
mod search;
mod stretch;

pub use arc_set::{Arc, ArcSet};

use crate::{Accuracy, Face, Mm, Occluder, Opening, Play, Radians, Seat, SeatedDisc, radial};
use edge_and_disc::EdgeAndDisc;
use over_play::least_over_play;

/// The least lip of the disc on a face over `arcs` and over the places of a
/// seat, within `accuracy`; `None` where the shape has no disc on that face or
/// there is no arc.
///
/// The lip at azimuth θ is measured from the opening's centre o: σ·r̂ +
/// √(R² − (σ × r̂)²) − ρ(θ), with σ the disc's centre less o. Where the disc lies
/// wholly beside o and the ray along r̂ misses it, the lip is R − |σ| − max ρ. So
/// it never falls as R grows. Negative: the disc does not reach the edge.
///
/// A reduced model: the discs lie in the plane of the wall, their tilt left out.
pub fn least_lip(
    occluder: &Occluder,
    seat: &Seat,
    opening: &Opening,
    face: Face,
    arcs: &ArcSet,
    accuracy: Accuracy,
) -> Option<Mm> {
    let (pair, play) = laid_over(occluder, seat, opening, face)?;
    least_over_play(&play, accuracy, |place| pair.least(place, arcs, accuracy))
}

/// The lip of the disc on a face at one azimuth, least over the places of a
/// seat, within a nanometre; `None` where the shape has no disc on that face.
pub fn lip_toward(
    occluder: &Occluder,
    seat: &Seat,
    opening: &Opening,
    face: Face,
    azimuth: Radians,
) -> Option<Mm> {
    let (pair, play) = laid_over(occluder, seat, opening, face)?;
    let outward = radial(azimuth - opening.edge.turn);
    least_over_play(&play, Accuracy::DEFAULT, |place| {
        Some(pair.lip(place, outward))
    })
}

/// The lip at one azimuth of a disc, or of the waist's end, in one place: how far
/// it reaches past the edge of an opening.
pub fn lip_of(disc: &SeatedDisc, opening: &Opening, azimuth: Radians) -> Mm {
    let turn = opening.edge.turn;
    EdgeAndDisc::new(&opening.edge, disc.radius)
        .lip(
            (disc.centre - opening.centre).turned(-turn),
            radial(azimuth - turn),
        )
        .value
}

/// The disc on a face with the opening's edge, and the places of its centre, in
/// the axes of the opening.
fn laid_over(
    occluder: &Occluder,
    seat: &Seat,
    opening: &Opening,
    face: Face,
) -> Option<(EdgeAndDisc, Play)> {
    let disc = occluder.disc(face)?;
    let play = seat.disc_play(occluder, face).moved(-opening.centre);
    Some((
        EdgeAndDisc::new(&opening.edge, disc.radius),
        play.turned(-opening.edge.turn),
    ))
}
