//! The lip: how far a seated disc reaches past the edge of the opening it covers, in one
//! direction. Screens call it rim overlap.
//!
//! ```text
//!        ,---------.
//!     ,-'    disc   '-.       o  the opening's centre
//!    /    ,-----.      \      σ  the disc's centre, from o
//!   |    /  edge \      |     r̂  a direction from o
//!   |   |    o  σ |-----|--→ r̂    the lip along r̂: from the edge to the disc's rim
//!   |    \       /      |     play: the places that the waist leaves to σ, an
//!    \    '-----'      /            ellipse, a stretch of line or one place
//!     '-.           ,-'
//!        '---------'
//! ```
//!
//! The least lip over the directions of some arcs and over all places of the play is
//! proved, not sampled, since a disc that covers only just enough has narrow dips which
//! samples miss. Four lemmas carry the proof:
//!
//! 1. *Over the places* (`over_play`). Along a direction whose ray meets the disc the
//!    lip is concave in σ. So its least value over the play lies on the play's boundary,
//!    and along a piece of the boundary it is no less than at the corners of a triangle
//!    around that piece.
//! 2. *Along the edge* (`edge_walk`, `search`). Over a piece of the edge the lip's
//!    second derivative lies between two bounds, by interval arithmetic. Where neither is
//!    negative the piece holds one dip at most, and that one is run down. Where the lip
//!    cannot fall below the least found so far, even bent by the lower bound all along,
//!    the piece is left. Any other piece is halved.
//! 3. *Beside the disc* (`edge_and_disc`). Where the ray misses the disc the lip is
//!    R − |σ| − max ρ by definition, so that no larger disc ever has less.
//! 4. *About the middle* (`edge_and_disc`). Where the play lies about the opening's own
//!    centre and along its axes, as that of every disc on the device's axis does in an
//!    opening that is not shifted, the least lip lies in the direction nearest to the long
//!    axis: that one is searched over the places, and no other.
//!
//! *Proved* means that no place and no direction has less than the answer by more than
//! the accuracy asked for, to a rounding. Ends of intervals are rounded to nearest, not
//! outward, so a bound may be off by a few units in the last place of an `f64`: some
//! 10⁻¹⁵ of the lengths, beside an accuracy of 10⁻⁶ mm. See the decision
//! `least-rim-overlap-is-proved`.

mod arc_set;
mod edge_and_disc;
mod edge_walk;
mod half_chord;
mod interval;
mod over_play;
mod search;
mod stretch;
#[cfg(test)]
mod tests;

pub use arc_set::{Arc, ArcSet};

use crate::{
    Accuracy, Ellipse, Face, Mm, Occluder, Opening, Play, Radians, Seat, SeatedDisc, Vec2, radial,
};
use edge_and_disc::EdgeAndDisc;
use over_play::least_over_play;

/// The least lip of the disc on a face over `arcs` and over the places of a seat,
/// within `accuracy`; `None` where the device has no disc on that face or there is no
/// arc.
///
/// The lip at azimuth θ is measured from the opening's centre o: σ·r̂ +
/// √(R² − (σ × r̂)²) − ρ(θ), with σ the disc's centre less o. Where the disc lies
/// wholly beside o and the ray along r̂ misses it, the lip is R − |σ| − max ρ. So
/// it never falls as R grows. Where it is negative the disc does not reach the edge.
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
    least_over_play(&pair, &play, arcs, accuracy)
}

/// The least lip of the disc on a face at one azimuth over the places of a seat, within
/// a nanometre; `None` where the device has no disc on that face.
pub fn lip_toward(
    occluder: &Occluder,
    seat: &Seat,
    opening: &Opening,
    face: Face,
    azimuth: Radians,
) -> Option<Mm> {
    let (pair, play) = laid_over(occluder, seat, opening, face)?;
    let toward = ArcSet::about(&[azimuth], 0.0);
    least_over_play(&pair, &play, &toward, Accuracy::DEFAULT)
}

/// The lip at one azimuth of a disc, or of a waist's end, in the place it lies in.
pub fn lip_of(disc: &SeatedDisc, opening: &Opening, azimuth: Radians) -> Mm {
    let rotation = opening.edge.rotation;
    EdgeAndDisc::new(&opening.edge, disc.radius)
        .lip(
            (disc.centre - opening.centre).turned(-rotation),
            radial(azimuth - rotation),
        )
        .value
}

/// The greatest distance of an edge from its centre over `arcs`; `None` without an arc.
/// A disc centred over the opening has its least lip there: R less this distance.
pub fn farthest_edge(edge: &Ellipse, arcs: &ArcSet) -> Option<Mm> {
    let lip = EdgeAndDisc::new(edge, 0.0).least(Vec2::ZERO, arcs, Accuracy::DEFAULT)?;
    Some(-lip.value)
}

/// The disc on a face over the opening's edge, and the play of its centre, both in the
/// axes of the opening.
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
        play.turned(-opening.edge.rotation),
    ))
}
