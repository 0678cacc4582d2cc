use ratatui::style::{Color, Modifier, Style};
use scene::Part;
use sizing::{State, Verdict};

/// How each role looks. Colours are the terminal's own sixteen, never a
/// background: light and dark terminals both read it. Nothing is told by colour
/// alone: every state has a glyph and a word as well.
#[derive(Clone, Copy, Debug)]
pub(super) struct Theme {
    has_colour: bool,
}

#[expect(
    clippy::unused_self,
    reason = "a role is asked of a theme, also where all themes agree"
)]
impl Theme {
    /// The theme the environment asks for: without colour under `NO_COLOR`.
    pub(super) fn of_environment() -> Self {
        let no_colour = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        Self {
            has_colour: !no_colour,
        }
    }

    /// Sixteen colours.
    #[cfg(test)]
    pub(super) const COLOUR: Self = Self { has_colour: true };
    /// No colour at all.
    #[cfg(test)]
    pub(super) const MONO: Self = Self { has_colour: false };

    fn coloured(self, colour: Color) -> Style {
        if self.has_colour {
            Style::new().fg(colour)
        } else {
            Style::new()
        }
    }

    /// Ordinary text.
    pub(super) const fn text(self) -> Style {
        Style::new()
    }

    /// What matters less.
    pub(super) const fn dim(self) -> Style {
        Style::new().add_modifier(Modifier::DIM)
    }

    /// What must be seen.
    pub(super) const fn strong(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// The heading of a panel, of the one that takes keys or of another.
    pub(super) fn heading(self, focused: bool) -> Style {
        if focused {
            self.coloured(Color::Cyan).add_modifier(Modifier::BOLD)
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
            State::Caution => self.coloured(Color::Yellow),
            State::Stop => self.coloured(Color::Magenta).add_modifier(Modifier::BOLD),
            State::NotAssessed => self.dim(),
        }
    }

    /// A verdict.
    pub(super) fn verdict(self, verdict: Verdict) -> Style {
        match verdict {
            Verdict::Fits => self.coloured(Color::Cyan).add_modifier(Modifier::BOLD),
            Verdict::Tight => self.state(State::Caution),
            Verdict::DoesNotFit => self.state(State::Stop),
        }
    }

    /// A part of a drawing.
    pub(super) fn part(self, part: Part) -> Style {
        match part {
            Part::Disc(_) | Part::Waist | Part::DiscBeside(_) | Part::Reach(_) => {
                self.coloured(Color::Cyan)
            }
            Part::Plate(_) | Part::Cusps(_) | Part::Hinge(_) | Part::Rim(_) => {
                self.coloured(Color::Yellow)
            }
            Part::Overlap(_) | Part::Clearance(_) => {
                self.coloured(Color::Magenta).add_modifier(Modifier::BOLD)
            }
            Part::Wall | Part::HoleEdge | Part::Throat => self.text(),
            _ => self.dim(),
        }
    }
}
