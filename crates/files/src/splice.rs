//! Writes changes into a hand-edited text, so that comments, order and layout stay.
//!
//! Only the places at which the value read and the value wanted differ are changed, one
//! at a time. The result is read again, and is returned only if it gives exactly the value
//! wanted. Every comment stays but those inside an item that is taken out; those inside
//! one that is moved go with it.

mod blanks;
mod case;
mod catalogue;
mod house_rules;
mod insert;
mod list;
mod procedure;
mod remove;

use crate::document::Step;
use crate::outline::{Node, Outline, Via};
use crate::ron_text::{Field, INDENT, Style};
use crate::{Checked, Diagnostic};
use std::ops::Range;

/// Why a change was not written into a text; the text is unchanged.
#[derive(Debug, thiserror::Error)]
pub enum SpliceError {
    /// The value wanted breaks rules of such files; every fault is listed.
    #[error("not written, the file would be wrong: {}", first(.0))]
    Faulty(Vec<Diagnostic>),
    /// No splice of the text gives the value wanted.
    #[error(
        "not written: the change finds no place in the text as it was laid out by hand. \
         Save under another name; the file is then written anew."
    )]
    NoPlace,
    /// A file of rules is in the words of format 1, and is not put into those of format 2
    /// by the way.
    #[error(
        "not written: the file is in the words of format 1. `rimwise check --fix FILE` puts it \
         into those of format 2."
    )]
    OldWords,
    /// The text would be larger than any such file may be.
    #[error(
        "not written: the file would be larger than {kibibytes} KiB. Take something out first."
    )]
    TooLarge {
        /// The largest size of such a file, in bytes.
        kibibytes: u64,
    },
}

fn first(faults: &[Diagnostic]) -> String {
    faults.first().map_or_else(String::new, ToString::to_string)
}

/// A text that is being changed, with the spans of its values.
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

    /// Replaces spans, which must not overlap, by other texts.
    fn write(&mut self, mut changes: Vec<(Range<usize>, String)>) {
        changes.sort_by_key(|(range, _)| range.start);
        for (range, value) in changes.iter().rev() {
            self.text.replace_range(range.clone(), value);
        }
        self.outline = Outline::of(&self.text);
    }

    /// Sets a field to a text, or leaves it out; `order` is that of the fields where
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

    /// Sets each field of a record whose text differs from the one wanted.
    fn set_record(&mut self, group: &[Step], was: &[Field], wanted: &[Field]) {
        self.set_fields(group, was, wanted, &names(wanted));
    }

    /// Sets each of some fields of a group whose text differs.
    fn set_fields(&mut self, group: &[Step], was: &[Field], wanted: &[Field], order: &[&str]) {
        for (was, (name, wanted)) in was.iter().zip(wanted) {
            if was.1 != *wanted {
                self.set_field(group, name, wanted.as_deref(), order);
            }
        }
    }

    /// Inserts an empty group where it was left out.
    fn ensure_field(&mut self, group: &[Step], name: &str, empty: &str, order: &[&str]) {
        if self.index_of_field(group, name).is_none() {
            self.set_field(group, name, Some(empty), order);
        }
    }

    /// Sets an entry of a map to a text, or leaves it out.
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

    /// The index for a new field: behind the last of those that come before it.
    fn place_in_order(&self, group: &[Step], name: &str, order: &[&str]) -> usize {
        let before = order.iter().take_while(|one| **one != name);
        before
            .filter_map(|one| self.index_of_field(group, one))
            .max()
            .map_or(0, |index| index + 1)
    }

    /// The layout of the item before or after an index of a list.
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

/// Returns the text read again, if it gives the value wanted.
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
