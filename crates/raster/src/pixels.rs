use crate::brush::{Brush, Detail};
use crate::fit::Fit;
use crate::{PixelSize, RasterError};
use scene::stroke::colours::colour;
use scene::stroke::{Drawing, PageGround, Rgb};
use tiny_skia::{Color, Pixmap};

/// A line of a picture in pixels is at least this wide, pixels: thinner ones fade.
const LEAST_LINE: f64 = 0.7;

/// Texture is painted from this scale on, pixels a millimetre; below, it is mush.
const TEXTURE_FROM: f64 = 2.0;

/// A painted picture, 24-bit colour and opaque.
#[derive(Clone, Debug, PartialEq)]
pub struct Pixels {
    size: PixelSize,
    /// Red, green, blue and a full alpha for each pixel, line by line from the top.
    rgba: Vec<u8>,
    /// Pixels a millimetre of the page.
    scale: f64,
    missing: Vec<char>,
}

impl Pixels {
    /// Its size.
    pub const fn size(&self) -> PixelSize {
        self.size
    }

    /// How many pixels a millimetre of the page is.
    pub const fn scale(&self) -> f64 {
        self.scale
    }

    /// The characters for which the face has no glyph and a box was drawn.
    pub fn missing_glyphs(&self) -> &[char] {
        &self.missing
    }

    /// The colour of each pixel, line by line from the top.
    pub fn colours(&self) -> impl ExactSizeIterator<Item = Rgb> + '_ {
        let (pixels, _) = self.rgba.as_chunks::<4>();
        pixels
            .iter()
            .map(|&[red, green, blue, _]| Rgb { red, green, blue })
    }

    /// The colours of a block of pixels from its upper left corner, line by line.
    pub(crate) fn block(
        &self,
        [x, y]: [usize; 2],
        [width, height]: [usize; 2],
    ) -> impl Iterator<Item = Rgb> + '_ {
        let across = self.size.width() as usize;
        let (pixels, _) = self.rgba.as_chunks::<4>();
        (y..y + height).flat_map(move |line| {
            let start = line * across + x;
            let pixels = pixels[start..start + width].iter();
            pixels.map(|&[red, green, blue, _]| Rgb { red, green, blue })
        })
    }

    /// The mean colour of a block of pixels from its upper left corner, 0 to 255 a
    /// channel.
    pub(crate) fn mean(&self, corner: [usize; 2], area: [usize; 2]) -> [f32; 3] {
        let mut sums = [0_u32; 3];
        for one in self.block(corner, area) {
            for (sum, channel) in sums.iter_mut().zip(one.channels()) {
                *sum += u32::from(channel);
            }
        }
        #[expect(clippy::cast_precision_loss, reason = "a few dozen bytes")]
        sums.map(|sum| sum as f32 / (area[0] * area[1]) as f32)
    }

    /// The colour of a pixel; `None` outside the picture.
    pub fn colour(&self, x: u32, y: u32) -> Option<Rgb> {
        if x >= self.size.width() {
            return None;
        }
        let index = u64::from(y) * u64::from(self.size.width()) + u64::from(x);
        let (pixels, _) = self.rgba.as_chunks::<4>();
        let &[red, green, blue, _] = pixels.get(usize::try_from(index).ok()?)?;
        Some(Rgb { red, green, blue })
    }
}

/// Paints a drawing on a ground, as large as the size allows and not distorted.
pub fn paint(
    drawing: &Drawing,
    size: PixelSize,
    ground: PageGround,
) -> Result<Pixels, RasterError> {
    let fit = Fit::within(drawing, size)?;
    let detail = Detail {
        has_texture: fit.scale() >= TEXTURE_FROM,
        has_words: true,
        is_smooth: true,
        least_line: LEAST_LINE,
    };
    paint_detail(drawing, size, fit, ground, detail)
}

/// Paints a drawing with so much of its detail.
pub(crate) fn paint_detail(
    drawing: &Drawing,
    size: PixelSize,
    fit: Fit,
    ground: PageGround,
    detail: Detail,
) -> Result<Pixels, RasterError> {
    let mut pixmap = new_pixmap(size)?;
    let missing = Brush {
        pixmap: &mut pixmap,
        fit,
        detail,
        colour: &|role| {
            let [red, green, blue] = colour(role, ground).channels();
            Color::from_rgba8(red, green, blue, u8::MAX)
        },
    }
    .draw(drawing);
    Ok(Pixels {
        size,
        rgba: pixmap.take(),
        scale: fit.scale(),
        missing,
    })
}

/// An empty picture of a size.
pub(crate) fn new_pixmap(size: PixelSize) -> Result<Pixmap, RasterError> {
    Pixmap::new(size.width(), size.height()).ok_or(RasterError::Empty {
        width: size.width(),
        height: size.height(),
    })
}
