use geometry::clearance::signed_clearance;
use geometry::{Accuracy, Face, HingedPlate, Mm, Occluder, Seat, SeatedDisc, Vec2};

/// Where a shape comes nearest to a valve, of all places of its seat that the
/// clearance is taken over.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WorstPlace {
    /// The signed clearance there.
    pub(crate) clearance: Mm,
    /// The centre of the waist.
    pub(crate) waist: Vec2,
    /// The left and the right disc, or the waist's end that stands for one.
    pub(crate) discs: [SeatedDisc; 2],
}

impl WorstPlace {
    pub(crate) fn of(occluder: &Occluder, seat: &Seat, plate: &HingedPlate) -> Self {
        let face = plate.face();
        let waist = seat.play().support(plate.radial());
        let clearance = |stand_off| {
            let disc = seat.disc(occluder, face, stand_off, waist);
            signed_clearance(&disc, plate, Accuracy::DEFAULT)
        };
        let (own, other) = (seat.stand_off(face), seat.stand_off(face.opposite()));
        let (near, far) = (clearance(own.least), clearance(own.most));
        // What one disc takes of the slack the other does not have.
        let (clearance, own, other) = if far < near {
            (far, own.most, other.least)
        } else {
            (near, own.least, other.most)
        };
        let disc = |of: Face| {
            let stand_off = if of == face { own } else { other };
            seat.disc(occluder, of, stand_off, waist)
        };
        Self {
            clearance,
            waist,
            discs: Face::BOTH.map(disc),
        }
    }

    pub(crate) const fn disc(&self, face: Face) -> &SeatedDisc {
        &self.discs[face.index()]
    }
}
