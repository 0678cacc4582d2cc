use crate::Face;
use std::ops::{Index, IndexMut};

/// One of something on each face of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerFace<T>([T; 2]);

impl<T> PerFace<T> {
    /// What is on the left face and what is on the right.
    pub const fn new(left: T, right: T) -> Self {
        Self([left, right])
    }

    /// What a face has.
    pub fn of(of: impl FnMut(Face) -> T) -> Self {
        Self(Face::BOTH.map(of))
    }

    /// The same, borrowed.
    pub const fn as_ref(&self) -> PerFace<&T> {
        let [left, right] = &self.0;
        PerFace([left, right])
    }

    /// The left one and then the right one.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// The left one and then the right one, to be changed.
    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.0.iter_mut()
    }

    /// What was on the left is on the right.
    #[must_use]
    pub fn swapped(self) -> Self {
        let [left, right] = self.0;
        Self([right, left])
    }

    /// What comes of each.
    pub fn map<U>(self, made_of: impl FnMut(T) -> U) -> PerFace<U> {
        PerFace(self.0.map(made_of))
    }

    /// The left one and the right one.
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
