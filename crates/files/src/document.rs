use crate::format_1::{NEW, in_todays_words};
use crate::outline::{Node, Outline, Via, push_field, push_item};
use crate::syntax::explain;
use crate::{Diagnostic, Faults, FileKind, Source};
use ron::Options;
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;
use std::ops::Range;

/// A text with the places of its values.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Document {
    pub(crate) source: Source,
    outline: Outline,
}

impl Document {
    pub(crate) fn new(source: Source) -> Self {
        let outline = Outline::of(source.text());
        Self { source, outline }
    }

    /// The place of the file's value.
    pub(crate) fn root(&self) -> Place<'_> {
        Place {
            source: &self.source,
            node: &self.outline.root,
            path: String::new(),
            is_there: true,
        }
    }

    /// Reads the text into a form, or says why it cannot be.
    fn form<Form: DeserializeOwned>(&self) -> Result<Form, Vec<Diagnostic>> {
        let text = self.source.text();
        // First, because every other fault may come of another format.
        let format = self.root().field("format");
        if format.is_there && self.source.slice(&format.node.span) != NEW {
            let found = format!("format {}", format.text());
            let remedy = "This program reads no other format of file.";
            return Err(vec![format.fault(&found, "format 1 or 2", remedy)]);
        }
        Options::default()
            .with_default_extension(Extensions::IMPLICIT_SOME)
            .from_str(text)
            .map_err(|error| vec![explain(&self.source, &self.outline, &error)])
    }
}

/// What was read from a file and found right, with the text it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked<T> {
    value: T,
    document: Document,
}

impl<T> Checked<T> {
    /// Reads a text into a form and the form into a value; every fault of the
    /// form at once.
    pub(crate) fn read<Form: DeserializeOwned>(
        kind: FileKind,
        source: Source,
        check: impl FnOnce(Form, &Place, &mut Faults) -> T,
    ) -> Result<Self, Vec<Diagnostic>> {
        let document = Document::new(in_todays_words(kind, source)?);
        let form = document.form()?;
        let mut faults = Faults::default();
        let value = check(form, &document.root(), &mut faults);
        faults.none()?;
        Ok(Self { value, document })
    }

    /// What was read.
    pub const fn value(&self) -> &T {
        &self.value
    }

    /// What was read, without its text.
    pub fn into_value(self) -> T {
        self.value
    }

    /// The file in today's words.
    pub fn in_todays_words(&self) -> String {
        let source = self.source();
        source.marked(source.text().to_owned())
    }

    /// The text it came from, in today's words.
    pub const fn source(&self) -> &Source {
        &self.document.source
    }

    /// Where a value stands in the text, in bytes; the path names a field, then
    /// an item or a field of it, and so on.
    pub fn span(&self, path: &[Step]) -> Option<Range<usize>> {
        let place = path.iter().fold(self.root(), |place, step| match step {
            Step::Field(name) => place.field(name),
            Step::Item(index) => place.item(*index),
        });
        place.is_there.then(|| place.node.span.clone())
    }

    pub(crate) fn root(&self) -> Place<'_> {
        self.document.root()
    }
}

/// One step of a path to a value in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step<'a> {
    /// To a field by its name.
    Field(&'a str),
    /// To an item or entry by its place, from 0.
    Item(usize),
}

/// A value's place in a file. A field that was left out stands where the value
/// around it does.
#[derive(Clone, Debug)]
pub(crate) struct Place<'a> {
    source: &'a Source,
    node: &'a Node,
    path: String,
    is_there: bool,
}

impl<'a> Place<'a> {
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

    /// Whether it is written in the file.
    pub(crate) const fn is_there(&self) -> bool {
        self.is_there
    }

    /// What is written there.
    pub(crate) fn text(&self) -> &'a str {
        self.source.as_written(&self.node.span)
    }

    /// Whether the file is of format 1.
    pub(crate) const fn is_of_format_1(&self) -> bool {
        self.source.is_in_other_words()
    }

    /// The line on which it begins.
    pub(crate) fn line(&self) -> usize {
        self.source.line(self.node.span.start)
    }

    /// A fault here.
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
