use crate::{Face, Mm, Radians, RoundPlate, Vec2, Vec3, radial};

/// How a disc is tilted about its own centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilt {
    /// Angle between the disc's normal and the wall's: the share 1 − κ that the device's
    /// conformability leaves of a stiff one's.
    pub angle: Radians,
    /// Azimuth toward which the outward normal leans: there the disc dips
    /// toward the wall, and it lifts off on the opposite side.
    pub direction: Radians,
}

impl Tilt {
    /// A disc parallel to the wall.
    pub const NONE: Self = Self {
        angle: 0.0,
        direction: 0.0,
    };

    /// The disc's outward unit normal, its n component counted out of the wall.
    pub fn normal(&self) -> Vec3 {
        if self.angle == 0.0 {
            return Vec3::new(1.0, 0.0, 0.0);
        }
        let (sin, cos) = libm::sincos(self.angle);
        Vec3::from_wall(cos, radial(self.direction) * sin)
    }
}

/// A disc where it lies on a face of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatedDisc {
    /// The face it lies on.
    pub face: Face,
    /// Radius R.
    pub radius: Mm,
    /// Thickness t, at most 2R.
    pub thickness: Mm,
    /// Distance g ≥ 0 of its near side from the face, at its centre.
    pub stand_off: Mm,
    /// Its centre in the wall plane, from the centre of the defect's narrowest part.
    pub centre: Vec2,
    /// Its tilt about its own centre.
    pub tilt: Tilt,
}

impl SeatedDisc {
    /// The radius R − t/2 of the flat core plate, at least 0.
    pub(crate) fn core_radius(&self) -> Mm {
        (self.radius - 0.5 * self.thickness).max(0.0)
    }

    /// The flat core plate of the disc, which is all within t/2 of it, in the
    /// frame of its face: n counts from the face out of the wall into the
    /// cavity, u and v as in the wall, from the defect's centre.
    pub fn core(&self) -> RoundPlate {
        RoundPlate {
            centre: Vec3::from_wall(self.core_height(), self.centre),
            normal: self.tilt.normal(),
            radius: self.core_radius(),
        }
    }

    /// Distance g + t/2 of the core plate's centre out of the face.
    pub(crate) fn core_height(&self) -> Mm {
        self.stand_off + 0.5 * self.thickness
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::degrees;

    #[test]
    fn the_core_stands_half_a_thickness_off() {
        let disc = SeatedDisc {
            face: Face::Left,
            radius: 5.0,
            thickness: 1.0,
            stand_off: 0.25,
            centre: Vec2::new(1.0, 2.0),
            tilt: Tilt::NONE,
        };
        let core = disc.core();
        assert_eq!(core.centre, Vec3::new(0.75, 1.0, 2.0));
        assert_eq!((core.radius, core.normal), (4.5, Vec3::new(1.0, 0.0, 0.0)));
        assert_eq!(
            SeatedDisc {
                radius: 0.2,
                ..disc
            }
            .core_radius(),
            0.0
        );
    }

    #[test]
    fn a_tilted_disc_dips_where_its_normal_leans() {
        let tilt = Tilt {
            angle: degrees(10.0),
            direction: degrees(90.0),
        };
        let normal = tilt.normal();
        assert!(normal.n > 0.9 && normal.v > 0.1 && normal.u.abs() < 1e-15);
        assert!((normal.length() - 1.0).abs() < 1e-15);
        // Along the lean the plane of the disc falls toward the wall.
        assert!(-normal.v / normal.n < 0.0);
    }
}
