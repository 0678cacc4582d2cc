use crate::Mm;

/// The largest error a search may leave in a length, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Accuracy(Mm);

impl Accuracy {
    /// One nanometre: far below any reading, and what the checks use.
    pub const DEFAULT: Self = Self(1e-6);

    /// An accuracy of `millimetres`, or `None` unless it is positive and finite.
    pub fn new(millimetres: Mm) -> Option<Self> {
        (millimetres > 0.0 && millimetres.is_finite()).then_some(Self(millimetres))
    }

    /// The bound in millimetres.
    pub const fn mm(self) -> Mm {
        self.0
    }
}

impl Default for Accuracy {
    fn default() -> Self {
        Self::DEFAULT
    }
}
