use super::painter::Protocol;
use raster::{Blocks, Depth, Glyphs};
use ratatui::style::{Color, Modifier, Style};
use ratatui::symbols::Marker;
use scene::stroke::{PageGround, Role, colours};
use session::{Looks, Palette, Pictures};
use sizing::{State, Verdict};

/// How each role looks. Beside filled pictures a state has in text the colour of its
/// role in them; elsewhere, in text and in pictures alike, one of the terminal's own
/// sixteen. Text never has a background: light and dark terminals both read it.
/// Nothing is told by colour alone: every state has a glyph and a word as well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Theme {
    palette: Palette,
    pictures: Pictures,
    has_true_colour: bool,
}

/// What a picture in cells is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PictureCells {
    /// Blocks in two colours a cell on a page of their own ground.
    Filled(PageGround, Blocks, Depth),
    /// Dots or letters, told by pattern, on the terminal's ground.
    Patterned(Glyphs),
}

/// What a colour means.
#[derive(Clone, Copy)]
enum Meaning {
    Good,
    Care,
    Grave,
}

/// A colour of the map's scale.
struct Stop {
    chance: f64,
    rgb: [u8; 3],
    /// The nearest of the 256 colours.
    index: u8,
}

const fn stop(chance: f64, rgb: [u8; 3], index: u8) -> Stop {
    Stop { chance, rgb, index }
}

/// The scale of chances on a dark and on a light ground.
const RAMPS: [[Stop; 6]; 2] = [
    [
        stop(0.0, [24, 27, 38], 234),
        stop(0.05, [32, 40, 70], 17),
        stop(0.25, [38, 74, 128], 24),
        stop(0.5, [58, 133, 160], 67),
        stop(0.75, [144, 187, 128], 108),
        stop(0.95, [245, 229, 128], 228),
    ],
    [
        stop(0.0, [244, 246, 249], 255),
        stop(0.05, [222, 232, 243], 189),
        stop(0.25, [173, 205, 230], 153),
        stop(0.5, [107, 166, 205], 74),
        stop(0.75, [49, 116, 169], 25),
        stop(0.95, [12, 58, 110], 17),
    ],
];

impl Meaning {
    /// Its role in pictures.
    const fn role(self) -> Role {
        match self {
            Self::Good => Role::Ok,
            Self::Care => Role::Warning,
            Self::Grave => Role::Beyond,
        }
    }
}

#[expect(
    clippy::unused_self,
    reason = "a role is asked of a theme, also where all themes agree"
)]
impl Theme {
    /// The theme of the looks that the operator chose.
    pub(super) const fn of(looks: Looks) -> Self {
        Self {
            palette: looks.palette,
            pictures: looks.pictures,
            has_true_colour: looks.has_true_colour,
        }
    }

    /// Sixteen colours.
    #[cfg(test)]
    pub(super) const COLOUR: Self = Self {
        palette: Palette::Dark,
        pictures: Pictures::Braille,
        has_true_colour: false,
    };
    /// No colour at all.
    #[cfg(test)]
    pub(super) const MONO: Self = Self {
        palette: Palette::Mono,
        pictures: Pictures::Braille,
        has_true_colour: false,
    };

    /// The colour of a state: that of its role in filled pictures; of sixteen blue,
    /// yellow and magenta rather than red and green, which many confuse. Yellow cannot
    /// be read on a light ground.
    fn coloured(self, meaning: Meaning) -> Style {
        let sixteen = match self.palette {
            Palette::Dark => [Color::Cyan, Color::Yellow, Color::Magenta],
            Palette::Light => [Color::Blue, Color::Magenta, Color::Red],
            Palette::HighContrast => [Color::LightCyan, Color::LightYellow, Color::LightMagenta],
            Palette::Mono => return Style::new(),
        };
        let colour = match self.picture_cells() {
            PictureCells::Filled(ground, _, depth) => shown(meaning.role(), ground, depth),
            PictureCells::Patterned(_) => sixteen[meaning as usize],
        };
        let style = Style::new().fg(colour);
        if self.palette == Palette::HighContrast {
            style.add_modifier(Modifier::BOLD)
        } else {
            style
        }
    }

    /// Ordinary text.
    pub(super) const fn text(self) -> Style {
        Style::new()
    }

    /// What matters less.
    pub(super) const fn dim(self) -> Style {
        match self.palette {
            Palette::HighContrast => Style::new(),
            _ => Style::new().add_modifier(Modifier::DIM),
        }
    }

    /// What is not of the case as it stands: without the colours of its states.
    pub(super) const fn stale(self) -> Style {
        self.dim().remove_modifier(Modifier::BOLD)
    }

    /// What must be seen.
    pub(super) const fn strong(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// The heading of a panel, of the one that takes keys or of another.
    pub(super) fn heading(self, focused: bool) -> Style {
        if focused {
            self.coloured(Meaning::Good).add_modifier(Modifier::BOLD)
        } else {
            self.text()
        }
    }

    /// The selected line.
    pub(super) const fn selected(self, focused: bool) -> Style {
        if focused {
            Style::new().add_modifier(Modifier::REVERSED)
        } else {
            Style::new().add_modifier(Modifier::UNDERLINED)
        }
    }

    /// The state of a check.
    pub(super) fn state(self, state: State) -> Style {
        match state {
            State::Ok => self.text(),
            State::Caution => self.coloured(Meaning::Care),
            State::Stop => self.coloured(Meaning::Grave).add_modifier(Modifier::BOLD),
            State::NotAssessed => self.dim(),
        }
    }

    /// A verdict.
    pub(super) fn verdict(self, verdict: Verdict) -> Style {
        match verdict {
            Verdict::Fits => self.coloured(Meaning::Good).add_modifier(Modifier::BOLD),
            Verdict::Borderline => self.state(State::Caution),
            Verdict::DoesNotFit => self.state(State::Stop),
            Verdict::NotRated => self.state(State::NotAssessed),
        }
    }

    /// A chance on the fit map.
    pub(super) fn chance(self, chance: f64, [least, most]: [f64; 2]) -> Style {
        match chance {
            _ if chance >= most => self.coloured(Meaning::Good),
            _ if chance >= least => self.coloured(Meaning::Care),
            _ => self.dim(),
        }
    }

    /// The colour of a chance on a filled map; `None` where pictures are not filled.
    /// It grows away from the ground in light as well as in hue, so that those who
    /// confuse colours read it too.
    pub(super) fn filled_chance(self, chance: f64) -> Option<Color> {
        let PictureCells::Filled(ground, _, depth) = self.picture_cells() else {
            return None;
        };
        let ramp = &RAMPS[usize::from(ground == PageGround::Light)];
        let after = ramp.iter().position(|stop| chance < stop.chance);
        let after = after.unwrap_or(ramp.len() - 1).max(1);
        let (one, other) = (&ramp[after - 1], &ramp[after]);
        let share = (chance - one.chance) / (other.chance - one.chance);
        let share = share.clamp(0.0, 1.0);
        if depth == Depth::Indexed {
            let nearest = if share < 0.5 { one } else { other };
            return Some(Color::Indexed(nearest.index));
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between two colours"
        )]
        let mixed = |at: usize| {
            let (one, other) = (f64::from(one.rgb[at]), f64::from(other.rgb[at]));
            (one + share * (other - one)).round() as u8
        };
        Some(Color::Rgb(mixed(0), mixed(1), mixed(2)))
    }

    /// Black or white: what is read on a colour of a filled map.
    pub(super) fn on_filled(self, ground: Color) -> Color {
        let is_light = match ground {
            Color::Rgb(red, green, blue) => {
                // The luma of Rec. 601.
                let luma =
                    0.299 * f64::from(red) + 0.587 * f64::from(green) + 0.114 * f64::from(blue);
                luma > 140.0
            }
            Color::Indexed(index) => {
                let mut stops = RAMPS.iter().flatten();
                let stop = stops.find(|stop| stop.index == index);
                let luma = stop.map_or(0, |stop| stop.rgb[1]);
                luma > 140
            }
            _ => false,
        };
        if is_light { Color::Black } else { Color::White }
    }

    /// What pictures in cells are made of.
    pub(super) fn picture_cells(self) -> PictureCells {
        let blocks = match self.pictures.shown(self.palette) {
            Pictures::Braille => return PictureCells::Patterned(Glyphs::Braille),
            Pictures::Ascii => return PictureCells::Patterned(Glyphs::Ascii),
            Pictures::Kitty | Pictures::Sixel | Pictures::Quadrants => Blocks::Quadrants,
            Pictures::Sextants => Blocks::Sextants,
            Pictures::Octants => Blocks::Octants,
        };
        let depth = if self.has_true_colour {
            Depth::TrueColour
        } else {
            Depth::Indexed
        };
        PictureCells::Filled(self.page_ground(), blocks, depth)
    }

    /// How pictures that stand alone reach the terminal as pixels; `None`: they stay
    /// in cells.
    pub(super) fn pixels(self) -> Option<Protocol> {
        match self.pictures.shown(self.palette) {
            Pictures::Kitty => Some(Protocol::Kitty),
            Pictures::Sixel => Some(Protocol::Sixel),
            _ => None,
        }
    }

    /// The page on which filled pictures lie.
    pub(super) const fn page_ground(self) -> PageGround {
        match self.palette {
            Palette::Light => PageGround::Light,
            Palette::Dark | Palette::HighContrast | Palette::Mono => PageGround::Dark,
        }
    }

    /// The dots of lines that lie over a field of blocks.
    pub(super) const fn line_marker(self) -> Marker {
        match self.pictures {
            Pictures::Ascii => Marker::Custom('*'),
            Pictures::Octants => Marker::Octant,
            _ => Marker::Braille,
        }
    }

    /// The glyphs of the fit map: none, under half, under nine tenths, more; a size
    /// like the map's, another, the cursor. None of them is that of a verdict.
    pub(super) const fn map_glyphs(self) -> [&'static str; 7] {
        match self.pictures {
            Pictures::Ascii => [" ", ".", ":", "#", "@", "&", "+"],
            _ => [" ", "░", "▒", "▓", "◆", "◇", "╋"],
        }
    }

    /// A role of a picture that is told by pattern.
    pub(super) fn role(self, role: Role) -> Style {
        match role {
            Role::Device | Role::Wire | Role::DeviceOutline | Role::Ok => {
                self.coloured(Meaning::Good)
            }
            Role::Warning => self.coloured(Meaning::Care),
            Role::Beyond => self.coloured(Meaning::Grave).add_modifier(Modifier::BOLD),
            Role::Plate | Role::ConductionAxis => self.strong(),
            Role::Muscle | Role::Fibre | Role::Outline | Role::Word => self.text(),
            Role::Ground
            | Role::LeftBlood
            | Role::RightBlood
            | Role::FarWall
            | Role::Schematic
            | Role::Dimension
            | Role::Casing => self.dim(),
        }
    }
}

/// The colour of a role as filled pictures show it.
const fn shown(role: Role, ground: PageGround, depth: Depth) -> Color {
    match depth {
        Depth::TrueColour => {
            let colour = colours::colour(role, ground);
            Color::Rgb(colour.red, colour.green, colour.blue)
        }
        Depth::Indexed => Color::Indexed(colours::index(role, ground)),
    }
}
