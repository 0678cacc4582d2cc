use std::sync::LazyLock;
use ttf_parser::{Face, GlyphId};

/// How high a capital letter stands over the baseline, em.
pub const CAP_HEIGHT: f64 = 0.688;

static REGULAR: LazyLock<Option<Face>> =
    LazyLock::new(|| Face::parse(Weight::Regular.data(), 0).ok());
static BOLD: LazyLock<Option<Face>> = LazyLock::new(|| Face::parse(Weight::Bold.data(), 0).ok());

/// The weight of the letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Weight {
    /// For words.
    Regular,
    /// For titles and numbers that count.
    Bold,
}

impl Weight {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::Regular, Self::Bold];

    /// The TrueType file of the face.
    pub(crate) const fn data(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../faces/regular.ttf"),
            Self::Bold => include_bytes!("../faces/bold.ttf"),
        }
    }

    /// The face, parsed once. It is `None` only for a damaged file, which the tests
    /// of this crate would show.
    pub(crate) fn face(self) -> Option<&'static Face<'static>> {
        match self {
            Self::Regular => REGULAR.as_ref(),
            Self::Bold => BOLD.as_ref(),
        }
    }

    /// The glyph of a letter.
    pub(crate) fn glyph(self, letter: char) -> Option<GlyphId> {
        self.face()?.glyph_index(letter)
    }

    /// The glyph of a letter, or the empty box.
    pub(crate) fn glyph_or_box(self, letter: char) -> GlyphId {
        self.glyph(letter).unwrap_or(GlyphId(0))
    }

    /// How far the next letter stands from the beginning of this one, em.
    pub(crate) fn advance(self, letter: char) -> f64 {
        let Some(face) = self.face() else { return 0.0 };
        let units = face.glyph_hor_advance(self.glyph_or_box(letter));
        f64::from(units.unwrap_or(0)) / f64::from(face.units_per_em())
    }
}
