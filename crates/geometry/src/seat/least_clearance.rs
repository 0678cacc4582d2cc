use super::Seat;
use crate::clearance::signed_clearance;
use crate::{Accuracy, Face, HingedPlate, Mm, Occluder, SeatedDisc, Vec2};

/// The least signed clearance of a device's disc from a valve over the places of a
/// seat, within `accuracy`.
pub fn least_clearance(
    occluder: &Occluder,
    seat: &Seat,
    plate: &HingedPlate,
    accuracy: Accuracy,
) -> Mm {
    Nearest::of(occluder, seat, plate, accuracy).clearance
}

/// The place of a seat at which a device comes nearest to a valve.
///
/// The places looked at are the nearest and the farthest stand-off, with the
/// waist's centre as near to the hinge as its play lets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The signed clearance at that place.
    pub clearance: Mm,
    /// The centre of the waist at that place.
    pub waist: Vec2,
    /// How far the disc on the valve's face stands off the wall.
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

    /// The disc on a face at that place, or the waist's end where there is no disc. Slack
    /// that one disc takes the other does not have.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{AnnulusPlate, Defect, Disc, Edge, Ellipse, Opening, PerFace, Waist, degrees};

    fn occluder() -> Occluder {
        let disc = |radius| Disc {
            radius,
            thickness: 1.0,
            offset: Vec2::ZERO,
        };
        let waist = Waist {
            diameter: 5.0,
            length: 5.0,
        };
        Occluder::new(waist, PerFace::new(Some(disc(4.0)), Some(disc(4.0))))
    }

    /// Over a plate that leans away from the defect a disc is nearer the closer it lies
    /// to the wall; under one that leans over it, the farther it stands off.
    #[test]
    fn the_nearer_end_of_the_stand_off_counts_and_the_other_disc_takes_the_rest() {
        let occluder = occluder();
        let defect = Defect::straight(Ellipse::circle(2.5), 3.0, Edge::Soft);
        let seat = Seat::nominal(&occluder, &defect, 1.0, 0.0);
        for face in Face::BOTH {
            let ends = seat.stand_off(face);
            assert!(ends.most - ends.least > 1.0, "{ends:?}");
            for (lean, at) in [(60.0, ends.least), (120.0, ends.most)] {
                let valve = AnnulusPlate {
                    face,
                    clock_position: 0.4,
                    rim: 3.0,
                    diameter: 12.0,
                    diameter_across: 12.0,
                    annulus_angle: degrees(lean),
                    cusp_depth: 0.0,
                };
                let plate = valve.hinged(&Opening {
                    centre: Vec2::ZERO,
                    edge: Ellipse::circle(2.5),
                });
                let nearest = Nearest::of(&occluder, &seat, &plate, Accuracy::DEFAULT);
                let of = |stand_off| {
                    let disc = seat.disc(&occluder, face, stand_off, nearest.waist);
                    signed_clearance(&disc, &plate, Accuracy::DEFAULT)
                };
                let both = [of(ends.least), of(ends.most)];
                assert!((both[0] - both[1]).abs() > 0.1, "{both:?}");
                assert_eq!(nearest.clearance, both[0].min(both[1]));
                assert_eq!(nearest.clearance, of(at), "{lean}°");
                let own = nearest.disc(&occluder, &seat, face);
                assert_eq!(own.stand_off, at);
                let other = face.opposite();
                let rest = seat.stand_off(other);
                let taken = nearest.disc(&occluder, &seat, other).stand_off;
                let expected = if at == ends.most {
                    rest.least
                } else {
                    rest.most
                };
                assert_eq!(taken, expected);
            }
        }
    }
}
