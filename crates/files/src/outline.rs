//! Where each value of a RON text stands.
//!
//! `ron` alone decides what a text means; the outline adds the places. Of a
//! text that `ron` takes, every value is found; of any other text whatever can
//! be, up to the end. It never fails.

mod scanner;

use crate::text::excerpt;
use scanner::Scanner;
use std::ops::Range;

/// The values of a RON text with their places, in bytes.
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
    /// How it is reached from the value around it.
    pub(crate) via: Via,
    /// Its own place, without the name or key before it.
    pub(crate) span: Range<usize>,
    /// Its fields, items or entries, in the order of the file.
    pub(crate) inner: Vec<Self>,
}

/// How a value is reached from the one around it; spans are those of the name
/// or key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Via {
    /// Not at all: it is the file.
    Root,
    /// By a field's name.
    Field(Range<usize>),
    /// By its place in a list or tuple, from 0.
    Item(usize),
    /// By a map's key.
    Entry(Range<usize>),
}

/// A bracket without its counterpart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Unclosed {
    /// Where it is opened.
    pub(crate) opened: usize,
    /// The bracket that would close it.
    pub(crate) closes: char,
    /// Where another bracket closes instead; the end of the text otherwise.
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
    /// Its place, its name or key included.
    pub(crate) fn extent(&self) -> Range<usize> {
        match &self.via {
            Via::Root | Via::Item(_) => self.span.clone(),
            Via::Field(name) | Via::Entry(name) => name.start..self.span.end,
        }
    }

    /// Its field of a name.
    pub(crate) fn field(&self, text: &str, name: &str) -> Option<&Self> {
        self.inner.iter().find(|inner| match &inner.via {
            Via::Field(span) => field_name(text, span) == name,
            _ => false,
        })
    }

    /// Its place in a path, after what leads to the value around it.
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
