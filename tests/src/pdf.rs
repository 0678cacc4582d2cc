//! A small reader of the PDF files that the program writes: objects, tags, words.
//!
//! It knows what those files have and no more: no object streams, no encryption, one
//! filter. Source of the syntax: ISO 32000-1, sections 7.3 and 9.4, from memory.

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "numbers of objects and bytes are small and not below 0"
)]
#![expect(
    clippy::panic,
    clippy::missing_panics_doc,
    reason = "a file that does not read fails the test"
)]

mod object;
mod words;

pub use object::{Object, objects};
pub use words::{Part, parts};

use std::collections::BTreeMap;

/// A file with its objects by number.
#[derive(Debug)]
pub struct PdfFile {
    objects: BTreeMap<u32, Object>,
}

/// A tag with what it holds, in the order in which it is read.
#[derive(Debug, PartialEq)]
pub struct Tagged {
    /// Its role, such as `H1`.
    pub role: String,
    /// What is read in place of it.
    pub alternative_text: String,
    /// Of a head of a table, what it is the head of.
    pub scope: String,
    /// The words it holds itself.
    pub words: String,
    /// What it holds.
    pub children: Vec<Self>,
}

impl PdfFile {
    /// Reads a file.
    pub fn read(bytes: &[u8]) -> Self {
        Self {
            objects: objects(bytes),
        }
    }

    /// An object, followed where it refers to another.
    pub fn follow<'a>(&'a self, object: &'a Object) -> &'a Object {
        match object {
            Object::Reference(number) => self.objects.get(number).unwrap_or(&Object::Null),
            other => other,
        }
    }

    /// A value of a dictionary, followed.
    pub fn get<'a>(&'a self, of: &'a Object, key: &str) -> &'a Object {
        self.follow(self.follow(of).get(key))
    }

    /// The catalog of the file.
    pub fn catalog(&self) -> &Object {
        let mut all = self.objects.values();
        all.find(|one| one.get("Type").name() == "Catalog")
            .unwrap_or(&Object::Null)
    }

    /// Its pages, in order.
    pub fn pages(&self) -> Vec<&Object> {
        let kids = self.get(self.get(self.catalog(), "Pages"), "Kids");
        kids.items().iter().map(|kid| self.follow(kid)).collect()
    }

    /// What a page prints, in order: words with their place and their tag's number.
    pub fn parts(&self, page: &Object) -> Vec<Part> {
        let fonts = self.get(self.get(page, "Resources"), "Font");
        let letters = fonts.entries().map(|(name, font)| {
            let map = self.get(font, "ToUnicode").stream();
            (name.to_owned(), words::letters(&map))
        });
        parts(&self.get(page, "Contents").stream(), &letters.collect())
    }

    /// The description of the file (XMP) as it stands there.
    pub fn metadata(&self) -> String {
        let stream = self.get(self.catalog(), "Metadata").stream();
        String::from_utf8_lossy(&stream).into_owned()
    }

    /// The tree of tags, from the document down.
    pub fn tags(&self) -> Tagged {
        let root = self.get(self.catalog(), "StructTreeRoot");
        let pages = self.pages().into_iter().map(|page| self.parts(page));
        let pages: Vec<Vec<Part>> = pages.collect();
        self.tagged(self.get(root, "K"), &pages)
    }

    fn tagged(&self, element: &Object, pages: &[Vec<Part>]) -> Tagged {
        let mut tagged = Tagged {
            role: self.get(element, "S").name().to_owned(),
            alternative_text: self.get(element, "Alt").text(),
            scope: String::new(),
            words: String::new(),
            children: Vec::new(),
        };
        for attributes in self.get(element, "A").items() {
            self.get(attributes, "Scope")
                .name()
                .clone_into(&mut tagged.scope);
        }
        let page = self.pages();
        let on = self.get(element, "Pg");
        let on = page.iter().position(|page| std::ptr::eq(*page, on));
        for child in self.get(element, "K").items() {
            if let Object::Number(number) = child {
                let parts = on.and_then(|on| pages.get(on)).into_iter().flatten();
                for part in parts.filter(|part| part.mark == Some(*number as i64)) {
                    tagged.words.push_str(&part.text);
                }
            } else {
                tagged.children.push(self.tagged(self.follow(child), pages));
            }
        }
        tagged
    }
}

impl Tagged {
    /// It and everything in it, in the order in which it is read.
    pub fn all(&self) -> Vec<&Self> {
        let mut all = vec![self];
        all.extend(self.children.iter().flat_map(Self::all));
        all
    }

    /// Everything that is read aloud, a line a tag.
    pub fn read_aloud(&self) -> String {
        let said = self.all().into_iter();
        let said = said.map(|one| format!("{} {}", one.alternative_text, one.words));
        said.collect::<Vec<_>>().join("\n")
    }
}
