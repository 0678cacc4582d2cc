//! Plain text of a given width, columns counted as a terminal counts them.

use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Columns a text takes.
pub(super) fn width(text: &str) -> usize {
    text.width()
}

/// A text filled with blanks to a width, cut with `…` where it is longer.
pub(super) fn cell(text: &str, columns: usize) -> String {
    let mut cut = String::new();
    if width(text) <= columns {
        cut.push_str(text);
    } else {
        for letter in text.chars() {
            if width(&cut) + width(letter.encode_utf8(&mut [0; 4])) + 1 > columns {
                break;
            }
            cut.push(letter);
        }
        cut.push('…');
    }
    let blanks = columns.saturating_sub(width(&cut));
    cut.push_str(&" ".repeat(blanks));
    cut
}

/// A paragraph broken at blanks: the first line after `first`, the others
/// indented under it.
pub(super) fn paragraph(first: &str, text: &str, columns: usize) -> String {
    let indent = " ".repeat(width(first));
    let mut lines = String::new();
    let mut line = first.to_owned();
    let mut is_empty = true;
    for word in text.split_whitespace() {
        if !is_empty && width(&line) + 1 + width(word) > columns {
            let _ = writeln!(lines, "{}", line.trim_end());
            line = indent.clone();
            is_empty = true;
        }
        if !is_empty {
            line.push(' ');
        }
        line.push_str(word);
        is_empty = false;
    }
    let _ = writeln!(lines, "{}", line.trim_end());
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_as_wide_as_asked_whatever_the_letters() {
        for text in [
            "wide",
            "",
            "a longer text than fits",
            "心室中隔欠損",
            "e\u{301}e\u{301}e\u{301}e\u{301}",
        ] {
            assert_eq!(width(&cell(text, 8)), 8, "{text}");
        }
        assert_eq!(cell("abcdef", 4), "abc…");
    }

    #[test]
    fn paragraphs_hang_under_their_first_line() {
        assert_eq!(paragraph("- ", "one two three", 9), "- one two\n  three\n");
    }
}
