use sizing::{Catalogue, Shape, Size};
use std::ops::Range;
use std::sync::Arc;

/// The shapes of all catalogues, each size at its place: counted through all of
/// them, as the ranking counts.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    catalogues: Arc<[Catalogue]>,
}

impl Shelf {
    pub(crate) fn new(catalogues: Vec<Catalogue>) -> Self {
        Self {
            catalogues: catalogues.into(),
        }
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
    pub fn in_shape_beside(&self, place: usize, forward: bool) -> Option<usize> {
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
