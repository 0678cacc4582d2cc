use crate::Face;
use std::ops::{Index, IndexMut};

/// A pair of values, one for each face of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerFace<T>([T; 2]);

impl<T> PerFace<T> {
    /// A pair from the value of the left face and that of the right.
    pub const fn new(left: T, right: T) -> Self {
        Self([left, right])
    }

    /// A pair whose values a function gives for each face.
    pub fn of(of: impl FnMut(Face) -> T) -> Self {
        Self(Face::BOTH.map(of))
    }

    /// A pair of references to both values.
    pub const fn as_ref(&self) -> PerFace<&T> {
        let [left, right] = &self.0;
        PerFace([left, right])
    }

    /// Iterates over the left value and then the right one.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// Iterates over the left value and then the right one, to change them.
    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.0.iter_mut()
    }

    /// The same pair with left and right exchanged.
    #[must_use]
    pub fn swapped(self) -> Self {
        let [left, right] = self.0;
        Self([right, left])
    }

    /// A pair of what a function makes of each value.
    pub fn map<U>(self, made_of: impl FnMut(T) -> U) -> PerFace<U> {
        PerFace(self.0.map(made_of))
    }

    /// Both values as an array, left first.
    pub fn into_both(self) -> [T; 2] {
        self.0
    }
}

impl<T> Index<Face> for PerFace<T> {
    type Output = T;

    fn index(&self, face: Face) -> &T {
        &self.0[face.index()]
    }
}

impl<T> IndexMut<Face> for PerFace<T> {
    fn index_mut(&mut self, face: Face) -> &mut T {
        &mut self.0[face.index()]
    }
}

impl<'a, T> IntoIterator for &'a PerFace<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'a, T> IntoIterator for &'a mut PerFace<T> {
    type Item = &'a mut T;
    type IntoIter = std::slice::IterMut<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}
