use crate::Valve;
use std::ops::Index;

/// A value for each valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerValve<T>([T; Valve::ALL.len()]);

impl<T> PerValve<T> {
    /// The values that a function gives for each valve.
    pub fn of(of: impl FnMut(Valve) -> T) -> Self {
        Self(Valve::ALL.map(of))
    }

    /// Applies a function to each value.
    pub fn map<U>(self, made_of: impl FnMut(T) -> U) -> PerValve<U> {
        PerValve(self.0.map(made_of))
    }
}

impl<T> Index<Valve> for PerValve<T> {
    type Output = T;

    fn index(&self, valve: Valve) -> &T {
        &self.0[valve.index()]
    }
}
