use crate::size::is_page;
use crate::{PixelSize, RasterError};
use scene::Point;
use scene::stroke::Drawing;

/// Where the page lies among the pixels.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fit {
    /// Pixels a millimetre, across and down.
    scales: [f64; 2],
    corner: [f64; 2],
}

impl Fit {
    /// As large as the pixels allow, not distorted, in their middle.
    pub(crate) fn within(drawing: &Drawing, size: PixelSize) -> Result<Self, RasterError> {
        let over = Self::over(drawing, size)?;
        let scale = over.scales[0].min(over.scales[1]);
        let (width, height) = (f64::from(size.width()), f64::from(size.height()));
        Ok(Self {
            scales: [scale; 2],
            corner: [
                0.5 * (width - scale * drawing.width),
                0.5 * (height - scale * drawing.height),
            ],
        })
    }

    /// From edge to edge, for cells whose pixels are no squares.
    pub(crate) fn over(drawing: &Drawing, size: PixelSize) -> Result<Self, RasterError> {
        let scales = [
            f64::from(size.width()) / drawing.width,
            f64::from(size.height()) / drawing.height,
        ];
        let is_scale = |scale: f64| scale.is_finite() && scale > 0.0;
        if !is_page(drawing) || !scales.into_iter().all(is_scale) {
            return Err(RasterError::NoPage {
                width: drawing.width,
                height: drawing.height,
            });
        }
        Ok(Self {
            scales,
            corner: [0.0; 2],
        })
    }

    /// Pixels a millimetre of a line's width, whichever way it runs.
    pub(crate) fn scale(&self) -> f64 {
        (self.scales[0] * self.scales[1]).sqrt()
    }

    /// The pixel position of a point of the page.
    pub(crate) fn at(&self, point: Point) -> [f64; 2] {
        [
            self.corner[0] + self.scales[0] * point.x,
            self.corner[1] + self.scales[1] * point.y,
        ]
    }
}
