//! How the screen looks, as the operator chose it: no look changes what is said.

/// How the screen looks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looks {
    /// Its colours.
    pub palette: Palette,
    /// What its pictures are made of.
    pub pictures: Pictures,
    /// Whether the terminal shows 24-bit colours; otherwise a picture keeps to 256.
    pub has_true_colour: bool,
    /// Which ventricle a section has on its left.
    pub section_left: SectionLeft,
    /// Whether the plan is shown large and in few words, for a room.
    pub is_presented: bool,
    /// Whether the mouse is left to the terminal, to mark and copy text.
    pub mouse_is_free: bool,
}

/// Colours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Palette {
    /// For light text on a dark ground.
    #[default]
    Dark,
    /// For dark text on a light ground.
    Light,
    /// Bright and bold, nothing dimmed.
    HighContrast,
    /// None at all.
    Mono,
}

/// What pictures are made of, the finest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pictures {
    /// Pixels by the kitty graphics protocol where a picture stands alone, quadrant
    /// blocks elsewhere.
    Kitty,
    /// Pixels as sixels where a picture stands alone, quadrant blocks elsewhere.
    Sixel,
    /// Quadrant blocks in two colours a cell; every font has them.
    Quadrants,
    /// Two by three blocks a cell; fonts of Unicode 13.
    Sextants,
    /// Two by four blocks a cell; fonts of Unicode 16.
    Octants,
    /// Braille dots, told by pattern.
    #[default]
    Braille,
    /// Plain letters, told by pattern; every terminal has them.
    Ascii,
}

/// Which ventricle a section has on its left.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SectionLeft {
    /// The right one, as in a four-chamber view and on an oblique cine.
    #[default]
    RightVentricle,
    /// The left one, as in a long-axis view.
    LeftVentricle,
}

impl Palette {
    /// Every palette with its word.
    pub const ALL: [(&'static str, Self); 4] = [
        ("dark", Self::Dark),
        ("light", Self::Light),
        ("high-contrast", Self::HighContrast),
        ("mono", Self::Mono),
    ];

    /// The one after it, round the end.
    #[must_use]
    pub fn next(self) -> Self {
        after(&Self::ALL, self)
    }
}

impl Pictures {
    /// Every kind with its word.
    pub const ALL: [(&'static str, Self); 7] = [
        ("kitty", Self::Kitty),
        ("sixel", Self::Sixel),
        ("quadrants", Self::Quadrants),
        ("sextants", Self::Sextants),
        ("octants", Self::Octants),
        ("braille", Self::Braille),
        ("ascii", Self::Ascii),
    ];

    /// The kind after it, round the end, of those that a palette can show.
    #[must_use]
    pub fn next(self, palette: Palette) -> Self {
        let next = after(&Self::ALL, self.shown(palette));
        next.shown(palette)
    }

    /// What is shown of it by a palette: without colours braille in place of what
    /// needs them.
    #[must_use]
    pub fn shown(self, palette: Palette) -> Self {
        let is_out_of_reach = palette == Palette::Mono && self.needs_colours();
        if is_out_of_reach { Self::Braille } else { self }
    }

    /// Whether it tells one thing from another by colour and cannot do without.
    pub(crate) const fn needs_colours(self) -> bool {
        !matches!(self, Self::Braille | Self::Ascii)
    }

    /// Its word.
    pub fn word(self) -> &'static str {
        let found = Self::ALL.iter().find(|(_, one)| *one == self);
        found.map_or("", |(word, _)| word)
    }
}

impl Looks {
    /// What a change from another look did, in words for the status line; `None` where
    /// the page itself shows it.
    pub(crate) fn change_says(self, before: Self, mouse_key: &str) -> Option<String> {
        if self.palette != before.palette {
            return Some(self.palette.says().to_owned());
        }
        if self.pictures != before.pictures {
            return Some(format!("pictures in {}", self.pictures.made_of()));
        }
        match (before.mouse_is_free, self.mouse_is_free) {
            (false, true) => Some(format!(
                "the mouse marks text as in the terminal; {mouse_key} takes it back"
            )),
            (true, false) => Some(format!(
                "the mouse points and scrolls; {mouse_key} leaves it to the terminal"
            )),
            _ => None,
        }
    }
}

impl Palette {
    /// What it is for, in words.
    const fn says(self) -> &'static str {
        match self {
            Self::Dark => "colours for a dark ground",
            Self::Light => "colours for a light ground",
            Self::HighContrast => "bright colours, nothing dimmed",
            Self::Mono => "no colours; signs, words and patterns say the same",
        }
    }
}

impl Pictures {
    /// What they are made of, in words.
    const fn made_of(self) -> &'static str {
        match self {
            Self::Kitty => "pixels (kitty) where one stands alone, in filled cells elsewhere",
            Self::Sixel => "pixels (sixel) where one stands alone, in filled cells elsewhere",
            Self::Quadrants => "filled cells of two by two blocks",
            Self::Sextants => "filled cells of two by three blocks, for newer fonts",
            Self::Octants => "filled cells of two by four blocks, for the newest fonts",
            Self::Braille => "braille dots",
            Self::Ascii => "plain letters",
        }
    }
}

impl SectionLeft {
    /// Both with their words.
    pub const ALL: [(&'static str, Self); 2] = [
        ("right ventricle", Self::RightVentricle),
        ("left ventricle", Self::LeftVentricle),
    ];

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::RightVentricle => Self::LeftVentricle,
            Self::LeftVentricle => Self::RightVentricle,
        }
    }

    /// Its words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::RightVentricle => "right ventricle",
            Self::LeftVentricle => "left ventricle",
        }
    }
}

fn after<T: Copy + PartialEq>(all: &[(&str, T)], one: T) -> T {
    let mut round = all.iter().map(|(_, it)| *it).cycle();
    round.find(|it| *it == one);
    round.next().unwrap_or(one)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_colours_only_patterns_come_round() {
        let mut kind = Pictures::Braille;
        for _ in 0..2 * Pictures::ALL.len() {
            kind = kind.next(Palette::Mono);
            assert!(!kind.needs_colours(), "{kind:?}");
        }
        let mut seen = vec![Pictures::Braille];
        while seen.len() < Pictures::ALL.len() {
            let next = seen[seen.len() - 1].next(Palette::Dark);
            assert!(!seen.contains(&next), "{next:?} came twice");
            seen.push(next);
        }
    }
}
