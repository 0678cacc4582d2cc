use super::Splice;
use crate::document::Step;
use std::ops::Range;

impl Splice {
    /// Removes an item from a group with its comma, and with its line where
    /// nothing else stands on it. Comments around it stay.
    pub(super) fn remove(&mut self, group: &[Step], index: usize) {
        let Some(node) = self.node(group) else { return };
        let Some(item) = node.inner.get(index).map(crate::outline::Node::extent) else {
            return;
        };
        let before = index.checked_sub(1).and_then(|index| node.inner.get(index));
        let before = before.map(|node| node.extent().end);
        let range = match self.comma_after(item.end) {
            Some(comma) if self.is_blank(item.end..comma) => {
                self.with_blanks(item.start..comma + 1)
            }
            // A comment before the comma stays.
            Some(comma) => {
                let comma = (comma..comma + 1, String::new());
                return self.write(vec![(item, String::new()), comma]);
            }
            None if self.begins_line(item.start) => self.with_blanks(item),
            // The last of a row, without a comma: the one before it is the last now.
            None => match before.filter(|&end| self.is_comma(end..item.start)) {
                Some(end) => end..item.end,
                None => item,
            },
        };
        self.write(vec![(range, String::new())]);
    }

    fn is_blank(&self, range: Range<usize>) -> bool {
        self.text[range].trim().is_empty()
    }

    fn is_comma(&self, range: Range<usize>) -> bool {
        self.text[range].trim() == ","
    }

    /// A range together with the line or the blanks that it leaves behind.
    fn with_blanks(&self, range: Range<usize>) -> Range<usize> {
        let next = self.past_spaces(range.end);
        match (self.begins_line(range.start), self.ends_line(next)) {
            (true, true) => {
                let rest = &self.text[next..];
                let line_break = rest.find('\n').map_or(rest.len(), |found| found + 1);
                self.line_start(range.start)..next + line_break
            }
            (false, true) => {
                let before = self.text[..range.start].trim_end().len();
                before..next
            }
            (_, false) => range.start..next,
        }
    }
}
