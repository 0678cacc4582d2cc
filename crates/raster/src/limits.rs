//! How large a picture may be.

/// Most pixels along a side: four times the plate at print quality.
pub(crate) const MOST_SIDE: u32 = 16_384;

/// Most pixels in all; a picture takes 4 bytes each while it is painted.
pub(crate) const MOST_PIXELS: u64 = 1 << 24;

/// Most cells along a side: more than any terminal has.
pub(crate) const MOST_CELLS: u16 = 1024;
