use crate::Pixels;
use crate::palette::Palette;
use scene::stroke::PageGround;
use std::io::Write as _;

/// Lines of pixels in one band.
const BAND: usize = 6;

/// Repeats shorter than this are written out: the counter would be longer.
const LEAST_REPEAT: usize = 4;

/// The bytes that show a picture at the cursor as sixels, in at most 256 colours:
/// those of the roles and their mixes, without dithering, whose lines would crawl.
/// `ground` is the one that it was painted on.
///
/// Source: DEC, VT330/VT340 Programmer Reference Manual, volume 2, chapter 14.
pub fn sixel(pixels: &Pixels, ground: PageGround) -> Vec<u8> {
    let mut palette = Palette::new(ground);
    let numbers: Vec<u8> = pixels.colours().map(|one| palette.number(one)).collect();
    let width = pixels.size().width() as usize;
    let mut bytes = Vec::with_capacity(numbers.len() / 4 + 8192);
    let size = pixels.size();
    // 1: what is not painted stays as it is; a pixel is as high as it is wide.
    put(
        &mut bytes,
        format_args!("\x1bP0;1;0q\"1;1;{};{}", size.width(), size.height()),
    );
    for (number, colour) in palette.colours().iter().enumerate() {
        let [red, green, blue] = colour.channels().map(per_cent);
        put(&mut bytes, format_args!("#{number};2;{red};{green};{blue}"));
    }
    for (place, band) in numbers.chunks(BAND * width).enumerate() {
        if place > 0 {
            bytes.push(b'-');
        }
        put_band(&mut bytes, band, width);
    }
    bytes.extend_from_slice(b"\x1b\\");
    bytes
}

/// A band, colour by colour over the same line of sixels.
fn put_band(bytes: &mut Vec<u8>, band: &[u8], width: usize) {
    let mut lines: Vec<Option<Vec<u8>>> = vec![None; 1 << u8::BITS];
    for (line, pixels) in band.chunks(width).enumerate() {
        for (x, number) in pixels.iter().enumerate() {
            let sixels = lines[usize::from(*number)].get_or_insert_with(|| vec![0; width]);
            sixels[x] |= 1 << line;
        }
    }
    let used = lines.iter().enumerate().filter_map(|(number, sixels)| {
        let sixels = sixels.as_ref()?;
        Some((number, sixels))
    });
    for (place, (number, sixels)) in used.enumerate() {
        if place > 0 {
            bytes.push(b'$');
        }
        put(bytes, format_args!("#{number}"));
        let end = sixels
            .iter()
            .rposition(|bits| *bits != 0)
            .map_or(0, |last| last + 1);
        for same in sixels[..end].chunk_by(|one, other| one == other) {
            let sixel = b'?' + same[0];
            if same.len() < LEAST_REPEAT {
                bytes.extend(same.iter().map(|_| sixel));
            } else {
                put(bytes, format_args!("!{}", same.len()));
                bytes.push(sixel);
            }
        }
    }
}

/// A channel as sixel has it, 0 to 100.
fn per_cent(channel: u8) -> u16 {
    (u16::from(channel) * 100 + 127) / 255
}

fn put(bytes: &mut Vec<u8>, text: std::fmt::Arguments) {
    // Writing to a vector cannot fail.
    let _ = bytes.write_fmt(text);
}
