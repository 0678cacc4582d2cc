use crate::{Disk, FileError};
use std::borrow::Cow;
use std::io::Read;
use std::ops::Range;
use std::path::Path;

/// A place in a text, as editors count it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// The text of a file with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    name: String,
    has_mark: bool,
    text: String,
    line_starts: Vec<usize>,
}

/// The byte-order mark some editors put first: no part of the text.
const MARK: char = '\u{feff}';

impl Source {
    /// The text of a file, without the byte-order mark it may begin with.
    pub fn new(name: &str, original: &str) -> Self {
        let text = original.strip_prefix(MARK).unwrap_or(original);
        let after_breaks = text.match_indices('\n').map(|(at, _)| at + 1);
        Self {
            name: name.to_owned(),
            has_mark: text.len() < original.len(),
            text: text.to_owned(),
            line_starts: std::iter::once(0).chain(after_breaks).collect(),
        }
    }

    /// Reads a plain file of at most `cap` bytes of UTF-8.
    pub fn read(path: &Path, cap: u64) -> Result<Self, FileError> {
        let name = path.display().to_string();
        let mut bytes = Vec::new();
        // One byte over the cap shows that there is more; nothing beyond it is read.
        let read = Disk::default()
            .open_plain(path)
            .and_then(|file| file.take(cap + 1).read_to_end(&mut bytes));
        match read {
            Err(cause) => Err(FileError::unread(&name, cause)),
            Ok(length) if length as u64 > cap => Err(FileError::too_large(&name, cap)),
            Ok(_) => match std::str::from_utf8(&bytes) {
                Ok(text) => Ok(Self::new(&name, text)),
                Err(error) => Err(FileError::not_utf8(&name, error.valid_up_to())),
            },
        }
    }

    /// The name of the file, as it was given.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The text: every span is in bytes of it.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The file as it is on disk, its byte-order mark included.
    pub fn original(&self) -> Cow<'_, str> {
        if self.has_mark {
            Cow::Owned(format!("{MARK}{}", self.text))
        } else {
            Cow::Borrowed(&self.text)
        }
    }

    /// Another text with the byte-order mark of this one.
    pub(crate) fn marked(&self, text: String) -> String {
        if self.has_mark {
            format!("{MARK}{text}")
        } else {
            text
        }
    }

    /// The text of a span; empty where the span is not one of this text.
    pub fn slice(&self, span: &Range<usize>) -> &str {
        self.text.get(span.clone()).unwrap_or_default()
    }

    /// The line of a byte, from 1.
    pub fn line(&self, offset: usize) -> usize {
        self.line_starts.partition_point(|&start| start <= offset)
    }

    /// The place of a byte.
    pub fn position(&self, offset: usize) -> Position {
        let line = self.line(offset);
        let start = self.line_starts[line - 1];
        let column = 1 + self.slice(&(start..offset)).chars().count();
        Position { line, column }
    }

    /// The byte at a place; the end of the text for a place past it.
    pub fn offset(&self, at: Position) -> usize {
        let start = at
            .line
            .checked_sub(1)
            .and_then(|line| self.line_starts.get(line));
        let Some(&start) = start else {
            return self.text.len();
        };
        self.text[start..]
            .char_indices()
            .nth(at.column.saturating_sub(1))
            .map_or(self.text.len(), |(within, _)| start + within)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_bytes_agree_both_ways() {
        let source = Source::new("x", "ä1\n\nβ2\n");
        for (offset, line, column) in [
            (0, 1, 1),
            (2, 1, 2),
            (3, 1, 3),
            (4, 2, 1),
            (7, 3, 2),
            (9, 4, 1),
        ] {
            let place = Position { line, column };
            assert_eq!(source.position(offset), place);
            assert_eq!(source.offset(place), offset);
        }
        assert_eq!(
            source.offset(Position {
                line: 99,
                column: 1
            }),
            source.text().len()
        );
        assert_eq!(
            source.offset(Position { line: 0, column: 0 }),
            source.text().len()
        );
    }

    #[test]
    fn a_byte_order_mark_is_no_part_of_line_one() {
        let source = Source::new("x", "\u{feff}(1)");
        assert_eq!(source.text(), "(1)");
        assert_eq!(source.original(), "\u{feff}(1)");
    }
}
