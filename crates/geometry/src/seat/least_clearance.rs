use super::Seat;
use crate::clearance::signed_clearance;
use crate::{Accuracy, HingedPlate, Mm, Occluder};

/// The least signed clearance of the shape's disc from a valve, over the places
/// of a seat, within `accuracy`.
///
/// The places looked at are the nearest and the farthest stand-off, with the
/// waist's centre as near to the hinge as its play lets it.
pub fn least_clearance(
    occluder: &Occluder,
    seat: &Seat,
    plate: &HingedPlate,
    accuracy: Accuracy,
) -> Mm {
    let face = plate.face();
    let place = seat.play().support(plate.radial());
    let at = |stand_off| {
        signed_clearance(
            &seat.disc(occluder, face, stand_off, place),
            plate,
            accuracy,
        )
    };
    let ends = seat.stand_off(face);
    let nearest = at(ends.least);
    if ends.least == ends.most {
        nearest
    } else {
        nearest.min(at(ends.most))
    }
}
