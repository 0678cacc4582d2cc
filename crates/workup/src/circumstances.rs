use physiology::{LeftSide, MixedVenous};

/// The facts and parameters of a case that are the same in all draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circumstances {
    /// Whether rows of adults count.
    pub is_adult: bool,
    /// Which saturation stands for mixed venous blood.
    pub mixed_venous: MixedVenous,
    /// What is known of obstructions between the left ventricle and the cuff.
    pub left_side: LeftSide,
    /// The share of a beat in which blood runs through the defect.
    pub systole_share: f64,
    /// The ratio of the mean to the peak gradient across the defect.
    pub mean_over_peak: f64,
    /// The discharge coefficient of the defect.
    pub discharge: f64,
}
