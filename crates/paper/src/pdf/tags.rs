//! What every part of the pages is, for those who hear them.

use super::LANGUAGE;
use crate::layout::Tag;
use pdf_writer::types::{StructRole, TableHeaderScope};
use pdf_writer::{Finish, Pdf, Ref, TextStr};

/// The tree of what the pages say.
pub(super) struct Tags {
    root: Ref,
    parents: Ref,
    elements: Vec<Element>,
    /// For each page, which element each of its marked parts belongs to.
    pages: Vec<Vec<Ref>>,
}

struct Element {
    id: Ref,
    parent: Ref,
    role: StructRole,
    scope: Option<TableHeaderScope>,
    alternative_text: String,
    children: Vec<Child>,
    page: Ref,
}

enum Child {
    Element(Ref),
    Marked(i32),
}

/// The place of an element in the tree.
#[derive(Clone, Copy)]
pub(super) struct ElementIndex(usize);

impl Tags {
    pub(super) fn new(next: &mut Ref) -> Self {
        let [root, parents, document] = [(); 3].map(|()| next.bump());
        let mut tags = Self {
            root,
            parents,
            elements: Vec::new(),
            pages: Vec::new(),
        };
        tags.elements.push(Element {
            id: document,
            parent: root,
            role: StructRole::Document,
            scope: None,
            alternative_text: String::new(),
            children: Vec::new(),
            page: document,
        });
        tags
    }

    /// The element that holds all others.
    pub(super) const DOCUMENT: ElementIndex = ElementIndex(0);

    /// Begins a page: the numbers of its marked parts start anew.
    pub(super) fn begin_page(&mut self) {
        self.pages.push(Vec::new());
    }

    /// Adds an element under another.
    pub(super) fn element(
        &mut self,
        under: ElementIndex,
        tag: Tag,
        alternative_text: &str,
        page: Ref,
        next: &mut Ref,
    ) -> ElementIndex {
        let id = next.bump();
        let (role, scope) = role(tag);
        let parent = self.elements[under.0].id;
        self.elements[under.0].children.push(Child::Element(id));
        self.elements.push(Element {
            id,
            parent,
            role,
            scope,
            alternative_text: alternative_text.to_owned(),
            children: Vec::new(),
            page,
        });
        ElementIndex(self.elements.len() - 1)
    }

    /// Gives what follows on the page to an element; gives its number.
    pub(super) fn marked(&mut self, of: ElementIndex) -> i32 {
        let id = self.elements[of.0].id;
        let Some(page) = self.pages.last_mut() else {
            return 0;
        };
        let number = i32::try_from(page.len()).unwrap_or(i32::MAX);
        page.push(id);
        self.elements[of.0].children.push(Child::Marked(number));
        number
    }

    /// Writes the tree; gives its root.
    pub(super) fn write(&self, pdf: &mut Pdf) -> Ref {
        let mut root = pdf.indirect(self.root).dict();
        root.pair(
            pdf_writer::Name(b"Type"),
            pdf_writer::Name(b"StructTreeRoot"),
        );
        root.pair(pdf_writer::Name(b"K"), self.elements[0].id);
        root.pair(pdf_writer::Name(b"ParentTree"), self.parents);
        root.pair(
            pdf_writer::Name(b"ParentTreeNextKey"),
            i32::try_from(self.pages.len()).unwrap_or(i32::MAX),
        );
        root.finish();
        let mut parents = pdf.indirect(self.parents).dict();
        let mut numbers = parents.insert(pdf_writer::Name(b"Nums")).array();
        for (number, page) in self.pages.iter().enumerate() {
            numbers.item(i32::try_from(number).unwrap_or(i32::MAX));
            numbers.push().array().items(page.iter().copied());
        }
        numbers.finish();
        parents.finish();
        for element in &self.elements {
            element.write(pdf);
        }
        self.root
    }
}

impl Element {
    fn write(&self, pdf: &mut Pdf) {
        let mut writer = pdf.struct_element(self.id);
        writer.kind(self.role).parent(self.parent);
        if self.role == StructRole::Document {
            writer.lang(TextStr(LANGUAGE));
        } else {
            writer.page(self.page);
        }
        if !self.alternative_text.is_empty() {
            writer.alt(TextStr(&self.alternative_text));
        }
        if let Some(scope) = self.scope {
            let mut attributes = writer.attributes();
            attributes.push().table().scope(scope);
            attributes.finish();
        }
        let mut children = writer.children();
        for child in &self.children {
            match child {
                Child::Element(id) => children.struct_element(*id),
                Child::Marked(number) => children.marked_content_id(*number),
            };
        }
    }
}

/// The role of a tag, and what a head of a table is the head of.
const fn role(tag: Tag) -> (StructRole, Option<TableHeaderScope>) {
    match tag {
        Tag::Title => (StructRole::H1, None),
        Tag::Heading => (StructRole::H2, None),
        Tag::Paragraph => (StructRole::P, None),
        Tag::Figure => (StructRole::Figure, None),
        Tag::Table => (StructRole::Table, None),
        Tag::Row => (StructRole::TR, None),
        Tag::ColumnHead => (StructRole::TH, Some(TableHeaderScope::Column)),
        Tag::RowHead => (StructRole::TH, Some(TableHeaderScope::Row)),
        Tag::Cell => (StructRole::TD, None),
        Tag::Artifact => (StructRole::NonStruct, None),
    }
}
