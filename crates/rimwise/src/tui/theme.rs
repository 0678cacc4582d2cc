use ratatui::style::{Color, Modifier, Style};
use ratatui::symbols::Marker;
use scene::Part;
use session::{Dots, Looks, Palette};
use sizing::{State, Verdict};

/// How each role looks. Colours are the terminal's own sixteen, never a
/// background: light and dark terminals both read it. Nothing is told by colour
/// alone: every state has a glyph and a word as well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Theme {
    palette: Palette,
    dots: Dots,
}

/// What a colour means.
#[derive(Clone, Copy)]
enum Meaning {
    Good,
    Care,
    Grave,
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
            dots: looks.dots,
        }
    }

    /// Sixteen colours.
    #[cfg(test)]
    pub(super) const COLOUR: Self = Self {
        palette: Palette::Dark,
        dots: Dots::Braille,
    };
    /// No colour at all.
    #[cfg(test)]
    pub(super) const MONO: Self = Self {
        palette: Palette::Mono,
        dots: Dots::Braille,
    };

    /// Blue, yellow and magenta rather than red and green: told apart by those who
    /// confuse these.
    fn coloured(self, meaning: Meaning) -> Style {
        let colours = match self.palette {
            Palette::Dark => [Color::Cyan, Color::Yellow, Color::Magenta],
            Palette::Light => [Color::Blue, Color::Magenta, Color::Red],
            Palette::HighContrast => [Color::LightCyan, Color::LightYellow, Color::LightMagenta],
            Palette::Mono => return Style::new(),
        };
        let style = Style::new().fg(colours[meaning as usize]);
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
    pub(super) fn chance(self, chance: f64) -> Style {
        const HIGH: f64 = 0.9;
        const EVEN: f64 = 0.5;
        match chance {
            _ if chance >= HIGH => self.coloured(Meaning::Good),
            _ if chance >= EVEN => self.coloured(Meaning::Care),
            _ => self.dim(),
        }
    }

    /// The dots that drawings are made of.
    pub(super) const fn marker(self) -> Marker {
        match self.dots {
            Dots::Braille => Marker::Braille,
            Dots::Octant => Marker::Octant,
            Dots::HalfBlock => Marker::HalfBlock,
            Dots::Ascii => Marker::Custom('*'),
        }
    }

    /// The dots of lines that lie over a field: half blocks would hide it.
    pub(super) const fn line_marker(self) -> Marker {
        match self.dots {
            Dots::HalfBlock => Marker::Dot,
            _ => self.marker(),
        }
    }

    /// The glyphs of the fit map: none, under half, under nine tenths, more; a size
    /// like the map's, another, the cursor. None of them is that of a verdict.
    pub(super) const fn map_glyphs(self) -> [&'static str; 7] {
        match self.dots {
            Dots::Ascii => [" ", ".", ":", "#", "@", "&", "+"],
            _ => [" ", "░", "▒", "▓", "◆", "◇", "╋"],
        }
    }

    /// A part of a drawing.
    pub(super) fn part(self, part: Part) -> Style {
        match part {
            Part::Disc(_) | Part::Waist | Part::DiscBeside(_) | Part::Reach(_) => {
                self.coloured(Meaning::Good)
            }
            Part::Plate(_) | Part::Cusps(_) | Part::Hinge(_) | Part::Rim(_) => {
                self.coloured(Meaning::Care)
            }
            Part::Overlap(_) | Part::Clearance(_) => {
                self.coloured(Meaning::Grave).add_modifier(Modifier::BOLD)
            }
            Part::Wall | Part::HoleEdge | Part::Throat => self.text(),
            _ => self.dim(),
        }
    }
}
