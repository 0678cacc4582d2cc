use std::ops::{Add, Mul, Neg, Sub};

/// A vector in the plane of the wall: u toward the reference valve, v = n × u.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec2 {
    /// Component toward the reference valve.
    pub u: f64,
    /// Component a quarter turn clockwise from u, seen from the left.
    pub v: f64,
}

impl Vec2 {
    /// The zero vector.
    pub const ZERO: Self = Self { u: 0.0, v: 0.0 };

    /// The vector (u, v).
    pub const fn new(u: f64, v: f64) -> Self {
        Self { u, v }
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f64 {
        self.u * other.u + self.v * other.v
    }

    /// The n component of the vector product: positive when `other` lies
    /// clockwise of `self`, seen from the left.
    pub fn cross(self, other: Self) -> f64 {
        self.u * other.v - self.v * other.u
    }

    /// Length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The vector turned by `angle` from u toward v.
    #[must_use]
    pub fn turned(self, angle: crate::Radians) -> Self {
        let (sin, cos) = libm::sincos(angle);
        Self::new(self.u * cos - self.v * sin, self.u * sin + self.v * cos)
    }
}

/// A vector in the frame (n, u, v).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec3 {
    /// Component through the wall, from left to right.
    pub n: f64,
    /// Component toward the reference valve.
    pub u: f64,
    /// Component along v = n × u.
    pub v: f64,
}

impl Vec3 {
    /// The zero vector.
    pub const ZERO: Self = Self {
        n: 0.0,
        u: 0.0,
        v: 0.0,
    };

    /// The vector (n, u, v).
    pub const fn new(n: f64, u: f64, v: f64) -> Self {
        Self { n, u, v }
    }

    /// The vector with the given component through the wall and in it.
    pub const fn from_wall(n: f64, in_wall: Vec2) -> Self {
        Self::new(n, in_wall.u, in_wall.v)
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f64 {
        self.n * other.n + self.u * other.u + self.v * other.v
    }

    /// Vector product.
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.u * other.v - self.v * other.u,
            self.v * other.n - self.n * other.v,
            self.n * other.u - self.u * other.n,
        )
    }

    /// Length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }
}

macro_rules! linear {
    ($vector:ident, $($axis:ident),+) => {
        impl Add for $vector {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self { $($axis: self.$axis + other.$axis),+ }
            }
        }
        impl Sub for $vector {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self { $($axis: self.$axis - other.$axis),+ }
            }
        }
        impl Mul<f64> for $vector {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self { $($axis: self.$axis * factor),+ }
            }
        }
        impl Neg for $vector {
            type Output = Self;
            fn neg(self) -> Self {
                self * -1.0
            }
        }
    };
}

linear!(Vec2, u, v);
linear!(Vec3, n, u, v);
