use std::fmt;
use std::str::FromStr;

/// One press of a key with what was held down.
///
/// Terminals differ in whether they report Shift beside the character it makes;
/// a key made by [`Key::new`] is the same everywhere: of a printed character,
/// Shift is in the character itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Key {
    /// The key.
    pub code: KeyCode,
    /// Whether Ctrl was held.
    pub ctrl: bool,
    /// Whether Alt was held.
    pub alt: bool,
    /// Whether Shift was held, where the character does not say so.
    pub shift: bool,
}

/// A key by what it prints or does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum KeyCode {
    /// A printed character.
    Char(char),
    /// Enter.
    Enter,
    /// Escape.
    Esc,
    /// Tabulator.
    Tab,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// Insert.
    Insert,
    /// Arrow to the left.
    Left,
    /// Arrow to the right.
    Right,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// A function key by its number.
    F(u8),
}

/// The words for keys that print nothing, and for the space.
const NAMES: [(&str, KeyCode); 16] = [
    ("enter", KeyCode::Enter),
    ("esc", KeyCode::Esc),
    ("tab", KeyCode::Tab),
    ("backspace", KeyCode::Backspace),
    ("delete", KeyCode::Delete),
    ("insert", KeyCode::Insert),
    ("left", KeyCode::Left),
    ("right", KeyCode::Right),
    ("up", KeyCode::Up),
    ("down", KeyCode::Down),
    ("home", KeyCode::Home),
    ("end", KeyCode::End),
    ("page-up", KeyCode::PageUp),
    ("page-down", KeyCode::PageDown),
    ("space", KeyCode::Char(' ')),
    ("minus", KeyCode::Char('-')),
];

impl Key {
    /// A key as a terminal reports it.
    pub fn new(code: KeyCode, ctrl: bool, alt: bool, shift: bool) -> Self {
        let KeyCode::Char(character) = code else {
            return Self {
                code,
                ctrl,
                alt,
                shift,
            };
        };
        let (character, shift) = if ctrl {
            (lower(character), shift || character.is_uppercase())
        } else if shift {
            (upper(character), false)
        } else {
            (character, false)
        };
        Self {
            code: KeyCode::Char(character),
            ctrl,
            alt,
            shift,
        }
    }

    /// A key pressed alone.
    pub fn plain(code: KeyCode) -> Self {
        Self::new(code, false, false, false)
    }

    /// The character it prints, if it prints one.
    pub const fn printed(self) -> Option<char> {
        match self {
            Self {
                code: KeyCode::Char(character),
                ctrl: false,
                alt: false,
                ..
            } => Some(character),
            _ => None,
        }
    }
}

/// The lower form of a letter that has one of a single character.
fn lower(character: char) -> char {
    single(character, character.to_lowercase())
}

/// The upper form of a letter that has one of a single character.
fn upper(character: char) -> char {
    single(character, character.to_uppercase())
}

fn single(character: char, mut form: impl Iterator<Item = char>) -> char {
    match (form.next(), form.next()) {
        (Some(only), None) => only,
        _ => character,
    }
}

impl fmt::Display for Key {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (held, name) in [
            (self.ctrl, "ctrl-"),
            (self.alt, "alt-"),
            (self.shift, "shift-"),
        ] {
            if held {
                formatter.write_str(name)?;
            }
        }
        let alone = !(self.ctrl || self.alt || self.shift);
        match self.code {
            KeyCode::Char('-') if alone => formatter.write_str("-"),
            KeyCode::F(number) => write!(formatter, "f{number}"),
            code => match (NAMES.iter().find(|(_, named)| *named == code), code) {
                (Some((name, _)), _) => formatter.write_str(name),
                (None, KeyCode::Char(character)) => write!(formatter, "{character}"),
                (None, _) => Ok(()),
            },
        }
    }
}

/// A text that names no key.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no key: write one such as `u`, `ctrl-z`, `shift-right`, `space` or `f5`")]
pub struct NoSuchKey(pub String);

impl FromStr for Key {
    type Err = NoSuchKey;

    fn from_str(text: &str) -> Result<Self, NoSuchKey> {
        let (mut ctrl, mut alt, mut shift) = (false, false, false);
        let mut rest = text;
        loop {
            let held = [
                ("ctrl-", &mut ctrl),
                ("alt-", &mut alt),
                ("shift-", &mut shift),
            ]
            .into_iter()
            .find_map(|(name, held)| Some((rest.strip_prefix(name)?, held)));
            let Some((after, held)) = held else { break };
            *held = true;
            rest = after;
        }
        let code = code(rest).ok_or_else(|| NoSuchKey(text.to_owned()))?;
        Ok(Self::new(code, ctrl, alt, shift))
    }
}

/// Function keys that keyboards and terminals know.
const MOST_FUNCTION_KEY: u8 = 24;

fn code(name: &str) -> Option<KeyCode> {
    let mut characters = name.chars();
    if let (Some(only), None) = (characters.next(), characters.next()) {
        return (!only.is_control() && !only.is_whitespace()).then_some(KeyCode::Char(only));
    }
    let number = name
        .strip_prefix('f')
        .and_then(|number| number.parse().ok());
    match number {
        Some(number @ 1..=MOST_FUNCTION_KEY) => Some(KeyCode::F(number)),
        _ => NAMES
            .iter()
            .find(|(known, _)| *known == name)
            .map(|&(_, code)| code),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        let names =
            "u U ? - + ctrl-z ctrl-minus ctrl-shift-z shift-right shift-tab space alt-x f5 page-up";
        for name in names.split(' ') {
            assert_eq!(name.parse::<Key>().unwrap().to_string(), name);
        }
    }

    #[test]
    fn shift_is_in_the_character() {
        let upper = "U".parse().unwrap();
        assert_eq!(Key::new(KeyCode::Char('u'), false, false, true), upper);
        assert_eq!(Key::new(KeyCode::Char('U'), false, false, true), upper);
        assert_eq!(Key::new(KeyCode::Char('U'), false, false, false), upper);
        assert_eq!(
            Key::new(KeyCode::Char('?'), false, false, true),
            "?".parse().unwrap()
        );
        assert_eq!(
            Key::new(KeyCode::Char('Z'), true, false, false).to_string(),
            "ctrl-shift-z"
        );
        assert_eq!(
            Key::new(KeyCode::Char('ß'), false, false, true).printed(),
            Some('ß')
        );
    }

    #[test]
    fn what_is_no_key_is_refused() {
        for text in [
            "",
            "ctrl-",
            "control-z",
            "f0",
            "f25",
            "enterr",
            " ",
            "\u{1b}",
        ] {
            assert_eq!(text.parse::<Key>(), Err(NoSuchKey(text.to_owned())));
        }
    }
}
