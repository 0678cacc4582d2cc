use crate::{Radians, Vec2};
use std::f64::consts::PI;

/// A face of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// The left (high-pressure) face, n = 0.
    Left,
    /// The right face, n = T.
    Right,
}

impl Face {
    /// Both faces, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// Index of the face in an array of two: 0 for the left, 1 for the right.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// The other face.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// The n component of the direction out of the wall on this face.
    pub const fn outward(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

/// Unit vector r̂(θ) = u cos θ + v sin θ at azimuth θ in the wall plane.
pub fn radial(azimuth: Radians) -> Vec2 {
    let (sin, cos) = libm::sincos(azimuth);
    Vec2::new(cos, sin)
}

/// Unit vector a quarter turn clockwise of r̂(θ), seen from the left.
pub fn tangent(azimuth: Radians) -> Vec2 {
    let (sin, cos) = libm::sincos(azimuth);
    Vec2::new(-sin, cos)
}

/// Converts degrees to radians: angles are degrees in files and radians inside.
pub const fn degrees(angle: f64) -> Radians {
    angle * (PI / 180.0)
}

/// The hour, 0 < h ≤ 12, at which an azimuth stands on a clock seen from the
/// left: 30° an hour, 12 toward the reference valve.
pub fn clock_hour(azimuth: Radians) -> f64 {
    let hour = (azimuth * (6.0 / PI)).rem_euclid(12.0);
    if hour == 0.0 { 12.0 } else { hour }
}
