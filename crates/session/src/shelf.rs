mod own;
#[cfg(test)]
mod tests;

pub use own::Origin;

use sizing::{Catalogue, Shape, Size, is_aside, overlaid};
use std::ops::Range;
use std::sync::Arc;

/// The shapes of all catalogues, each size at its place: counted through all of
/// them, as the ranking counts.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    /// The catalogues that are not the user's own.
    came: Arc<[Catalogue]>,
    own: Arc<Catalogue>,
    /// The user's own laid over the rest.
    catalogues: Arc<[Catalogue]>,
}

/// One line of the list of the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfRow {
    /// A shape, by its id.
    Shape(String),
    /// A size, by its place.
    Size(usize),
}

impl Shelf {
    pub(crate) fn new(catalogues: Vec<Catalogue>) -> Self {
        Self::laid_over(catalogues.into(), own::none_yet())
    }

    /// The user's own catalogue laid over others.
    pub(crate) fn laid_over(came: Arc<[Catalogue]>, own: Catalogue) -> Self {
        let all = came.iter().chain([&own]).cloned().collect();
        Self {
            came,
            own: Arc::new(own),
            catalogues: overlaid(all).into(),
        }
    }

    /// This shelf with another catalogue of the user's own.
    pub(crate) fn with_own(&self, own: Catalogue) -> Self {
        Self::laid_over(Arc::clone(&self.came), own)
    }

    /// Whether a size, by its name, is not in stock today.
    pub fn is_aside(&self, name: &str) -> bool {
        is_aside(&self.catalogues, name)
    }

    /// The name of the size at a place: `shape/size`.
    pub fn name(&self, place: usize) -> Option<String> {
        let (shape, size) = self.at(place)?;
        Some(format!("{}/{}", shape.id, size.label))
    }

    /// The names of all sizes, each at its place.
    pub fn names(&self) -> impl Iterator<Item = String> {
        self.shapes().flat_map(|(_, shape)| {
            let name = |size: &Size| format!("{}/{}", shape.id, size.label);
            shape.sizes.iter().map(name)
        })
    }

    /// The place of a size by its name.
    pub fn place(&self, name: &str) -> Option<usize> {
        let (id, label) = name.split_once('/')?;
        let (places, shape) = self.shapes().find(|(_, shape)| shape.id == id)?;
        let index = shape.sizes.iter().position(|size| size.label == label)?;
        Some(places.start + index)
    }

    /// Every shape and under it every size.
    pub fn rows(&self) -> Vec<ShelfRow> {
        let rows = self.shapes().flat_map(|(places, shape)| {
            let head = ShelfRow::Shape(shape.id.clone());
            std::iter::once(head).chain(places.map(ShelfRow::Size))
        });
        rows.collect()
    }

    /// The catalogues, in their order.
    pub fn catalogues(&self) -> &[Catalogue] {
        &self.catalogues
    }

    /// Whether another shelf is this one, not only its like.
    pub(crate) fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.catalogues, &other.catalogues)
    }

    /// Every shape with the places of its sizes.
    pub fn shapes(&self) -> impl DoubleEndedIterator<Item = (Range<usize>, &Shape)> {
        let mut from = 0;
        let shapes: Vec<_> = self
            .catalogues
            .iter()
            .flat_map(|catalogue| &catalogue.shapes)
            .map(|shape| {
                let places = from..from + shape.sizes.len();
                from = places.end;
                (places, shape)
            })
            .collect();
        shapes.into_iter()
    }

    /// The shape and the size at a place.
    pub fn at(&self, place: usize) -> Option<(&Shape, &Size)> {
        let (places, shape) = self.shapes().find(|(places, _)| places.contains(&place))?;
        Some((shape, shape.sizes.get(place - places.start)?))
    }

    /// The place of the next or the former size of the same shape.
    pub fn beside(&self, place: usize, forward: bool) -> Option<usize> {
        let (places, _) = self.shapes().find(|(places, _)| places.contains(&place))?;
        let beside = if forward {
            place.checked_add(1)
        } else {
            place.checked_sub(1)
        }?;
        places.contains(&beside).then_some(beside)
    }

    /// The place in the next or the former shape of the size whose waist is
    /// nearest; the first of two as near.
    pub(crate) fn in_shape_beside(&self, place: usize, forward: bool) -> Option<usize> {
        let waist = self.at(place)?.1.occluder.waist.diameter;
        let filled = self.shapes().filter(|(places, _)| !places.is_empty());
        let (places, shape) = if forward {
            filled.into_iter().find(|(places, _)| places.start > place)
        } else {
            filled.rev().find(|(places, _)| places.end <= place)
        }?;
        let apart = |size: &Size| (size.occluder.waist.diameter - waist).abs();
        places
            .zip(&shape.sizes)
            .min_by(|(_, one), (_, other)| apart(one).total_cmp(&apart(other)))
            .map(|(place, _)| place)
    }
}
