use crate::Mm;

/// A point of a lengthwise section of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionPoint {
    /// Through the wall, from left to right; the left face is at 0.
    pub n: Mm,
    /// Along the section's azimuth, from the point it goes through.
    pub r: Mm,
}
