/// The block glyphs that a cell may be made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Blocks {
    /// Half and quadrant blocks (Unicode 3.2), which terminals draw everywhere.
    #[default]
    Quadrants,
    /// Two by three (Unicode 13).
    Sextants,
    /// Two by four (Unicode 16).
    Octants,
}

impl Blocks {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Quadrants, Self::Sextants, Self::Octants];

    /// How many parts a cell has from top to bottom; it has two across.
    pub const fn lines(self) -> usize {
        match self {
            Self::Quadrants => 2,
            Self::Sextants => 3,
            Self::Octants => 4,
        }
    }

    /// The glyph that fills these parts of a cell: bit 0 for the upper left one, 1
    /// for the upper right one, 2 for the left one of the next line and so on. The
    /// empty cell is a space.
    pub const fn glyph(self, parts: u8) -> char {
        match self {
            Self::Quadrants => QUADRANTS[(parts & 0xF) as usize],
            Self::Sextants => sextant(parts & 0x3F),
            Self::Octants => octant(parts),
        }
    }
}

/// From the empty cell to the full one, by the bits of the quadrants.
const QUADRANTS: [char; 16] = [
    ' ', '▘', '▝', '▀', '▖', '▌', '▞', '▛', '▗', '▚', '▐', '▜', '▄', '▙', '▟', '█',
];

/// Halves and the like were encoded before sextants were, and have no place among
/// them (The Unicode Standard, Symbols for Legacy Computing, U+1FB00 to U+1FB3B).
const fn sextant(parts: u8) -> char {
    const LEFT: u8 = 0b01_01_01;
    const RIGHT: u8 = 0b10_10_10;
    match parts {
        0 => ' ',
        LEFT => '▌',
        RIGHT => '▐',
        0x3F => '█',
        _ => {
            let earlier = 1 + (parts > LEFT) as u32 + (parts > RIGHT) as u32;
            glyph(0x1_FB00 + parts as u32 - earlier)
        }
    }
}

/// Octants that have a glyph from an earlier block, as bits and glyph, by rising
/// bits; the others follow one another by rising bits (The Unicode Standard 16.0,
/// Symbols for Legacy Computing Supplement, U+1CD00 to U+1CDE5).
const EARLIER_OCTANTS: [(u8, char); 26] = [
    (0b0000_0000, ' '),
    (0b0000_0001, '\u{1CEA8}'),
    (0b0000_0010, '\u{1CEAB}'),
    (0b0000_0011, '\u{1FB82}'),
    (0b0000_0101, '▘'),
    (0b0000_1010, '▝'),
    (0b0000_1111, '▀'),
    (0b0001_0100, '\u{1FBE6}'),
    (0b0010_1000, '\u{1FBE7}'),
    (0b0011_1111, '\u{1FB85}'),
    (0b0100_0000, '\u{1CEA3}'),
    (0b0101_0000, '▖'),
    (0b0101_0101, '▌'),
    (0b0101_1010, '▞'),
    (0b0101_1111, '▛'),
    (0b1000_0000, '\u{1CEA0}'),
    (0b1010_0000, '▗'),
    (0b1010_0101, '▚'),
    (0b1010_1010, '▐'),
    (0b1010_1111, '▜'),
    (0b1100_0000, '▂'),
    (0b1111_0000, '▄'),
    (0b1111_0101, '▙'),
    (0b1111_1010, '▟'),
    (0b1111_1100, '▆'),
    (0b1111_1111, '█'),
];

const fn octant(parts: u8) -> char {
    let mut earlier = 0;
    while earlier < EARLIER_OCTANTS.len() && EARLIER_OCTANTS[earlier].0 < parts {
        earlier += 1;
    }
    if earlier < EARLIER_OCTANTS.len() && EARLIER_OCTANTS[earlier].0 == parts {
        return EARLIER_OCTANTS[earlier].1;
    }
    #[expect(clippy::cast_possible_truncation, reason = "at most 26")]
    let earlier = earlier as u32;
    glyph(0x1_CD00 + parts as u32 - earlier)
}

/// The glyph of a code point that is one.
const fn glyph(code: u32) -> char {
    match char::from_u32(code) {
        Some(glyph) => glyph,
        None => char::REPLACEMENT_CHARACTER,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_pattern_has_a_glyph_of_its_own() {
        for blocks in Blocks::ALL {
            let patterns = 1_u16 << (2 * blocks.lines());
            let glyphs = (0..patterns).map(|parts| {
                let parts = u8::try_from(parts).unwrap();
                blocks.glyph(parts)
            });
            let different: BTreeSet<char> = glyphs.collect();
            assert_eq!(different.len(), usize::from(patterns), "{blocks:?}");
        }
    }

    /// First and last of the blocks of the standard, and names from its charts.
    #[test]
    fn glyphs_are_those_of_the_standard() {
        let sextants = [
            (0b1, '\u{1FB00}'),
            (0b11_1110, '\u{1FB3B}'),
            (0b10110, '\u{1FB14}'),
        ];
        for (parts, glyph) in sextants {
            assert_eq!(Blocks::Sextants.glyph(parts), glyph);
        }
        let octants = [
            (0b100, '\u{1CD00}'),
            (0b111, '\u{1CD02}'),
            (0xFE, '\u{1CDE5}'),
        ];
        for (parts, glyph) in octants {
            assert_eq!(Blocks::Octants.glyph(parts), glyph);
        }
        assert!(EARLIER_OCTANTS.is_sorted());
    }
}
