//! Letters that the embedded face lacks: printed as their code point.

use std::borrow::Cow;
use std::fmt::Write as _;
use typeface::Weight;

/// What is printed of a text: each letter without a glyph as `U+5FC3`.
pub(crate) fn printed(text: &str, weight: Weight) -> Cow<'_, str> {
    let missing = typeface::missing_glyphs(text, weight);
    if missing.is_empty() {
        return Cow::Borrowed(text);
    }
    let mut printed = String::with_capacity(text.len() * 2);
    for letter in text.chars() {
        if missing.contains(&letter) {
            let _ = write!(printed, "U+{:04X}", u32::from(letter));
        } else {
            printed.push(letter);
        }
    }
    Cow::Owned(printed)
}

/// How wide what is printed of a text is, em.
pub(crate) fn width(text: &str, weight: Weight) -> f64 {
    typeface::width(&printed(text, weight), weight)
}
