use super::Splice;
use crate::document::Step;
use crate::outline::Node;
use crate::ron_text::INDENT;

impl Splice {
    /// Writes an item at a place among those of a group, laid out as its
    /// neighbour: on a line of its own, or on the same.
    pub(super) fn insert(&mut self, group: &[Step], place: usize, item: &str) {
        let Some(node) = self.node(group) else { return };
        let changes = match (place.checked_sub(1), node.inner.first()) {
            (_, None) => self.first_item(node, item),
            (None, Some(first)) => self.before(first.extent().start, item),
            (Some(index), Some(_)) => match node.inner.get(index) {
                Some(neighbour) => self.behind(neighbour, item),
                None => return,
            },
        };
        self.write(changes);
    }

    /// Writes an item with a name before all of a group, above the comments on its first.
    pub(super) fn insert_on_top(&mut self, group: &[Step], item: &str) {
        let changes = self.node(group).map(|node| self.first_item(node, item));
        self.write(changes.unwrap_or_default());
    }

    fn first_item(&self, node: &Node, item: &str) -> Vec<Change> {
        let span = node.span.clone();
        let Some(opens) = self.text[span.clone()].find(['(', '[', '{']) else {
            return Vec::new();
        };
        let (inside, closes) = (span.start + opens + 1, span.end.saturating_sub(1));
        let is_blank = self
            .text
            .get(inside..closes)
            .is_some_and(|between| between.trim().is_empty());
        let line = self.line_break();
        let indent = self.indent_at(node.extent().start);
        // A word stands beside its brackets, what has a name on a line of its own.
        match (item.contains(':'), is_blank) {
            (true, true) => {
                let item = format!("{line}{indent}{INDENT}{item},{line}{indent}");
                vec![(inside..closes, item)]
            }
            (true, false) => vec![(inside..inside, format!("{line}{indent}{INDENT}{item},"))],
            (false, true) => vec![(inside..closes, item.to_owned())],
            (false, false) => vec![(inside..inside, format!("{item},"))],
        }
    }

    fn before(&self, start: usize, item: &str) -> Vec<Change> {
        let behind = if self.begins_line(start) {
            format!("{}{}", self.line_break(), self.indent_at(start))
        } else {
            " ".to_owned()
        };
        vec![(start..start, format!("{item},{behind}"))]
    }

    fn behind(&self, neighbour: &Node, item: &str) -> Vec<Change> {
        let extent = neighbour.extent();
        let comma = self.comma_after(extent.end);
        let mut changes = Vec::new();
        // The last item ends with a comma if the one that was last did.
        let (after, item) = if let Some(comma) = comma {
            (comma + 1, format!("{item},"))
        } else {
            changes.push((extent.end..extent.end, ",".to_owned()));
            (extent.end, item.to_owned())
        };
        match self.line_end_after(after) {
            Some(end) if self.begins_line(extent.start) => {
                let indent = self.indent_at(extent.start);
                changes.push((end..end, format!("{}{indent}{item}", self.line_break())));
            }
            _ => changes.push((after..after, format!(" {item}"))),
        }
        changes
    }
}

type Change = (std::ops::Range<usize>, String);
