use crate::{Face, Mm, Opening, Plate, Radians, Vec2, Vec3, degrees, radial};
use std::f64::consts::PI;

/// A neighbouring valve's annulus, as an elliptical plate hinged at the wall.
///
/// The hinge stands the rim's length past the opening's edge at the azimuth;
/// the plate leans over the wall by the lean. Its cusps are the plate and the
/// sag below it: a closed valve in the phase its readings name. Open cusps,
/// chordae and prolapse are left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnnulusPlate {
    /// The face of the wall it stands on.
    pub face: Face,
    /// Azimuth α of the hinge about that face's opening.
    pub azimuth: Radians,
    /// Rim e ≥ 0: from the opening's edge to the hinge.
    pub rim: Mm,
    /// D1: diameter along d̂ = cos λ r̂ + sin λ m̂, away from the hinge.
    pub diameter: Mm,
    /// D2: diameter along the tangent of the hinge.
    pub diameter_across: Mm,
    /// Lean λ: a quarter turn is square to the wall, more leans over the defect.
    pub lean: Radians,
    /// Sag p ≥ 0: how far the closed cusps bulge below the plate.
    pub sag: Mm,
}

impl AnnulusPlate {
    /// The least angle between a plate and the wall: a flatter one is no
    /// valve, and would meet a disc only at infinity.
    const LEAST_LEAN: Radians = degrees(1.0);

    /// The least semi-axis: a plate without width would have no scale.
    const LEAST_SEMI_AXIS: Mm = 1e-6;

    /// The plate hinged at the edge of the opening on its face.
    ///
    /// Leans outside 1° to 179° are taken as the nearer of the two, diameters
    /// under 2 nm as 2 nm.
    pub fn hinged(&self, opening: &Opening) -> HingedPlate {
        let radial = radial(self.azimuth);
        let tangent = Vec2::new(-radial.v, radial.u);
        let hinge = opening.centre + radial * (opening.edge.polar_radius(self.azimuth) + self.rim);
        let (sin_lean, cos_lean) =
            libm::sincos(self.lean.clamp(Self::LEAST_LEAN, PI - Self::LEAST_LEAN));
        let along = Vec3::from_wall(sin_lean, radial * cos_lean);
        let semi_along = (0.5 * self.diameter).max(Self::LEAST_SEMI_AXIS);
        let plate = Plate {
            centre: Vec3::from_wall(0.0, hinge) + along * semi_along,
            first: along,
            second: Vec3::from_wall(0.0, tangent),
            semi_first: semi_along,
            semi_second: (0.5 * self.diameter_across).max(Self::LEAST_SEMI_AXIS),
        };
        HingedPlate {
            face: self.face,
            hinge,
            radial,
            tangent,
            cotangent: cos_lean / sin_lean,
            height: semi_along * sin_lean,
            sag: self.sag,
            plate,
        }
    }
}

/// An annulus plate in its place: prepared once for one anatomy, used for
/// every size of every shape.
///
/// Points are in the frame of its face: n counts from the face out of the wall
/// into the cavity, u and v as in the wall, from the throat's centre. On the
/// left face that is a mirror image, which no distance feels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HingedPlate {
    face: Face,
    hinge: Vec2,
    radial: Vec2,
    tangent: Vec2,
    cotangent: f64,
    height: Mm,
    sag: Mm,
    plate: Plate,
}

impl HingedPlate {
    /// The face of the wall it stands on.
    pub const fn face(&self) -> Face {
        self.face
    }

    /// The hinge, in the wall plane, from the throat's centre.
    pub const fn hinge(&self) -> Vec2 {
        self.hinge
    }

    /// The direction r̂ from the opening toward the hinge.
    pub const fn radial(&self) -> Vec2 {
        self.radial
    }

    /// How far the closed cusps bulge below the plate.
    pub const fn sag(&self) -> Mm {
        self.sag
    }

    /// The plate in space: `first` leads away from the hinge, which lies on its
    /// rim.
    pub const fn plate(&self) -> &Plate {
        &self.plate
    }

    /// cot λ.
    pub(crate) const fn cotangent(&self) -> f64 {
        self.cotangent
    }

    /// Height of the plate's centre over the face.
    pub(crate) const fn height(&self) -> Mm {
        self.height
    }

    /// A point seen from the hinge, in the directions (out, r̂, tangent).
    pub(crate) fn seen_from_hinge(&self, point: Vec3) -> Vec3 {
        self.along_hinge(point - Vec3::from_wall(0.0, self.hinge))
    }

    /// A vector in the directions (out, r̂, tangent).
    pub(crate) fn along_hinge(&self, vector: Vec3) -> Vec3 {
        let in_wall = Vec2::new(vector.u, vector.v);
        Vec3::new(
            vector.n,
            self.radial.dot(in_wall),
            self.tangent.dot(in_wall),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Ellipse;

    #[test]
    fn the_hinge_lies_on_the_plates_rim_and_on_the_wall() {
        let opening = Opening {
            centre: Vec2::new(1.0, -0.5),
            edge: Ellipse::circle(2.0),
        };
        let valve = AnnulusPlate {
            face: Face::Right,
            azimuth: degrees(90.0),
            rim: 3.0,
            diameter: 10.0,
            diameter_across: 8.0,
            lean: degrees(120.0),
            sag: 0.2,
        };
        let hinged = valve.hinged(&opening);
        assert!((hinged.hinge() - Vec2::new(1.0, 4.5)).length() < 1e-12);
        let plate = hinged.plate();
        let at_wall = plate.centre - plate.first * plate.semi_first;
        assert!((at_wall - Vec3::from_wall(0.0, hinged.hinge())).length() < 1e-12);
        // Past a quarter turn it leans over the defect, out of the wall.
        assert!(plate.first.n > 0.0 && plate.first.v < 0.0);
        assert!((plate.normal().length() - 1.0).abs() < 1e-12);
    }
}
