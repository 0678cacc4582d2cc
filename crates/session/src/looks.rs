//! How the screen looks, as the operator chose it: no look changes what is said.

/// How the screen looks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looks {
    /// Its colours.
    pub palette: Palette,
    /// The dots of its drawings.
    pub dots: Dots,
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

/// Dots that drawings are made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Dots {
    /// Two by four dots a cell, with gaps; most founts have them.
    #[default]
    Braille,
    /// Two by four a cell, without gaps; founts of Unicode 16.
    Octant,
    /// One by two a cell.
    HalfBlock,
    /// One a cell; every terminal has it.
    Ascii,
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

impl Dots {
    /// Every kind of dots with its word.
    pub const ALL: [(&'static str, Self); 4] = [
        ("braille", Self::Braille),
        ("octant", Self::Octant),
        ("half-block", Self::HalfBlock),
        ("ascii", Self::Ascii),
    ];

    /// The one after it, round the end.
    #[must_use]
    pub fn next(self) -> Self {
        after(&Self::ALL, self)
    }
}

fn after<T: Copy + PartialEq>(all: &[(&str, T)], one: T) -> T {
    let mut round = all.iter().map(|(_, it)| *it).cycle();
    round.find(|it| *it == one);
    round.next().unwrap_or(one)
}
