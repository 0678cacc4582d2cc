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
