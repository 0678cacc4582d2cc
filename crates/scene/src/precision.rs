use geometry::{Accuracy, Mm};

/// How far a chord of a picture may stray from the outline it stands for: under
/// what any picture shows, also where a ray meets the outline aslant.
const CHORD: Mm = 0.002;

/// The accuracy of every outline.
pub(crate) fn outline() -> Accuracy {
    Accuracy::new(CHORD).unwrap_or_default()
}
