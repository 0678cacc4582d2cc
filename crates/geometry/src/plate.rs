use crate::{Mm, Vec3};

/// A flat elliptical plate in space, without thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Centre of the plate.
    pub centre: Vec3,
    /// Unit vector along one axis.
    pub first: Vec3,
    /// Unit vector along the other axis, at right angles to `first`.
    pub second: Vec3,
    /// Semi-axis along `first`.
    pub semi_first: Mm,
    /// Semi-axis along `second`.
    pub semi_second: Mm,
}

impl Plate {
    /// Unit vector square to the plate.
    pub fn normal(&self) -> Vec3 {
        self.first.cross(self.second)
    }

    /// Whether a point of the plate's plane lies in the plate or on its rim.
    pub(crate) fn covers(&self, point: Vec3) -> bool {
        let from_centre = point - self.centre;
        let (x, y) = (from_centre.dot(self.first), from_centre.dot(self.second));
        let (a, b) = (self.semi_first, self.semi_second);
        let (bx, ay, ab) = (b * x, a * y, a * b);
        // The bounds settle a plate without width, for which the products are all 0.
        x.abs() <= a && y.abs() <= b && bx * bx + ay * ay <= ab * ab
    }
}

/// A flat round plate in space, without thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundPlate {
    /// Centre of the plate.
    pub centre: Vec3,
    /// Unit vector square to the plate.
    pub normal: Vec3,
    /// Radius of the plate.
    pub radius: Mm,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plate_covers_its_rim_and_no_more() {
        let plate = Plate {
            centre: Vec3::new(0.0, 1.0, 0.0),
            first: Vec3::new(0.0, 1.0, 0.0),
            second: Vec3::new(0.0, 0.0, 1.0),
            semi_first: 4.0,
            semi_second: 2.0,
        };
        assert!(plate.covers(Vec3::new(0.0, 5.0, 0.0)));
        assert!(plate.covers(Vec3::new(0.0, 1.0, -2.0)));
        assert!(!plate.covers(Vec3::new(0.0, 4.0, 1.9)));
        assert_eq!(plate.normal(), Vec3::new(1.0, 0.0, 0.0));
        let needle = Plate {
            semi_second: 0.0,
            ..plate
        };
        assert!(needle.covers(Vec3::new(0.0, -3.0, 0.0)));
        assert!(!needle.covers(Vec3::new(0.0, 5.1, 0.0)));
    }
}
