use super::Seat;
use crate::clearance::signed_clearance;
use crate::{Accuracy, Face, HingedPlate, Mm, Occluder, SeatedDisc, Vec2};

/// The least signed clearance of the shape's disc from a valve, over the places
/// of a seat, within `accuracy`.
pub fn least_clearance(
    occluder: &Occluder,
    seat: &Seat,
    plate: &HingedPlate,
    accuracy: Accuracy,
) -> Mm {
    Nearest::of(occluder, seat, plate, accuracy).clearance
}

/// Where a shape comes nearest to a valve, of the places of its seat.
///
/// The places looked at are the nearest and the farthest stand-off, with the
/// waist's centre as near to the hinge as its play lets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The signed clearance there.
    pub clearance: Mm,
    /// The centre of the waist.
    pub waist: Vec2,
    /// How far the disc on the valve's face stands off.
    stand_off: Mm,
    face: Face,
}

impl Nearest {
    /// The nearest place of a seat to a valve, its clearance within `accuracy`.
    pub fn of(occluder: &Occluder, seat: &Seat, plate: &HingedPlate, accuracy: Accuracy) -> Self {
        let face = plate.face();
        let waist = seat.play().support(plate.radial());
        let at = |stand_off| {
            let disc = seat.disc(occluder, face, stand_off, waist);
            let clearance = signed_clearance(&disc, plate, accuracy);
            Self {
                clearance,
                waist,
                stand_off,
                face,
            }
        };
        let ends = seat.stand_off(face);
        let near = at(ends.least);
        if ends.least == ends.most {
            return near;
        }
        let far = at(ends.most);
        if far.clearance < near.clearance {
            far
        } else {
            near
        }
    }

    /// The disc on a face there, or the waist's end that stands for one: what one
    /// disc takes of the slack the other does not have.
    pub fn disc(&self, occluder: &Occluder, seat: &Seat, face: Face) -> SeatedDisc {
        let ends = seat.stand_off(face);
        let own = seat.stand_off(self.face);
        let stand_off = if face == self.face {
            self.stand_off
        } else if self.stand_off == own.most {
            ends.least
        } else {
            ends.most
        };
        seat.disc(occluder, face, stand_off, self.waist)
    }
}
