/// How far a reading was from what was seen: reading − seen, in the unit of the reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Difference {
    /// Just so much.
    Exactly(f64),
    /// So much or more: what was seen has no sign below 0, such as contact.
    AtLeast(f64),
    /// So much or less: what was seen could not be wider, such as a waist in a wide
    /// defect.
    AtMost(f64),
}
