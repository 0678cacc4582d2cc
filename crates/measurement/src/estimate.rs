use crate::{Law, Modality, Quantity};

/// What is believed of one quantity, ready to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The quantity.
    pub quantity: Quantity,
    /// The law of its doubt.
    pub law: Law,
    /// Weight of each modality in its value: its scale error is one for all
    /// lengths. Empty where the quantity is no length.
    pub scale_shares: Vec<(Modality, f64)>,
    /// Correlation with quantities that have no partners of their own, such as
    /// a rim's with the axes of its opening.
    pub partners: Vec<(Quantity, f64)>,
}

impl Estimate {
    /// A quantity on its own: no scale error, no partner.
    pub const fn alone(quantity: Quantity, law: Law) -> Self {
        Self {
            quantity,
            law,
            scale_shares: Vec::new(),
            partners: Vec::new(),
        }
    }
}
