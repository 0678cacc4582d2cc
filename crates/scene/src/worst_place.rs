use geometry::{
    Accuracy, Face, HingedPlate, Mm, Nearest, Occluder, PerFace, Seat, SeatedDisc, Vec2,
};

/// A shape where it comes nearest to a valve, ready to be drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WorstPlace {
    /// The signed clearance there.
    pub(crate) clearance: Mm,
    /// The centre of the waist.
    pub(crate) waist: Vec2,
    /// The left and the right disc, or the waist's end that stands for one.
    pub(crate) discs: PerFace<SeatedDisc>,
}

impl WorstPlace {
    pub(crate) fn of(occluder: &Occluder, seat: &Seat, plate: &HingedPlate) -> Self {
        let nearest = Nearest::of(occluder, seat, plate, Accuracy::DEFAULT);
        Self {
            clearance: nearest.clearance,
            waist: nearest.waist,
            discs: PerFace::of(|face| nearest.disc(occluder, seat, face)),
        }
    }

    /// In the middle of its play, on the wall: where no valve is near.
    pub(crate) fn middle(occluder: &Occluder, seat: &Seat) -> Self {
        let waist = seat.play().centre;
        let disc = |face| seat.disc(occluder, face, seat.stand_off(face).least, waist);
        Self {
            clearance: Mm::INFINITY,
            waist,
            discs: PerFace::of(disc),
        }
    }

    pub(crate) fn disc(&self, face: Face) -> &SeatedDisc {
        &self.discs[face]
    }
}
