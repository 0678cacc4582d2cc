//! What of a shape stands where, in words.

use geometry::{Face, Occluder};

/// What stands on a face, in words.
pub(super) fn part(occluder: &Occluder, face: Face) -> &'static str {
    match (occluder.disc(face), face) {
        (Some(_), Face::Left) => "left disc",
        (Some(_), Face::Right) => "right disc",
        (None, Face::Left) => "left end of the waist",
        (None, Face::Right) => "right end of the waist",
    }
}
