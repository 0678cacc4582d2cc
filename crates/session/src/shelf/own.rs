//! Changes of the shelf: of the user's own catalogue, which is laid over the rest.

use super::Shelf;
use sizing::{Catalogue, Shape, aside_unknown};
use std::collections::BTreeSet;

/// Where a shape comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// From a catalogue that is not the user's own.
    Came,
    /// From the user's own.
    Own,
    /// From the user's own, in place of one that came.
    OwnOver,
}

impl Origin {
    /// The origin in a few words.
    pub const fn says(self) -> &'static str {
        match self {
            Self::Came => "came with the program",
            Self::Own => "yours",
            Self::OwnOver => "yours, over the one that came",
        }
    }
}

impl Shelf {
    /// The user's own catalogue.
    pub fn own(&self) -> &Catalogue {
        &self.own
    }

    /// Where the shape of an id comes from.
    pub fn origin(&self, id: &str) -> Origin {
        let came = self.came.iter().flat_map(|catalogue| &catalogue.shapes);
        let is_of = |shape: &Shape| shape.id == id;
        match (
            self.own.shapes.iter().any(is_of),
            came.into_iter().any(is_of),
        ) {
            (false, _) => Origin::Came,
            (true, false) => Origin::Own,
            (true, true) => Origin::OwnOver,
        }
    }

    /// Whether a size is put aside in a catalogue that is not the user's own.
    pub(crate) fn came_aside(&self, name: &str) -> bool {
        self.came.iter().any(|one| one.put_aside.contains(name))
    }

    /// The shelf with a shape in the user's own catalogue, in place of one with its
    /// id. What was put aside of it and is there no more is forgotten.
    pub(crate) fn with_shape(&self, shape: Shape) -> Self {
        self.changed(
            |own| match own.shapes.iter_mut().find(|one| one.id == shape.id) {
                Some(one) => *one = shape,
                None => own.shapes.push(shape),
            },
        )
    }

    /// The shelf without a shape in the user's own catalogue.
    pub(crate) fn without_shape(&self, id: &str) -> Self {
        self.changed(|own| own.shapes.retain(|shape| shape.id != id))
    }

    /// The shelf with sizes put aside, or back.
    pub(crate) fn with_aside(&self, names: &[String], is_aside: bool) -> Self {
        self.changed(|own| {
            for name in names {
                if is_aside {
                    own.put_aside.insert(name.clone());
                } else {
                    own.put_aside.remove(name);
                }
            }
        })
    }

    fn changed(&self, change: impl FnOnce(&mut Catalogue)) -> Self {
        let mut own = (*self.own).clone();
        change(&mut own);
        let unknown = |shelf: &Self| aside_unknown(&shelf.catalogues);
        let (was, changed) = (unknown(self), self.with_own(own.clone()));
        let gone = unknown(&changed)
            .into_iter()
            .filter(|name| !was.contains(name));
        let gone: Vec<String> = gone.collect();
        if gone.is_empty() {
            return changed;
        }
        // What went with the change is no longer put aside either.
        own.put_aside.retain(|name| !gone.contains(name));
        self.with_own(own)
    }
}

/// A catalogue of nothing yet.
pub(super) fn none_yet() -> Catalogue {
    Catalogue {
        title: "My own shapes".to_owned(),
        shapes: Vec::new(),
        put_aside: BTreeSet::new(),
    }
}
