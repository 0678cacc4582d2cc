use crate::drawn::Drawn;
use crate::{Bearing, Figures, Input, Limits, Truth, published};
use measurement::DrawsError;

/// What a work-up comes to on the values as measured, for whoever ranks sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct AsMeasured {
    /// The figures.
    pub figures: Figures,
    /// The rows of guidance against closing that are met.
    pub against: Vec<MetRow>,
}

/// A row of guidance that a case meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MetRow {
    /// Its id in the file of guidance.
    pub id: String,
    /// What it says.
    pub says: String,
    /// Its source.
    pub source: String,
}

impl AsMeasured {
    /// Works a case up against published limits without draws.
    pub fn new(input: &Input, limits: &Limits) -> Result<Self, DrawsError> {
        let at = limits.circumstances(input);
        let drawn = Drawn::new(input, &at, 0, 0)?;
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
