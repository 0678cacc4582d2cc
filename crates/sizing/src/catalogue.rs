mod overlaid;

pub use overlaid::{aside_unknown, is_aside, overlaid};

use geometry::{Mm, Occluder};
use std::collections::BTreeSet;

/// A list of shapes a house can take from its shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    /// Its title.
    pub title: String,
    /// Its shapes, in the order of the file.
    pub shapes: Vec<Shape>,
    /// What is not in stock today, by name: `shape/size`, of this catalogue or of
    /// one it is laid over.
    pub put_aside: BTreeSet<String>,
}

/// One form in all its sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its short name for the command line: lower case letters, digits, hyphens.
    pub id: String,
    /// Its plain name.
    pub name: String,
    /// What it is for, in a sentence.
    pub about: String,
    /// Its sizes, in the order of the file.
    pub sizes: Vec<Size>,
}

/// One size of a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Its label, waist and length in millimetres as a rule: `5x3`.
    pub label: String,
    /// Its form when free.
    pub occluder: Occluder,
    /// The sheath it goes through.
    pub sheath: Sheath,
}

/// A sheath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheath {
    /// Its nominal size in French, named by what fits inside.
    pub french: f64,
    /// Its outer diameter, where the catalogue gives it.
    pub outer_diameter: Option<Mm>,
}

/// Millimetres in one French: a third (ISO 10555-1).
const MM_PER_FRENCH: f64 = 1.0 / 3.0;

impl Sheath {
    /// The outer diameter given, or French/3 and twice the wall.
    pub fn outer_diameter(&self, both_walls: Mm) -> Mm {
        self.outer_diameter
            .unwrap_or(self.french * MM_PER_FRENCH + both_walls)
    }
}
