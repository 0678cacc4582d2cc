use crate::drawn::FigureDraws;
use crate::{Bearing, Figures, Input, Limits, Truth, published};
use measurement::DrawsError;

/// The work-up on the values as measured, for the ranking of sizes: figures, and the
/// guidance against closing that is met.
#[derive(Clone, Debug, PartialEq)]
pub struct AsMeasured {
    /// The figures as measured.
    pub figures: Figures,
    /// The rows of guidance against closing that are met.
    pub against: Vec<MetRow>,
}

/// A row of guidance that a case meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MetRow {
    /// The row's id in the file of guidance.
    pub id: String,
    /// The guidance in words.
    pub says: String,
    /// The source of the guidance.
    pub source: String,
}

impl AsMeasured {
    /// The work-up of a case against guidance, without draws.
    pub fn new(input: &Input, limits: &Limits) -> Result<Self, DrawsError> {
        let at = limits.circumstances(input);
        let drawn = FigureDraws::new(input, &at, 0, 0)?;
        let against = published::standings(input, limits, at.is_adult, &drawn)
            .into_iter()
            .filter(|one| one.bearing == Bearing::AgainstClosing && one.truth == Truth::Met)
            .map(|one| MetRow {
                id: one.line.id,
                says: one.line.label,
                source: one.line.source,
            });
        Ok(Self {
            against: against.collect(),
            figures: drawn.nominal,
        })
    }
}
