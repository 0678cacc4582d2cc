use crate::Mm;

/// The largest error a search may leave in a length, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Accuracy(Mm);

impl Accuracy {
    /// The accuracy of every check: one nanometre, far below what any reading tells apart.
    pub const DEFAULT: Self = Self(1e-6);

    /// An accuracy of `millimetres`, or `None` unless it is positive and finite.
    pub fn new(millimetres: Mm) -> Option<Self> {
        (millimetres > 0.0 && millimetres.is_finite()).then_some(Self(millimetres))
    }

    /// The largest error in millimetres.
    pub const fn mm(self) -> Mm {
        self.0
    }
}

impl Default for Accuracy {
    fn default() -> Self {
        Self::DEFAULT
    }
}
