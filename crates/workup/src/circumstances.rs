use physiology::{LeftSide, MixedVenous};

/// What stays the same in all draws of a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circumstances {
    /// Whether rows of adults count.
    pub is_adult: bool,
    /// Which saturation stands for mixed venous blood.
    pub mixed_venous: MixedVenous,
    /// The way from the left ventricle to the cuff.
    pub left_side: LeftSide,
    /// Share of a beat in which blood runs through the defect.
    pub systole_share: f64,
    /// Mean over peak gradient across the defect.
    pub mean_over_peak: f64,
    /// Discharge coefficient of the hole.
    pub discharge: f64,
}
