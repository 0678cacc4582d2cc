//! Plain text of a given width, with columns counted as a terminal counts them.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// A text of exactly a width: filled with blanks, or cut with `…`.
pub fn fitted(text: &str, columns: usize) -> String {
    let mut cut = String::with_capacity(text.len().max(columns));
    let width = width(text);
    if width <= columns {
        cut.push_str(text);
        cut.extend(std::iter::repeat_n(' ', columns - width));
        return cut;
    }
    if columns > 0 {
        // Not unicode-truncate 2.0: it asserts that the widths of letters add up, which
        // those of letters that join, as لا, do not.
        let mut taken = 0;
        for letter in text.graphemes(true) {
            taken += letter.width();
            if taken + 1 > columns {
                break;
            }
            cut.push_str(letter);
        }
        cut.push('…');
    }
    let blanks = columns.saturating_sub(cut.width());
    cut.push_str(&" ".repeat(blanks));
    cut
}

/// Columns that a text takes; for plain letters, which most texts are, at once.
fn width(text: &str) -> usize {
    let is_plain = |byte: &u8| (b' '..=b'~').contains(byte);
    if text.as_bytes().iter().all(is_plain) {
        text.len()
    } else {
        text.width()
    }
}

/// A text of exactly a width whose end matters most: cut at its front.
pub fn fitted_at_end(text: &str, columns: usize) -> String {
    if width(text) <= columns {
        return fitted(text, columns);
    }
    let mut end = String::new();
    let mut taken = 1;
    for letter in text.graphemes(true).rev() {
        taken += letter.width();
        if taken > columns {
            break;
        }
        end.insert_str(0, letter);
    }
    fitted(&format!("…{end}"), columns)
}

/// Words broken into lines of a width at blanks; a word longer than a line is cut
/// into pieces. At least one line, empty for an empty text.
pub fn wrapped(text: &str, columns: usize) -> Vec<String> {
    crate::wrap::wrapped(text, columns.max(1), UnicodeWidthStr::width)
}

/// A paragraph of lines: the first after `first`, the others indented under it.
pub fn paragraph(first: &str, text: &str, columns: usize) -> String {
    let indent = first.width();
    let lines = wrapped(text, columns.saturating_sub(indent));
    let mut paragraph = String::new();
    for (index, line) in lines.iter().enumerate() {
        let before = if index == 0 {
            first.to_owned()
        } else {
            " ".repeat(indent)
        };
        paragraph.push_str(format!("{before}{line}").trim_end());
        paragraph.push('\n');
    }
    paragraph
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Letters of every kind that files may bring.
    const LETTERS: &str = "([a-z 心가ａé\u{301}\u{fe0f}لا⠤‑…]|👩🏽|👧){0,60}";

    proptest! {
        #[test]
        fn no_text_is_wider_than_its_room(text in LETTERS, columns in 0..40_usize) {
            prop_assert_eq!(fitted(&text, columns).width(), columns);
            prop_assert_eq!(fitted_at_end(&text, columns).width(), columns);
            // One wide letter needs two columns.
            let columns = columns.max(2);
            for line in wrapped(&text, columns) {
                prop_assert!(line.width() <= columns, "{line:?}");
            }
        }
    }

    #[test]
    fn a_fitted_text_is_as_wide_as_asked_whatever_the_letters() {
        let letters = [
            "wide",
            "",
            "a longer text",
            "心室中隔欠損",
            "e\u{301}e\u{301}e\u{301}",
            "a🏽",
        ];
        for text in letters {
            for columns in 0..12 {
                assert_eq!(fitted(text, columns).width(), columns, "{text}");
                assert_eq!(fitted_at_end(text, columns).width(), columns, "{text}");
            }
        }
        assert_eq!(fitted("abcdef", 4), "abc…");
        assert_eq!(fitted_at_end("abcdef", 4), "…def");
        assert_eq!(fitted_at_end("心室中隔", 5), "…中隔");
    }

    #[test]
    fn no_letter_of_several_characters_is_cut_in_two() {
        let family = "👨\u{200d}👩\u{200d}👧";
        let text = family.repeat(3);
        assert_eq!(fitted(&text, 5), format!("{family}{family}…"));
        assert_eq!(fitted_at_end(&text, 3), format!("…{family}"));
        assert_eq!(wrapped(&text, 3), [family; 3]);
    }

    #[test]
    fn words_wrap_and_long_ones_are_cut() {
        assert_eq!(wrapped("one two three", 7), ["one two", "three"]);
        assert_eq!(wrapped("abcdefgh", 3), ["abc", "def", "gh"]);
        assert_eq!(wrapped("", 3), [""]);
        assert!(
            wrapped("心室中隔欠損", 5)
                .iter()
                .all(|line| line.width() <= 5)
        );
    }

    #[test]
    fn a_paragraph_hangs_under_its_first_line() {
        assert_eq!(paragraph("- ", "one two three", 9), "- one two\n  three\n");
    }
}
