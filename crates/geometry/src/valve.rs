use crate::{Face, Mm, Opening, Plate, Radians, Vec2, Vec3, degrees, radial};
use std::f64::consts::PI;

/// A neighbouring valve's annulus, as an elliptical plate hinged at the wall.
///
/// The hinge stands the rim's length past the opening's edge at a clock position, and
/// the plate rises from it at the angle of the annulus to the septum. Its closed cusps
/// reach from the plate down to the cusp depth, in the phase that its readings name.
/// Open cusps, chordae and prolapse are left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnnulusPlate {
    /// The face of the wall that the valve stands on.
    pub face: Face,
    /// Azimuth α of the hinge about the opening on that face.
    pub clock_position: Radians,
    /// Rim e ≥ 0: from the opening's edge to the hinge.
    pub rim: Mm,
    /// Diameter D1 of the annulus away from the hinge, along d̂ = cos λ r̂ + sin λ m̂.
    pub diameter: Mm,
    /// Diameter D2 of the annulus along the tangent of the hinge.
    pub diameter_across: Mm,
    /// Angle λ of the annulus to the septum: a quarter turn stands square to the wall,
    /// more leans over the defect.
    pub annulus_angle: Radians,
    /// Cusp depth p ≥ 0: how far the closed cusps bulge below the annulus.
    pub cusp_depth: Mm,
}

impl AnnulusPlate {
    /// The least angle between a plate and the wall: a flatter one is no
    /// valve, and would meet a disc only at infinity.
    const LEAST_ANGLE: Radians = degrees(1.0);

    /// The least semi-axis: a plate without width would have no scale.
    const LEAST_SEMI_AXIS: Mm = 1e-6;

    /// The plate hinged at the edge of the opening on its face.
    ///
    /// Angles outside 1° to 179° are taken as the nearer of the two, diameters
    /// under 2 nm as 2 nm.
    pub fn hinged(&self, opening: &Opening) -> HingedPlate {
        let radial = radial(self.clock_position);
        let tangent = Vec2::new(-radial.v, radial.u);
        let hinge =
            opening.centre + radial * (opening.edge.polar_radius(self.clock_position) + self.rim);
        let (sin_angle, cos_angle) = libm::sincos(
            self.annulus_angle
                .clamp(Self::LEAST_ANGLE, PI - Self::LEAST_ANGLE),
        );
        let along = Vec3::from_wall(sin_angle, radial * cos_angle);
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
            cotangent: cos_angle / sin_angle,
            height: semi_along * sin_angle,
            cusp_depth: self.cusp_depth,
            plate,
        }
    }
}

/// An annulus plate at its hinge, made once for an anatomy and used for every size.
///
/// Points are in the frame of its face: n counts from the face out of the wall
/// into the cavity, u and v as in the wall, from the defect's centre. On the
/// left face that is a mirror image, which no distance feels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HingedPlate {
    face: Face,
    hinge: Vec2,
    radial: Vec2,
    tangent: Vec2,
    cotangent: f64,
    height: Mm,
    cusp_depth: Mm,
    plate: Plate,
}

impl HingedPlate {
    /// The face of the wall that the valve stands on.
    pub const fn face(&self) -> Face {
        self.face
    }

    /// The hinge in the wall plane, from the centre of the defect's narrowest part.
    pub const fn hinge(&self) -> Vec2 {
        self.hinge
    }

    /// The direction r̂ from the opening toward the hinge.
    pub const fn radial(&self) -> Vec2 {
        self.radial
    }

    /// Cusp depth p ≥ 0: how far the closed cusps bulge below the annulus.
    pub const fn cusp_depth(&self) -> Mm {
        self.cusp_depth
    }

    /// The plate in space: `first` leads away from the hinge, which lies on its
    /// rim.
    pub const fn plate(&self) -> &Plate {
        &self.plate
    }

    /// cot λ, λ being the angle of the annulus to the septum.
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
            clock_position: degrees(90.0),
            rim: 3.0,
            diameter: 10.0,
            diameter_across: 8.0,
            annulus_angle: degrees(120.0),
            cusp_depth: 0.2,
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
