//! The place of a value in a file: its span and its path.

use crate::outline::{Node, Outline, Via, push_field, push_item};
use crate::{Diagnostic, Source};
use std::ops::Range;

/// The place of a value in a file. A field that was left out has the place of the value
/// around it.
#[derive(Clone, Debug)]
pub(crate) struct FieldPlace<'a> {
    source: &'a Source,
    node: &'a Node,
    path: String,
    is_there: bool,
}

impl<'a> FieldPlace<'a> {
    /// Whether it is in just this text, byte for byte.
    pub(crate) fn is_in(&self, text: &str) -> bool {
        self.source.text() == text
    }

    /// The place of the value that is the file.
    pub(crate) const fn root(source: &'a Source, outline: &'a Outline) -> Self {
        Self {
            source,
            node: &outline.root,
            path: String::new(),
            is_there: true,
        }
    }

    /// The place of a field.
    pub(crate) fn field(&self, name: &str) -> Self {
        let mut path = self.path.clone();
        let node = self.node.field(self.source.text(), name);
        // The name by which the file has it.
        match node.map(|node| &node.via) {
            Some(Via::Field(span)) if self.is_of_format_1() => {
                push_field(&mut path, self.source.as_written(span));
            }
            _ => push_field(&mut path, name),
        }
        self.inward(path, node)
    }

    /// The place of an item of a list or an entry of a map, from 0.
    pub(crate) fn item(&self, index: usize) -> Self {
        let mut path = self.path.clone();
        let node = self.node.inner.get(index);
        match node {
            Some(node) => node.push_to(&mut path, self.source.text()),
            None => push_item(&mut path, index),
        }
        self.inward(path, node)
    }

    /// The entries of a map by their keys.
    pub(crate) fn entries(&self) -> impl Iterator<Item = (String, Self)> {
        let inner = self.node.inner.iter().enumerate();
        inner.filter_map(|(index, node)| match &node.via {
            Via::Entry(key) => {
                let key = ron::from_str(self.source.slice(key)).ok()?;
                Some((key, self.item(index)))
            }
            _ => None,
        })
    }

    fn inward(&self, path: String, node: Option<&'a Node>) -> Self {
        let is_there = self.is_there && node.is_some();
        let node = node.filter(|_| is_there).unwrap_or(self.node);
        Self {
            source: self.source,
            node,
            path,
            is_there,
        }
    }

    /// Whether the value is written in the file.
    pub(crate) const fn is_there(&self) -> bool {
        self.is_there
    }

    /// The span of the value in the text, in bytes.
    pub(crate) const fn span(&self) -> &'a Range<usize> {
        &self.node.span
    }

    /// The text of the value.
    pub(crate) fn text(&self) -> &'a str {
        self.source.as_written(&self.node.span)
    }

    /// Whether the file is of format 1.
    pub(crate) const fn is_of_format_1(&self) -> bool {
        self.source.is_in_other_words()
    }

    /// The line on which the value begins.
    pub(crate) fn line(&self) -> usize {
        self.source.line(self.node.span.start)
    }

    /// A fault at this place.
    pub(crate) fn fault(&self, found: &str, expected: &str, remedy: &str) -> Diagnostic {
        Diagnostic::new(
            self.source,
            self.node.span.start,
            &self.path,
            found,
            expected,
            remedy,
        )
    }
}
