//! Blanks, comments, commas and line ends between the values of a text.

use super::Splice;
use crate::outline::comment_end;

impl Splice {
    /// The line end that a text uses.
    pub(super) fn line_break(&self) -> &'static str {
        match self.text.find('\n') {
            Some(at) if self.text[..at].ends_with('\r') => "\r\n",
            _ => "\n",
        }
    }

    pub(super) fn line_start(&self, at: usize) -> usize {
        self.text[..at].rfind('\n').map_or(0, |found| found + 1)
    }

    /// Whether only blanks stand before a byte on its line.
    pub(super) fn begins_line(&self, at: usize) -> bool {
        self.text[self.line_start(at)..at].trim().is_empty()
    }

    /// The indentation of a byte's line.
    pub(super) fn indent_at(&self, at: usize) -> &str {
        let line = &self.text[self.line_start(at)..at];
        &line[..line.len() - line.trim_start().len()]
    }

    /// Index of the first byte at or behind an index that is not blank.
    fn past(&self, at: usize, is_blank: impl Fn(char) -> bool) -> usize {
        let rest = &self.text[at..];
        at + rest.find(|it| !is_blank(it)).unwrap_or(rest.len())
    }

    /// Index of the first byte behind blanks on the same line.
    pub(super) fn past_spaces(&self, at: usize) -> usize {
        self.past(at, |it| it.is_whitespace() && it != '\n' && it != '\r')
    }

    /// Whether a line ends at a byte.
    pub(super) fn ends_line(&self, at: usize) -> bool {
        let rest = &self.text[at..];
        rest.is_empty() || rest.starts_with(['\n', '\r'])
    }

    /// The comma after a value, comments between them or not.
    pub(super) fn comma_after(&self, value_end: usize) -> Option<usize> {
        let mut at = value_end;
        loop {
            at = self.past(at, char::is_whitespace);
            match comment_end(&self.text, at) {
                Some(end) => at = end,
                None => return self.text[at..].starts_with(',').then_some(at),
            }
        }
    }

    /// The end of a line behind its comments; `None` where a value or bracket
    /// follows on it.
    pub(super) fn line_end_after(&self, at: usize) -> Option<usize> {
        let mut end = at;
        loop {
            let next = self.past_spaces(end);
            if self.ends_line(next) {
                return Some(end);
            }
            end = comment_end(&self.text, next)?;
            // `\r` before the break is no part of a comment.
            let line = &self.text[next..end];
            end -= line.len() - line.trim_end_matches('\r').len();
        }
    }
}
