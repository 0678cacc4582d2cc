use crate::Mm;

/// Half the chord of a disc that passes at a distance from its centre, the root of
/// R² − (σ × r̂)²; 0 where rounding takes the ray past the disc's side.
pub(super) fn half_chord(radius: Mm, aside: Mm) -> Mm {
    ((radius - aside) * (radius + aside)).max(0.0).sqrt()
}
