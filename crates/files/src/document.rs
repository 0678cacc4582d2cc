use crate::format_1::{NEW, in_todays_words};
use crate::outline::Outline;
use crate::place::FieldPlace;
use crate::syntax::explain;
use crate::{Diagnostic, Faults, FileKind, Source};
use ron::Options;
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;
use std::ops::Range;

/// A text with the spans of its values.
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
    pub(crate) fn root(&self) -> FieldPlace<'_> {
        FieldPlace::root(&self.source, &self.outline)
    }

    /// Reads the text into a form, or says why it cannot be.
    fn form<Form: DeserializeOwned>(&self) -> Result<Form, Vec<Diagnostic>> {
        let text = self.source.text();
        // First, because every other fault may come of another format.
        let format = self.root().field("format");
        if format.is_there() && self.source.slice(format.span()) != NEW {
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

/// A value that was read from a file and has no fault, with its text.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked<T> {
    value: T,
    document: Document,
}

impl<T> Checked<T> {
    /// Reads a text into a form and the form into a value, with every fault of the form at
    /// once.
    pub(crate) fn read<Form: DeserializeOwned>(
        kind: FileKind,
        source: Source,
        check: impl FnOnce(Form, &FieldPlace, &mut Faults) -> T,
    ) -> Result<Self, Vec<Diagnostic>> {
        let document = Document::new(in_todays_words(kind, source)?);
        let form = document.form()?;
        let mut faults = Faults::default();
        let value = check(form, &document.root(), &mut faults);
        faults.none()?;
        Ok(Self { value, document })
    }

    /// The value.
    pub const fn value(&self) -> &T {
        &self.value
    }

    /// The value without its text.
    pub fn into_value(self) -> T {
        self.value
    }

    /// The source of the file, in the words of format 2.
    pub fn in_todays_words(&self) -> String {
        let source = self.source();
        source.marked(source.text().to_owned())
    }

    /// The text of the file, in the words of format 2.
    pub const fn source(&self) -> &Source {
        &self.document.source
    }

    /// The span of a value in the text, in bytes; the path names a field, then an item or
    /// a field of it, and so on.
    pub fn span(&self, path: &[Step]) -> Option<Range<usize>> {
        let place = path.iter().fold(self.root(), |place, step| match step {
            Step::Field(name) => place.field(name),
            Step::Item(index) => place.item(*index),
        });
        place.is_there().then(|| place.span().clone())
    }

    pub(crate) fn root(&self) -> FieldPlace<'_> {
        self.document.root()
    }
}

/// One step of a path to a value in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step<'a> {
    /// The step to a field by its name.
    Field(&'a str),
    /// The step to an item or entry by its index, from 0.
    Item(usize),
}
