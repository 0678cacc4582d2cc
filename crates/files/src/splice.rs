//! A change written into a hand-edited text: comments, order and layout stay.
//!
//! The text is not written anew. What differs between the value that was read and
//! the value that is wanted is found, and only those places are changed, one at a
//! time. The result is read again; it is given back only if it says exactly what
//! is wanted. Every comment stays but those inside an item that is taken out; those inside
//! one that is moved go with it.

mod blanks;
mod case;
mod catalogue;
mod insert;
mod list;
mod procedure;
mod remove;

use crate::document::Step;
use crate::outline::{Node, Outline, Via};
use crate::ron_text::{Field, INDENT, Style};
use crate::{Checked, Diagnostic};
use std::ops::Range;

/// Why a change was not written into a text; the text is as it was.
#[derive(Debug, thiserror::Error)]
pub enum SpliceError {
    /// What is wanted breaks a rule of such files: every fault.
    #[error("not written, the file would be wrong: {}", first(.0))]
    Faulty(Vec<Diagnostic>),
    /// The text does not read as what is wanted, however it is spliced.
    #[error(
        "not written: the change finds no place in the text as it was laid out by hand. \
         Save under another name; the file is then written anew."
    )]
    NoPlace,
    /// The text would be larger than any such file may be.
    #[error(
        "not written: the file would be larger than {kibibytes} KiB. Take something out first."
    )]
    TooLarge {
        /// The largest size that is read.
        kibibytes: u64,
    },
}

fn first(faults: &[Diagnostic]) -> String {
    faults.first().map_or_else(String::new, ToString::to_string)
}

/// A text on the way from what it says to what it is to say.
pub(crate) struct Splice {
    text: String,
    outline: Outline,
}

impl Splice {
    fn new(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            outline: Outline::of(text),
        }
    }

    fn node(&self, path: &[Step]) -> Option<&Node> {
        let root = &self.outline.root;
        path.iter().try_fold(root, |node, step| match step {
            Step::Field(name) => node.field(&self.text, name),
            Step::Item(index) => node.inner.get(*index),
        })
    }

    fn index_of_field(&self, group: &[Step], name: &str) -> Option<usize> {
        let wanted = self.node(group)?.field(&self.text, name)?;
        let mut inner = self.node(group)?.inner.iter();
        inner.position(|node| std::ptr::eq(node, wanted))
    }

    fn index_of_key(&self, map: &[Step], key: &str) -> Option<usize> {
        self.node(map)?.inner.iter().position(|node| {
            let Via::Entry(span) = &node.via else {
                return false;
            };
            let written = self.text.get(span.clone()).unwrap_or_default();
            ron::from_str::<String>(written).is_ok_and(|written| written == key)
        })
    }

    fn index_of_text(&self, list: &[Step], text: &str) -> Option<usize> {
        self.node(list)?.inner.iter().position(|node| {
            let written = self.text.get(node.span.clone()).unwrap_or_default();
            ron::from_str::<String>(written).is_ok_and(|written| written == text)
        })
    }

    fn index_of_word(&self, list: &[Step], word: &str) -> Option<usize> {
        let mut inner = self.node(list)?.inner.iter();
        inner.position(|node| {
            let written = self.text.get(node.span.clone()).unwrap_or_default();
            written.strip_prefix("r#").unwrap_or(written) == word
        })
    }

    /// Writes other values over some, which do not overlap.
    fn write(&mut self, mut changes: Vec<(Range<usize>, String)>) {
        changes.sort_by_key(|(range, _)| range.start);
        for (range, value) in changes.iter().rev() {
            self.text.replace_range(range.clone(), value);
        }
        self.outline = Outline::of(&self.text);
    }

    /// A field says this, or is left out; `order` is that of the fields where
    /// the text does not have it.
    fn set_field(&mut self, group: &[Step], name: &str, value: Option<&str>, order: &[&str]) {
        match (self.index_of_field(group, name), value) {
            (Some(index), Some(value)) => self.replace(group, index, value),
            (Some(index), None) => self.remove(group, index),
            (None, Some(value)) => {
                let place = self.place_in_order(group, name, order);
                self.insert(group, place, &format!("{name}: {value}"));
            }
            (None, None) => {}
        }
    }

    /// Each field of a record that is written otherwise is set to what is wanted.
    fn set_record(&mut self, group: &[Step], was: &[Field], wanted: &[Field]) {
        self.set_fields(group, was, wanted, &names(wanted));
    }

    /// The same of some fields of a group.
    fn set_fields(&mut self, group: &[Step], was: &[Field], wanted: &[Field], order: &[&str]) {
        for (was, (name, wanted)) in was.iter().zip(wanted) {
            if was.1 != *wanted {
                self.set_field(group, name, wanted.as_deref(), order);
            }
        }
    }

    /// Puts in a group that was left out, an empty one.
    fn ensure_field(&mut self, group: &[Step], name: &str, empty: &str, order: &[&str]) {
        if self.index_of_field(group, name).is_none() {
            self.set_field(group, name, Some(empty), order);
        }
    }

    /// An entry of a map says this, or is left out.
    fn set_entry(&mut self, map: &[Step], key: &str, value: Option<&str>) {
        match (self.index_of_key(map, key), value) {
            (Some(index), Some(value)) => self.replace(map, index, value),
            (Some(index), None) => self.remove(map, index),
            (None, Some(value)) => {
                let entry = format!("{}: {value}", crate::ron_text::quoted(key));
                self.push(map, &entry);
            }
            (None, None) => {}
        }
    }

    fn replace(&mut self, group: &[Step], index: usize, value: &str) {
        if let Some(node) = self.node(group).and_then(|node| node.inner.get(index)) {
            let span = node.span.clone();
            self.write(vec![(span, value.to_owned())]);
        }
    }

    fn push(&mut self, group: &[Step], item: &str) {
        let count = self.node(group).map_or(0, |node| node.inner.len());
        self.insert(group, count, item);
    }

    /// Where a new field goes: behind the last of those that come before it.
    fn place_in_order(&self, group: &[Step], name: &str, order: &[&str]) -> usize {
        let before = order.iter().take_while(|one| **one != name);
        before
            .filter_map(|one| self.index_of_field(group, one))
            .max()
            .map_or(0, |index| index + 1)
    }

    /// How the item before or after a place of a list is laid out.
    fn style_at(&self, list: &[Step], place: usize) -> Style {
        let line_break = self.line_break();
        let Some(node) = self.node(list) else {
            return Style {
                indent: INDENT.to_owned(),
                is_spread: false,
                line_break,
            };
        };
        let like = node.inner.get(place.saturating_sub(1));
        let is_spread = like.is_some_and(|item| {
            let first = item
                .inner
                .first()
                .map_or(item.span.end, |it| it.extent().start);
            let lead = self.text.get(item.span.start..first).unwrap_or_default();
            lead.contains('\n')
        });
        let indent = match like {
            Some(item) if self.begins_line(item.extent().start) => {
                self.indent_at(item.extent().start).to_owned()
            }
            _ => format!("{}{INDENT}", self.indent_at(node.extent().start)),
        };
        Style {
            indent,
            is_spread,
            line_break,
        }
    }
}

/// The names of fields, in their order.
fn names(fields: &[Field]) -> Vec<&'static str> {
    fields.iter().map(|(name, _)| *name).collect()
}

/// Gives back what was read anew if it says what is wanted.
fn faithful<T: PartialEq>(
    read: Result<Checked<T>, Vec<Diagnostic>>,
    wanted: &T,
    cap: u64,
) -> Result<Checked<T>, SpliceError> {
    let read = read.map_err(SpliceError::Faulty)?;
    if read.source().original().len() as u64 > cap {
        return Err(SpliceError::TooLarge {
            kibibytes: cap / 1024,
        });
    }
    if read.value() == wanted {
        Ok(read)
    } else {
        Err(SpliceError::NoPlace)
    }
}

#[cfg(test)]
mod tests;
