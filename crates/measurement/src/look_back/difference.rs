/// The difference of a reading from what was seen: reading − seen, in the unit of the
/// reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Difference {
    /// Exactly this difference.
    Exactly(f64),
    /// This difference or more: what was seen has no sign below 0, such as contact.
    AtLeast(f64),
    /// This difference or less: what was seen could not be wider, such as a waist in a wide
    /// defect.
    AtMost(f64),
}
