//! How wide words are, and which of their characters have no glyph.
//!
//! `cargo run -p typeface --example how_wide -- "rim 2.1 mm ✓"`

use typeface::{Weight, missing_glyphs, width};

/// Letters of 10 points, in millimetres.
const SIZE: f64 = 3.53;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let text = words.join(" ");
    for weight in Weight::ALL {
        let wide = SIZE * width(&text, weight);
        let missing = missing_glyphs(&text, weight);
        println!("{weight:?}: {wide:.1} mm at 10 points, no glyph for {missing:?}");
    }
}
