use measurement::ModelError;

/// By how much a house takes the model to be wrong in one child.
#[derive(Clone, Debug, PartialEq)]
pub struct ModelErrorRow {
    /// What is wrong.
    pub of: ModelError,
    /// Its standard deviation, mm, or of the logarithm of a gradient; 0: the model is
    /// right.
    pub sd: f64,
    /// Its source.
    pub source: String,
}
