mod least_clearance;

pub use least_clearance::{Nearest, least_clearance};

use crate::{
    Defect, Face, Mm, Occluder, PerFace, Play, Radians, SeatedDisc, Tilt, Vec2, squeezed_diameter,
    squeezed_length,
};

/// The range of distances at which a disc may stand off its face of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandOff {
    /// The least distance, at least 0.
    pub least: Mm,
    /// The greatest distance.
    pub most: Mm,
}

/// The random numbers that pick one place out of a seat in one draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatDraw {
    /// U, 0 to 1: how far from the middle of its play the waist's centre lies.
    pub play_radius: f64,
    /// V, 0 to 1: in which direction from that middle it lies.
    pub play_angle: f64,
    /// 0 to 1: the slack that the left disc takes, as a share of the most it may take.
    pub split: f64,
    /// Tilt δ ≥ 0 of each disc, as if the device were stiff.
    pub tilt_angle: PerFace<Radians>,
    /// Azimuth toward which the outward normal of each disc leans.
    pub tilt_direction: PerFace<Radians>,
    /// The rotation of the device beyond the intended τ.
    pub rotation_error: Radians,
}

/// Where a device lies: the set of all places it may take.
///
/// The nominal seat holds every place open to the device, untilted; a drawn seat
/// is the same set shrunk to one place. Whatever is asked of a seat is answered
/// for its worst place, so nominal and drawn values come from one code path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// A disc covers the left opening, and the waist lies in the defect.
    OverLeftOpening(OverLeftOpening),
}

/// The seat of a device that covers the left opening, its waist in the defect.
///
/// A reduced model: the discs lie flat on their faces, or tilt about their own
/// centres; the opening and the hinges are not moved by the waist.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OverLeftOpening {
    /// Diameter d_c of the waist in the defect.
    pub waist_diameter: Mm,
    /// Length L' of the waist in the defect.
    pub length: Mm,
    /// Slack s = L' − T; below 0 the wall stretches the waist.
    pub slack: Mm,
    /// The distances at which each disc may stand off the wall.
    pub stand_off: PerFace<StandOff>,
    /// The places of the waist's centre in the wall plane.
    pub play: Play,
    /// Rotation τ of the device about its axis, from u toward v.
    pub rotation: Radians,
    /// Tilt of each disc, less what the device's conformability takes off it.
    pub tilt: PerFace<Tilt>,
}

impl OverLeftOpening {
    /// Every place open to the device at rotation τ: the left disc takes from none of
    /// the slack up to its share `most_left` = q_max, the right disc the rest.
    fn new(occluder: &Occluder, defect: &Defect, most_left: f64, rotation: Radians) -> Self {
        let waist_diameter = squeezed_diameter(&occluder.waist, defect);
        let length = squeezed_length(&occluder.waist, occluder.braid_angle, waist_diameter);
        let slack = length - defect.wall;
        let free = slack.max(0.0);
        Self {
            waist_diameter,
            length,
            slack,
            stand_off: PerFace::new(
                StandOff {
                    least: 0.0,
                    most: most_left * free,
                },
                StandOff {
                    least: (1.0 - most_left) * free,
                    most: free,
                },
            ),
            play: Play::of(defect, waist_diameter),
            rotation,
            tilt: PerFace::new(Tilt::NONE, Tilt::NONE),
        }
    }

    /// The one place of this seat that a draw picks.
    fn picked(&self, occluder: &Occluder, draw: &SeatDraw) -> Self {
        let stiffness = 1.0 - occluder.conformability;
        let between = |ends: StandOff, share: f64| {
            let place = ends.least + share * (ends.most - ends.least);
            StandOff {
                least: place,
                most: place,
            }
        };
        let tilt = |face: Face| Tilt {
            angle: stiffness * draw.tilt_angle[face],
            direction: draw.tilt_direction[face],
        };
        Self {
            // What the left disc takes, the right one does not have.
            stand_off: PerFace::new(
                between(self.stand_off[Face::Left], draw.split),
                between(self.stand_off[Face::Right], 1.0 - draw.split),
            ),
            play: Play::at(self.play.point(draw.play_radius, draw.play_angle)),
            rotation: self.rotation + draw.rotation_error,
            tilt: PerFace::of(tilt),
            ..*self
        }
    }
}

impl Seat {
    /// The nominal seat: every place the device may take at rotation τ, untilted.
    /// `most_left` = q_max, 0 to 1, is the largest share of the slack that the left disc
    /// may take.
    pub fn nominal(
        occluder: &Occluder,
        defect: &Defect,
        most_left: f64,
        rotation: Radians,
    ) -> Self {
        Self::OverLeftOpening(OverLeftOpening::new(occluder, defect, most_left, rotation))
    }

    /// The seat of one draw: the single place it picks at the intended rotation τ.
    pub fn drawn(
        occluder: &Occluder,
        defect: &Defect,
        most_left: f64,
        rotation: Radians,
        draw: &SeatDraw,
    ) -> Self {
        let all = OverLeftOpening::new(occluder, defect, most_left, rotation);
        Self::OverLeftOpening(all.picked(occluder, draw))
    }

    /// Slack s = L' − T: how much longer the waist is than the wall is thick; below 0
    /// the wall stretches it.
    pub const fn slack(&self) -> Mm {
        let Self::OverLeftOpening(seat) = self;
        seat.slack
    }

    /// Diameter d_c of the waist in the defect.
    pub const fn waist_diameter(&self) -> Mm {
        let Self::OverLeftOpening(seat) = self;
        seat.waist_diameter
    }

    /// The places of the waist's centre in the wall plane.
    pub const fn play(&self) -> &Play {
        let Self::OverLeftOpening(seat) = self;
        &seat.play
    }

    /// The distances at which the disc on a face may stand off it.
    pub fn stand_off(&self, face: Face) -> StandOff {
        let Self::OverLeftOpening(seat) = self;
        seat.stand_off[face]
    }

    /// The disc on a face with its near side `stand_off` off the wall and the
    /// waist's centre at `place`. A device without a disc on that face has the end of
    /// its waist there: radius d_c/2, no thickness, no offset.
    pub fn disc(&self, occluder: &Occluder, face: Face, stand_off: Mm, place: Vec2) -> SeatedDisc {
        let Self::OverLeftOpening(seat) = self;
        let (radius, thickness) = match occluder.disc(face) {
            Some(disc) => (disc.radius, disc.thickness),
            None => (0.5 * seat.waist_diameter, 0.0),
        };
        SeatedDisc {
            face,
            radius,
            thickness,
            stand_off,
            centre: place + self.offset(occluder, face),
            tilt: seat.tilt[face],
        }
    }

    /// The places of the centre of the disc on a face.
    pub(crate) fn disc_play(&self, occluder: &Occluder, face: Face) -> Play {
        self.play().moved(self.offset(occluder, face))
    }

    /// From the waist's centre to the disc's, as rotated in the defect.
    fn offset(&self, occluder: &Occluder, face: Face) -> Vec2 {
        let Self::OverLeftOpening(seat) = self;
        match occluder.disc(face) {
            Some(disc) if disc.offset != Vec2::ZERO => disc.offset.turned(seat.rotation),
            _ => Vec2::ZERO,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Disc, Edge, Ellipse, Waist, degrees};

    fn occluder() -> Occluder {
        let disc = |radius, u| Disc {
            radius,
            thickness: 1.2,
            offset: Vec2::new(u, 0.0),
        };
        Occluder {
            conformability: 0.4,
            braid_angle: degrees(45.0),
            ..Occluder::new(
                Waist {
                    diameter: 5.0,
                    length: 3.0,
                },
                PerFace::new(Some(disc(4.0, -1.0)), Some(disc(3.5, 0.0))),
            )
        }
    }

    fn round_hole(wall: Mm) -> Defect {
        Defect::straight(Ellipse::circle(2.0), wall, Edge::Soft)
    }

    const DRAW: SeatDraw = SeatDraw {
        play_radius: 0.25,
        play_angle: 0.0,
        split: 0.5,
        tilt_angle: PerFace::new(0.1, 0.2),
        tilt_direction: PerFace::new(1.0, 2.0),
        rotation_error: 0.25,
    };

    fn near(got: Mm, want: Mm) -> bool {
        (got - want).abs() < 1e-14
    }

    #[test]
    fn the_nominal_seat_is_as_worked_by_hand() {
        // d_c = 4, L' = √(9 + 0.36 · 9) = 3.498571, s = L' − 2.5 = 0.998571;
        // q_max 0.5: left 0 to s/2, right s/2 to s.
        let seat = Seat::nominal(&occluder(), &round_hole(2.5), 0.5, 0.0);
        let slack = 12.24_f64.sqrt() - 2.5;
        assert!(near(seat.slack(), slack));
        assert_eq!(seat.waist_diameter(), 4.0);
        assert!(near(seat.stand_off(Face::Left).least, 0.0));
        assert!(near(seat.stand_off(Face::Left).most, 0.5 * slack));
        assert!(near(seat.stand_off(Face::Right).least, 0.5 * slack));
        assert!(near(seat.stand_off(Face::Right).most, slack));
        assert!(seat.play().is_place());
    }

    #[test]
    fn a_stretched_waist_lets_no_disc_stand_off() {
        let seat = Seat::nominal(&occluder(), &round_hole(5.0), 0.5, 0.0);
        assert!(near(seat.slack(), 12.24_f64.sqrt() - 5.0));
        for face in Face::BOTH {
            assert_eq!(
                seat.stand_off(face),
                StandOff {
                    least: 0.0,
                    most: 0.0
                }
            );
        }
    }

    #[test]
    fn a_drawn_seat_is_one_place_of_the_nominal_one() {
        // q = 0.5 · 0.8 = 0.4: left 0.4 s, right 0.6 s.
        let seat = Seat::drawn(&occluder(), &round_hole(2.5), 0.8, 0.5, &DRAW);
        let slack = seat.slack();
        let (left, right) = (seat.stand_off(Face::Left), seat.stand_off(Face::Right));
        assert!(near(left.least, 0.4 * slack) && left.least == left.most);
        assert!(near(right.least, 0.6 * slack) && right.least == right.most);
        let Seat::OverLeftOpening(over) = seat;
        assert_eq!(over.rotation, 0.75);
        assert_eq!(
            over.tilt[Face::Right],
            Tilt {
                angle: 0.6 * 0.2,
                direction: 2.0
            }
        );
    }

    #[test]
    fn the_draw_picks_a_place_of_the_play() {
        // Axes 6 and 4 with w = 2: play 5 by 3; U = 0.25 is halfway out.
        let narrowest = Ellipse {
            semi_major: 6.0,
            semi_minor: 4.0,
            rotation: 0.0,
        };
        let defect = Defect::straight(narrowest, 3.0, Edge::Soft);
        let mut shape = occluder();
        shape.waist.diameter = 2.0;
        let seat = Seat::drawn(&shape, &defect, 0.5, 0.0, &DRAW);
        assert!(seat.play().is_place());
        assert!(near(seat.play().centre.u, 2.5) && near(seat.play().centre.v, 0.0));
    }

    #[test]
    fn the_offset_turns_with_the_shape_and_the_waist_stands_for_a_missing_disc() {
        let mut shape = occluder();
        shape.discs[Face::Right] = None;
        let seat = Seat::nominal(&shape, &round_hole(2.5), 0.5, degrees(90.0));
        let place = Vec2::new(0.5, 0.25);
        let left = seat.disc(&shape, Face::Left, 0.1, place);
        assert!(near(left.centre.u, 0.5) && near(left.centre.v, -0.75));
        assert_eq!(
            (left.radius, left.thickness, left.stand_off),
            (4.0, 1.2, 0.1)
        );
        let right = seat.disc(&shape, Face::Right, 0.2, place);
        assert_eq!(
            (right.radius, right.thickness, right.centre),
            (2.0, 0.0, place)
        );
    }
}
