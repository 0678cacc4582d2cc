use crate::{Law, Modality, Quantity};

/// The law of one quantity and its correlations, ready to be drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The quantity.
    pub quantity: Quantity,
    /// The law of the quantity's doubt.
    pub law: Law,
    /// Weight of each modality in the value. The scale error of a modality is the same for
    /// all lengths; empty where the quantity is no length.
    pub scale_shares: Vec<(Modality, f64)>,
    /// Correlation with quantities that have no partners of their own, such as
    /// a rim's with the axes of its opening.
    pub partners: Vec<(Quantity, f64)>,
}

impl Estimate {
    /// An estimate without scale error and without partners.
    pub const fn alone(quantity: Quantity, law: Law) -> Self {
        Self {
            quantity,
            law,
            scale_shares: Vec::new(),
            partners: Vec::new(),
        }
    }
}
