use crate::{Ellipse, Face, Mm, PerFace, Vec2};

/// How the edge of a defect answers to a waist wider than itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Muscle or membrane: rounded by the waist, its perimeter kept.
    Soft,
    /// Fibrous tissue or a patch: keeps its own form.
    Stiff,
}

/// The opening of a defect on one face of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Its centre o in the wall plane, from the centre of the narrowest part.
    pub centre: Vec2,
    /// Its edge, about its own centre o.
    pub edge: Ellipse,
}

/// A defect: an elliptical narrowest part between a left and a right opening.
///
/// A reduced model: the defect is a straight tube with elliptical ends. The bends
/// of a tunnel, an aneurysm of the septum and further defects are left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Defect {
    /// The narrowest part of the defect, across its axis.
    pub narrowest: Ellipse,
    /// The opening on each face.
    pub openings: PerFace<Opening>,
    /// Thickness T of the wall at the defect.
    pub wall: Mm,
    /// How the edge answers to a waist wider than itself.
    pub edge: Edge,
    fit_diameter: Mm,
}

impl Defect {
    /// A defect from its narrowest part, its opening on each face, and its wall.
    pub fn new(narrowest: Ellipse, openings: PerFace<Opening>, wall: Mm, edge: Edge) -> Self {
        Self {
            narrowest,
            openings,
            wall,
            edge,
            fit_diameter: narrowest.equal_perimeter_diameter(),
        }
    }

    /// A straight defect: both openings are the ellipse of its narrowest part.
    pub fn straight(narrowest: Ellipse, wall: Mm, edge: Edge) -> Self {
        let opening = Opening {
            centre: Vec2::ZERO,
            edge: narrowest,
        };
        Self::new(narrowest, PerFace::new(opening, opening), wall, edge)
    }

    /// The perimeter-derived diameter d_fit: that of a circle with the perimeter of the
    /// narrowest part.
    ///
    /// A compliant waist rounds a soft defect and keeps its perimeter
    /// (assumption of the reduced model: the edge does not stretch).
    pub const fn fit_diameter(&self) -> Mm {
        self.fit_diameter
    }

    /// The opening on a face.
    pub fn opening(&self, face: Face) -> &Opening {
        &self.openings[face]
    }
}
