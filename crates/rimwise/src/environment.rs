//! What the environment proves of the terminal. Nothing is asked of the terminal
//! itself: an answer would be read as keys.

use session::{Palette, Pictures};

/// What a terminal shows, by its environment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Shows {
    /// The finest pictures it is known to show.
    pub(crate) pictures: Pictures,
    /// Whether it shows 24-bit colours.
    pub(crate) has_true_colour: bool,
    /// Colours for its ground, where it says which that is.
    pub(crate) palette: Palette,
}

/// Terminals by the beginning of the TERM that they set, and what of pixels they
/// show. TERM alone counts: each terminal sets it anew, and ssh hands it on as it is;
/// any other variable may have come from a terminal further out. Terminals whose
/// pictures are switched on by their user are not here.
///
/// Sources, from memory: kitty, Graphics protocol and FAQ (TERM); Ghostty, Terminfo,
/// and its features (kitty graphics); foot(1), Sixel; mlterm, README.sixel; Contour,
/// VT extensions and features (sixel).
const PIXELS: [(&str, Pictures); 5] = [
    ("xterm-kitty", Pictures::Kitty),
    ("xterm-ghostty", Pictures::Kitty),
    ("foot", Pictures::Sixel),
    ("mlterm", Pictures::Sixel),
    ("contour", Pictures::Sixel),
];

/// Terminals of 256 colours or more whose TERM does not say so, by its beginning.
/// Sources, from memory: the terminfo entries of these names (colors#256 or more).
const COLOURFUL: [&str; 8] = [
    "xterm-kitty",
    "xterm-ghostty",
    "foot",
    "mlterm",
    "contour",
    "alacritty",
    "wezterm",
    "rio",
];

/// What a multiplexer sets: what it draws is not what the terminal round it draws.
const MULTIPLEXERS: [&str; 3] = ["TMUX", "STY", "ZELLIJ"];

/// What the variables of an environment prove.
pub(crate) fn shows(variable: impl Fn(&str) -> Option<String>) -> Shows {
    let said = |name: &str| variable(name).filter(|value| !value.is_empty());
    let term = said("TERM").unwrap_or_default();
    let colours = said("COLORTERM").unwrap_or_default();
    let has_true_colour =
        ["truecolor", "24bit"].contains(&colours.as_str()) || term.ends_with("-direct");
    let is_colourful = has_true_colour
        || term.contains("256color")
        || COLOURFUL.iter().any(|known| begins(&term, known));
    let has_no_colour = said("NO_COLOR").is_some();
    let is_multiplexed = MULTIPLEXERS.iter().any(|name| said(name).is_some());
    let pixels = PIXELS.iter().find(|(known, _)| begins(&term, known));
    let pictures = match pixels {
        _ if has_no_colour || !is_colourful => Pictures::Braille,
        Some((_, pixels)) if !is_multiplexed => *pixels,
        _ => Pictures::Quadrants,
    };
    let palette = match said("COLORFGBG") {
        _ if has_no_colour => Palette::Mono,
        Some(said) if has_light_ground(&said) => Palette::Light,
        _ => Palette::default(),
    };
    Shows {
        pictures,
        has_true_colour,
        palette,
    }
}

/// Whether a TERM is a known one or a variant of it, such as foot-extra.
fn begins(term: &str, known: &str) -> bool {
    let rest = term.strip_prefix(known);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
}

/// Whether a terminal says that its ground is white: "foreground;background" in the
/// numbers of the sixteen colours (rxvt(1), COLORFGBG; from memory).
fn has_light_ground(said: &str) -> bool {
    let ground = said.rsplit(';').next().unwrap_or_default();
    ["7", "15"].contains(&ground)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(variables: &[(&str, &str)]) -> Shows {
        shows(|name| {
            let found = variables.iter().find(|(one, _)| *one == name);
            found.map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_environment_says_what_pictures_are_made_of() {
        for (variables, pictures) in [
            (&[("TERM", "xterm")][..], Pictures::Braille),
            (&[("TERM", "linux")], Pictures::Braille),
            (&[], Pictures::Braille),
            (&[("TERM", "xterm-256color")], Pictures::Quadrants),
            (
                &[("TERM", "xterm"), ("COLORTERM", "truecolor")],
                Pictures::Quadrants,
            ),
            (&[("TERM", "xterm-kitty")], Pictures::Kitty),
            (&[("TERM", "foot-extra")], Pictures::Sixel),
            (&[("TERM", "footage")], Pictures::Braille),
            (
                &[("TERM", "xterm-kitty"), ("ZELLIJ", "0")],
                Pictures::Quadrants,
            ),
            // Carried over from a terminal further out.
            (
                &[("TERM", "tmux-256color"), ("KITTY_WINDOW_ID", "1")],
                Pictures::Quadrants,
            ),
            (
                &[("TERM", "xterm-kitty"), ("NO_COLOR", "1")],
                Pictures::Braille,
            ),
        ] {
            assert_eq!(of(variables).pictures, pictures, "{variables:?}");
        }
    }

    #[test]
    fn colours_go_by_what_is_said_of_them() {
        assert!(of(&[("TERM", "xterm"), ("COLORTERM", "24bit")]).has_true_colour);
        assert!(!of(&[("TERM", "xterm-256color")]).has_true_colour);
        for (said, palette) in [
            ("0;15", Palette::Light),
            ("15;default;0", Palette::Dark),
            ("0;default;7", Palette::Light),
            ("nonsense", Palette::Dark),
        ] {
            assert_eq!(of(&[("COLORFGBG", said)]).palette, palette, "{said}");
        }
        assert_eq!(of(&[("NO_COLOR", "")]).palette, Palette::Dark);
        let without = of(&[("NO_COLOR", "1"), ("COLORFGBG", "0;15")]);
        assert_eq!(without.palette, Palette::Mono);
    }
}
