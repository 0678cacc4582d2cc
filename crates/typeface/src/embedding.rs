//! What a file needs to carry a face along.

use crate::Weight;

/// A face as a file embeds it; lengths in thousandths of an em.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Embedding {
    /// Its name, of letters and hyphens.
    pub name: &'static str,
    /// The TrueType file.
    pub data: &'static [u8],
    /// The box that holds every glyph: left, bottom, right, top.
    pub bounds: [f64; 4],
    /// How far letters rise over the baseline.
    pub ascent: f64,
    /// How far letters reach below it, below 0.
    pub descent: f64,
    /// The width of an upright stem. Source: assumption, of use only where a reader
    /// replaces the face.
    pub stem: f64,
}

impl Weight {
    /// The face for embedding.
    pub fn embedding(self) -> Embedding {
        let (name, stem) = match self {
            Self::Regular => ("RimwiseSans", 80.0),
            Self::Bold => ("RimwiseSans-Bold", 140.0),
        };
        let mut embedding = Embedding {
            name,
            data: self.data(),
            bounds: [0.0; 4],
            ascent: 0.0,
            descent: 0.0,
            stem,
        };
        if let Some(face) = self.face() {
            let thousandths =
                |units: i16| 1000.0 * f64::from(units) / f64::from(face.units_per_em());
            let all = face.global_bounding_box();
            embedding.bounds = [all.x_min, all.y_min, all.x_max, all.y_max].map(thousandths);
            embedding.ascent = thousandths(face.ascender());
            embedding.descent = thousandths(face.descender());
        }
        embedding
    }

    /// The number of a letter's glyph; `None` where the face lacks it.
    pub fn glyph_number(self, letter: char) -> Option<u16> {
        self.glyph(letter).map(|glyph| glyph.0)
    }

    /// How wide a letter is, in thousandths of an em.
    pub fn thousandths(self, letter: char) -> f64 {
        1000.0 * self.advance(letter)
    }
}
