//! Text in plain letters, for where the terminal has no others.

use deunicode::deunicode_char;
use ratatui::buffer::Buffer;
use ratatui::style::Style;
use std::env::var;
use std::io::{self, Write};
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Whether the terminal takes plain letters alone: it says that it is dumb, or the
/// locale has no UTF-8. Where nothing is said of letters it is taken to have them.
pub(crate) fn is_asked_for() -> bool {
    is_dumb() || has_no_utf8(["LC_ALL", "LC_CTYPE", "LANG"].map(|name| var(name).ok()))
}

/// Whether the terminal cannot place what it is sent: there is no screen on it.
pub(crate) fn is_dumb() -> bool {
    var("TERM").is_ok_and(|term| term == "dumb")
}

/// Whether a locale has no UTF-8, by its variables in the order of POSIX (8.2): the
/// first that says something counts.
fn has_no_utf8(variables: [Option<String>; 3]) -> bool {
    let said = variables.into_iter().flatten().find(|it| !it.is_empty());
    let Some(locale) = said else { return false };
    // language_TERRITORY.codeset@modifier
    let locale = locale.split('@').next().unwrap_or_default();
    match locale.split_once('.') {
        Some((_, codeset)) => !["utf-8", "utf8"].contains(&codeset.to_lowercase().as_str()),
        None => ["C", "POSIX"].contains(&locale),
    }
}

/// A text in plain letters. What takes more columns than it did takes them of the
/// blanks behind it, so that columns still stand one below the other.
pub(crate) fn ascii(text: &str) -> String {
    let letters = text.chars().map(|letter| Letter {
        plain: plain(letter),
        columns: letter.width().unwrap_or(1),
        style: (),
    });
    line(letters)
        .into_iter()
        .map(|(letter, ())| letter)
        .collect()
}

/// Writes what a page shows in plain letters.
pub(crate) fn write_over(buffer: &mut Buffer) {
    let area = *buffer.area();
    for y in area.top()..area.bottom() {
        if (area.left()..area.right()).all(|x| buffer[(x, y)].symbol().is_ascii()) {
            continue;
        }
        let mut letters = Vec::new();
        let mut x = area.left();
        while x < area.right() {
            let cell = &buffer[(x, y)];
            let plain = cell
                .symbol()
                .chars()
                .map(plain)
                .collect::<Vec<_>>()
                .concat();
            let columns = cell.symbol().width().max(1);
            letters.push(Letter {
                plain,
                columns,
                style: cell.style(),
            });
            // Behind a wide letter lies a cell that is its own.
            x = x.saturating_add(u16::try_from(columns).unwrap_or(1));
        }
        let blank = std::iter::repeat((' ', Style::reset()));
        let row = line(letters.into_iter()).into_iter().chain(blank);
        for (x, (letter, style)) in (area.left()..area.right()).zip(row) {
            buffer[(x, y)].set_char(letter).set_style(style);
        }
    }
}

/// A letter with what stands in its place.
struct Letter<S> {
    plain: String,
    /// The columns it took.
    columns: usize,
    style: S,
}

/// A line in plain letters; a run of blanks gives up what letters before it took
/// more than they did, but for one.
fn line<S: Copy>(letters: impl Iterator<Item = Letter<S>>) -> Vec<(char, S)> {
    let mut line: Vec<(char, S)> = Vec::new();
    let mut too_many = 0_usize;
    for letter in letters {
        let is_second_blank = letter.plain == " " && line.last().is_some_and(|it| it.0 == ' ');
        if is_second_blank && too_many > 0 {
            too_many -= 1;
            continue;
        }
        let columns = letter.plain.chars().count();
        line.extend(letter.plain.chars().map(|it| (it, letter.style)));
        let missing = letter.columns.saturating_sub(columns);
        line.extend(std::iter::repeat_n((' ', letter.style), missing));
        too_many += columns.saturating_sub(letter.columns);
    }
    line
}

/// What stands in place of a letter: the program's own signs by a list, so that no
/// two that mean something else fall together; all others as they sound.
fn plain(letter: char) -> String {
    if letter.is_ascii() {
        return letter.to_string();
    }
    let sign = match letter {
        '±' => "+-",
        '≤' => "<=",
        '≥' => ">=",
        '≠' => "!=",
        '→' => "->",
        '←' => "<-",
        '↑' => "^",
        '↓' => "v",
        '↶' => "<",
        '×' => "x",
        '°' => "deg",
        '½' => " 1/2",
        '¼' => " 1/4",
        '′' => "'",
        '″' => "\"",
        '●' => "@",
        '◐' => "~",
        '✗' => "X",
        '○' => "o",
        '▌' => ">",
        '▒' => ":",
        '·' | '…' | '░' => ".",
        '−' | '–' | '‑' | '─' | '━' | '╌' => "-",
        '│' | '┃' | '╎' | '↕' | '┤' => "|",
        '\u{2800}' => " ",
        // The rest of lines, of blocks and of dots.
        '\u{2500}'..='\u{257f}' => "+",
        '■' | '\u{2580}'..='\u{259f}' => "#",
        '✓' | '\u{2800}'..='\u{28ff}' | '\u{1cd00}'..='\u{1cdff}' => "*",
        // The pictures of control characters, as terminals write these.
        '\u{2400}'..='\u{241f}' => return control(letter),
        '␡' => "^?",
        _ => deunicode_char(letter).unwrap_or("?"),
    };
    // What sounds like nothing is still there; a syllable may end with a blank.
    match sign.trim_end() {
        "" if sign.is_empty() => "?".to_owned(),
        "" => " ".to_owned(),
        sign => sign.to_owned(),
    }
}

/// A control character in two letters: `^[` for ESC.
fn control(picture: char) -> String {
    const PICTURES: u32 = 0x2400;
    const CARET: u32 = 0x40;
    let letter = char::from_u32(u32::from(picture) - PICTURES + CARET);
    format!("^{}", letter.unwrap_or('?'))
}

/// A writer that writes every whole line in plain letters.
pub(crate) struct AsciiWriter<'a> {
    out: &'a mut dyn Write,
    /// What of a line has come.
    line: Vec<u8>,
}

impl<'a> AsciiWriter<'a> {
    /// A writer over another.
    pub(crate) const fn new(out: &'a mut dyn Write) -> Self {
        Self {
            out,
            line: Vec::new(),
        }
    }

    fn write_line(&mut self) -> io::Result<()> {
        let line = ascii(&String::from_utf8_lossy(&self.line));
        self.line.clear();
        self.out.write_all(line.as_bytes())
    }
}

impl Write for AsciiWriter<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        for &byte in bytes {
            self.line.push(byte);
            if byte == b'\n' {
                self.write_line()?;
            }
        }
        Ok(bytes.len())
    }

    /// What of a line has come is written as well: nothing is to follow it soon.
    fn flush(&mut self) -> io::Result<()> {
        self.write_line()?;
        self.out.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::layout::Rect;

    #[test]
    fn the_first_variable_that_says_something_counts() {
        let has_no = |all: Option<&str>, ctype: Option<&str>, lang: Option<&str>| {
            has_no_utf8([all, ctype, lang].map(|it| it.map(str::to_owned)))
        };
        for (all, ctype, lang, ascii) in [
            (Some("C"), None, Some("en_GB.UTF-8"), true),
            (Some("POSIX"), None, None, true),
            (Some(""), Some("C"), Some("en_GB.UTF-8"), true),
            (Some("C.UTF-8"), None, Some("C"), false),
            (None, None, Some("de_DE.ISO-8859-1@euro"), true),
            (None, None, Some("de_DE.utf8@euro"), false),
            (None, None, Some("de_DE"), false),
            (None, None, None, false),
        ] {
            assert_eq!(
                has_no(all, ctype, lang),
                ascii,
                "{all:?} {ctype:?} {lang:?}"
            );
        }
    }

    #[test]
    fn a_text_is_plain_and_its_columns_stay() {
        for (text, plain) in [
            ("a · b", "a . b"),
            ("≤ 74 %  x", "<= 74 % x"),
            ("4.6 ± 0.5 mm   TTE", "4.6 +- 0.5 mm  TTE"),
            ("60° → 75°", "60deg -> 75deg"),
            ("Säugling, 3½ kg", "Saugling, 3 1/2 kg"),
            ("␛[2J", "^[[2J"),
            ("心x", "Xinx"),
            ("⠀⣿│─┼", " *|-+"),
            ("WU·m²", "WU.m2"),
        ] {
            assert_eq!(ascii(text), plain);
        }
    }

    #[test]
    fn signs_that_mean_something_else_stay_apart() {
        let verdicts = ['●', '◐', '○'].map(plain);
        let states = ['✓', '!', '✗', '?'].map(plain);
        for signs in [&verdicts[..], &states[..]] {
            for (place, sign) in signs.iter().enumerate() {
                assert!(sign.len() == 1 && !signs[..place].contains(sign), "{sign}");
            }
        }
    }

    #[test]
    fn a_page_keeps_its_columns_and_styles() {
        let style = Style::new().fg(ratatui::style::Color::Cyan);
        let mut buffer = Buffer::empty(Rect::new(0, 0, 12, 2));
        buffer.set_string(0, 0, "±5  心 |", style);
        buffer.set_string(0, 1, "plain", style);
        write_over(&mut buffer);
        let row = |y| -> String { (0..12).map(|x| buffer[(x, y)].symbol()).collect() };
        assert_eq!([row(0), row(1)], ["+-5 Xin |   ", "plain       "]);
        assert_eq!(buffer[(0, 0)].fg, ratatui::style::Color::Cyan);
    }

    #[test]
    fn lines_come_whole_whatever_pieces_they_are_written_in() {
        let mut out = Vec::new();
        let mut writer = AsciiWriter::new(&mut out);
        for byte in "a ± b\n≥ 1".bytes() {
            writer.write_all(&[byte]).unwrap();
        }
        writer.flush().unwrap();
        assert_eq!(out, b"a +- b\n>= 1");
    }
}
