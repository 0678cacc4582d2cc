/// A size of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// ISO A4.
    #[default]
    A4,
    /// North American Letter.
    Letter,
}

impl Paper {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its width, mm.
    pub const fn width(self) -> f64 {
        match self {
            Self::A4 => 210.0,
            Self::Letter => 215.9,
        }
    }

    /// Its height, mm.
    pub const fn height(self) -> f64 {
        match self {
            Self::A4 => 297.0,
            Self::Letter => 279.4,
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}
