use std::borrow::Cow;
use std::ops::Range;

/// A position in a text, as editors count it.
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
    /// The text on disk, where the words of this one are others.
    written: Option<Box<OriginalText>>,
}

/// The way back from a translated text to the one on disk.
#[derive(Clone, Debug, PartialEq, Eq)]
struct OriginalText {
    source: Source,
    /// What was replaced, in the order of the text: its place there, and the place
    /// of what stands for it here.
    places: Vec<(Range<usize>, Range<usize>)>,
}

/// A place of a text with the word that is to stand there.
pub(crate) type Replacement = (Range<usize>, String);

/// The byte-order mark that some editors put first; it is no part of the text.
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
            written: None,
        }
    }

    /// The translated text, whose positions and words are still told as they are on disk.
    pub(crate) fn with_words(self, mut replaced: Vec<Replacement>) -> Self {
        replaced.sort_by_key(|(span, _)| span.start);
        let (mut text, mut places, mut from) = (String::new(), Vec::new(), 0);
        for (span, word) in replaced {
            text.push_str(self.slice(&(from..span.start)));
            let start = text.len();
            text.push_str(&word);
            from = span.end;
            places.push((span, start..text.len()));
        }
        text.push_str(self.slice(&(from..self.text.len())));
        let mut source = Self::new(&self.name, &text);
        source.has_mark = self.has_mark;
        source.written = Some(Box::new(OriginalText {
            places,
            source: self,
        }));
        source
    }

    /// Whether the text on disk has other words.
    pub(crate) const fn is_in_other_words(&self) -> bool {
        self.written.is_some()
    }

    /// The text on disk of a span of this text.
    pub(crate) fn as_written(&self, span: &Range<usize>) -> &str {
        match &self.written {
            None => self.slice(span),
            Some(written) => {
                let there = written.offset(span.start)..written.end(span.end);
                written.source.slice(&there)
            }
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

    /// The file as it is on disk, in the words it has there, its byte-order mark included.
    pub fn original(&self) -> Cow<'_, str> {
        if let Some(written) = &self.written {
            written.source.original()
        } else if self.has_mark {
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

    /// The line of a byte on disk, from 1.
    pub fn line(&self, offset: usize) -> usize {
        if let Some(written) = &self.written {
            return written.source.line(written.offset(offset));
        }
        self.line_starts.partition_point(|&start| start <= offset)
    }

    /// The place of a byte on disk.
    pub fn position(&self, offset: usize) -> Position {
        if let Some(written) = &self.written {
            return written.source.position(written.offset(offset));
        }
        let line = self.line(offset);
        let start = self.line_starts[line - 1];
        let column = 1 + self.slice(&(start..offset)).chars().count();
        Position { line, column }
    }

    /// The byte at a place of this text; its end for a place past it.
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

impl OriginalText {
    /// Where on disk a byte of the text in other words stands: within a word at its
    /// beginning.
    fn offset(&self, offset: usize) -> usize {
        self.of(offset, |(there, here)| {
            if offset < here.end {
                there.start
            } else {
                offset - here.end + there.end
            }
        })
    }

    /// The byte on disk of the end of a span; within a translated word, the word's end.
    fn end(&self, offset: usize) -> usize {
        self.of(offset, |(there, here)| {
            if offset <= here.start {
                there.start
            } else {
                offset.max(here.end) - here.end + there.end
            }
        })
    }

    fn of(&self, offset: usize, place: impl Fn(&(Range<usize>, Range<usize>)) -> usize) -> usize {
        let after = |(_, here): &(Range<usize>, Range<usize>)| here.start <= offset;
        let count = self.places.partition_point(after);
        count
            .checked_sub(1)
            .map_or(offset, |last| place(&self.places[last]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_in_other_words_is_told_as_it_is_on_disk() {
        let source = Source::new("x", "a: old,\nb: older, c");
        let other = source.with_words(vec![(11..16, "y".into()), (3..6, "longer".into())]);
        assert_eq!(other.text(), "a: longer,\nb: y, c");
        assert_eq!(other.original(), "a: old,\nb: older, c");
        for (word, line, column, written) in [
            ("longer", 1, 4, "old"),
            ("y", 2, 4, "older"),
            ("c", 2, 11, "c"),
            ("b", 2, 1, "b"),
        ] {
            let at = other.text().find(word).unwrap();
            assert_eq!(other.position(at), Position { line, column }, "{word}");
            assert_eq!(other.as_written(&(at..at + word.len())), written);
        }
    }

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
