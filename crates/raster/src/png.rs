use crate::{Pixels, RasterError};
use png::{BitDepth, ColorType, Compression, Encoder, PixelDimensions, Unit};

/// Millimetres in a metre.
const MM_PER_METRE: f64 = 1000.0;

/// A painted picture as a PNG file, in 24-bit colour and with its true scale, so that
/// it prints at the size of its page. `title` and `description` go into the file for
/// those who cannot see it. The same picture gives the same bytes.
pub fn png(pixels: &Pixels, title: &str, description: &str) -> Result<Vec<u8>, RasterError> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, pixels.size().width(), pixels.size().height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::Balanced);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a positive number of pixels; a cast that saturates harms no picture"
    )]
    let per_metre = (pixels.scale() * MM_PER_METRE).round() as u32;
    encoder.set_pixel_dims(Some(PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: Unit::Meter,
    }));
    for (keyword, text) in [("Title", title), ("Description", description)] {
        if !text.is_empty() {
            encoder.add_itxt_chunk(keyword.to_owned(), text.to_owned())?;
        }
    }
    let data: Vec<u8> = pixels
        .colours()
        .flat_map(scene::stroke::Rgb::channels)
        .collect();
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&data)?;
    writer.finish()?;
    Ok(bytes)
}
