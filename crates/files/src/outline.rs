//! The outline of a RON text: the span of each of its values.
//!
//! `ron` alone decides what a text means; the outline adds the spans. Of a
//! text that `ron` takes, every value is found; of any other text whatever can
//! be, up to the end. It never fails.

mod scanner;

use crate::text::excerpt;
use scanner::Scanner;
use std::ops::Range;

/// The values of a RON text with their spans, in bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Outline {
    /// The value that is the file.
    pub(crate) root: Node,
    /// The first bracket that is not closed, if there is one.
    pub(crate) unclosed: Option<Unclosed>,
}

/// One value and the values in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Node {
    /// The name, index or key by which the value around it reaches this one.
    pub(crate) via: Via,
    /// The span of the value, without the name or key before it.
    pub(crate) span: Range<usize>,
    /// The fields, items or entries of the value, in the order of the file.
    pub(crate) inner: Vec<Self>,
}

/// The name, index or key by which a value is reached from the one around it; spans are
/// those of the name or key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Via {
    /// The value is the file itself.
    Root,
    /// The name of a field.
    Field(Range<usize>),
    /// The index in a list or tuple, from 0.
    Item(usize),
    /// The key of a map.
    Entry(Range<usize>),
}

/// A bracket that is never closed, or closed by another kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Unclosed {
    /// The byte at which it is opened.
    pub(crate) opened: usize,
    /// The bracket that would close it.
    pub(crate) closes: char,
    /// The byte of the bracket that closes instead; else the end of the text.
    pub(crate) until: usize,
}

impl Outline {
    /// The outline of a text.
    pub(crate) fn of(text: &str) -> Self {
        Scanner::new(text).outline()
    }

    /// From the file's value inward, the values that contain a byte, or whose
    /// name or key does.
    pub(crate) fn containing(&self, offset: usize) -> Vec<&Node> {
        let mut path = vec![&self.root];
        let mut node = &self.root;
        while let Some(inner) = node
            .inner
            .iter()
            .find(|inner| inner.extent().contains(&offset))
        {
            path.push(inner);
            node = inner;
        }
        path
    }
}

impl Node {
    /// The span with the name or key.
    pub(crate) fn extent(&self) -> Range<usize> {
        match &self.via {
            Via::Root | Via::Item(_) => self.span.clone(),
            Via::Field(name) | Via::Entry(name) => name.start..self.span.end,
        }
    }

    /// The field with a name.
    pub(crate) fn field(&self, text: &str, name: &str) -> Option<&Self> {
        self.inner.iter().find(|inner| match &inner.via {
            Via::Field(span) => field_name(text, span) == name,
            _ => false,
        })
    }

    /// The path of the value, from the path of the value around it.
    pub(crate) fn push_to(&self, path: &mut String, text: &str) {
        match &self.via {
            Via::Root => {}
            Via::Field(span) => push_field(path, field_name(text, span)),
            Via::Item(index) => push_item(path, *index),
            Via::Entry(span) => {
                path.push('[');
                path.push_str(&excerpt(text.get(span.clone()).unwrap_or_default()));
                path.push(']');
            }
        }
    }
}

/// The end of the comment that begins at a byte, without the line break after it;
/// `None` where no comment begins.
pub(crate) fn comment_end(text: &str, at: usize) -> Option<usize> {
    Scanner::comment_end(text, at)
}

/// Adds a field to a path: `facts`, `facts.prolapse`.
pub(crate) fn push_field(path: &mut String, name: &str) {
    if !path.is_empty() {
        path.push('.');
    }
    path.push_str(&excerpt(name));
}

/// Adds an item to a path: `readings[3]`.
pub(crate) fn push_item(path: &mut String, index: usize) {
    path.extend(["[", &index.to_string(), "]"]);
}

/// A field's name; `r#` is only a way to write it.
fn field_name<'a>(text: &'a str, span: &Range<usize>) -> &'a str {
    let name = text.get(span.clone()).unwrap_or_default();
    name.strip_prefix("r#").unwrap_or(name)
}

#[cfg(test)]
mod tests;
