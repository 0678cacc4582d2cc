use crate::size::is_page;
use crate::{PixelSize, RasterError};
use scene::Point;
use scene::stroke::Drawing;

/// Where the page lies among the pixels: as large as they allow, not distorted, in
/// their middle.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fit {
    /// Pixels a millimetre.
    pub(crate) scale: f64,
    left: f64,
    top: f64,
}

impl Fit {
    pub(crate) fn new(drawing: &Drawing, size: PixelSize) -> Result<Self, RasterError> {
        let (width, height) = (f64::from(size.width()), f64::from(size.height()));
        let scale = (width / drawing.width).min(height / drawing.height);
        if !is_page(drawing) || !scale.is_finite() || scale <= 0.0 {
            return Err(RasterError::NoPage {
                width: drawing.width,
                height: drawing.height,
            });
        }
        Ok(Self {
            scale,
            left: 0.5 * (width - scale * drawing.width),
            top: 0.5 * (height - scale * drawing.height),
        })
    }

    /// The pixel position of a point of the page.
    pub(crate) fn at(&self, point: Point) -> [f64; 2] {
        [
            self.left + self.scale * point.x,
            self.top + self.scale * point.y,
        ]
    }
}
