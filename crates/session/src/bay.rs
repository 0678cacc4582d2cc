use crate::Shelf;
use geometry::{Occluder, Vec2, degrees};
use sizing::{Shape, Size, Turn};

/// A candidate pinned beside others, as the operator set it down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bay {
    /// Its size's place on the shelf.
    pub place: usize,
    /// Whether it is turned over, so that the left disc lies on the right.
    pub swapped: bool,
    /// Its turn by hand, in whole degrees from 0 to 359; `None`: the best.
    pub turn: Option<u16>,
}

/// Most candidates that are pinned at once: more do not fit beside each other.
pub const MOST_BAYS: usize = 4;

/// Pinned candidates by the places they have on another shelf; those that are not
/// there any more are left out.
pub(crate) fn pinned_on(from: &Shelf, to: &Shelf, bays: &[Bay]) -> Vec<Bay> {
    let mut pinned: Vec<Bay> = Vec::new();
    for bay in bays {
        let place = from.name(bay.place).and_then(|name| to.place(&name));
        let bay = place.map(|place| Bay { place, ..*bay });
        pinned.extend(bay.filter(|bay| !pinned.contains(bay)));
    }
    pinned
}

impl Bay {
    /// A size as the catalogue has it, at its best turn.
    pub const fn new(place: usize) -> Self {
        Self {
            place,
            swapped: false,
            turn: None,
        }
    }

    /// Whether the ranking holds it already: not swapped, not turned by hand.
    pub(crate) const fn is_ranked(&self) -> bool {
        !self.swapped && self.turn.is_none()
    }

    /// How its turn is found.
    pub fn turn(&self) -> Turn {
        self.turn
            .map_or(Turn::Best, |turn| Turn::ByHand(degrees(f64::from(turn))))
    }

    /// The shape and the size of a bay; a swapped one is a copy with a label of its own.
    pub fn find<'a>(&self, shelf: &'a Shelf) -> Option<(&'a Shape, Size)> {
        let (shape, size) = shelf.at(self.place)?;
        let mut size = size.clone();
        if self.swapped {
            size.label += " swapped";
            size.occluder = turned_over(&size.occluder);
        }
        Some((shape, size))
    }

    /// The name of the size in a bay: `shape/size`.
    pub fn name(&self, shelf: &Shelf) -> String {
        self.find(shelf).map_or_else(String::new, |(shape, size)| {
            format!("{}/{}", shape.id, size.label)
        })
    }
}

/// A shape turned over about its axis u: left becomes right, and v its opposite.
/// The same piece, not a mirror image of it.
fn turned_over(occluder: &Occluder) -> Occluder {
    let discs = occluder.discs.map(|disc| {
        disc.map(|mut disc| {
            disc.offset = Vec2::new(disc.offset.u, -disc.offset.v);
            disc
        })
    });
    Occluder {
        discs: discs.swapped(),
        ..*occluder
    }
}

/// Whether turning a shape over makes it another.
pub(crate) fn has_unequal_discs(occluder: &Occluder) -> bool {
    turned_over(occluder) != *occluder
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;
    use geometry::Face;

    #[test]
    fn a_swapped_size_is_a_copy_with_its_discs_exchanged() {
        let session = fixture::infant();
        let shelf = session.document().shelf();
        let place = fixture::place("larger-left/5x3");
        let plain = Bay::new(place).find(shelf).unwrap().1;
        let swapped = Bay {
            swapped: true,
            ..Bay::new(place)
        }
        .find(shelf)
        .unwrap()
        .1;
        assert_eq!(swapped.label, "5x3 swapped");
        assert_eq!(
            swapped.occluder.discs[Face::Left].unwrap().radius,
            plain.occluder.discs[Face::Right].unwrap().radius
        );
        assert_eq!(turned_over(&swapped.occluder), plain.occluder);
        assert!(has_unequal_discs(&plain.occluder));
    }
}
