use crate::{Ellipse, Face, Mm, PerFace, Vec2};

/// How the edge of the hole answers to a waist wider than itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Muscle or membrane: rounded by the waist, its perimeter kept.
    Soft,
    /// Fibrous tissue or a patch: keeps its form.
    Stiff,
}

/// One mouth of the hole, on a face of the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Its centre o, in the wall plane, from the centre of the throat.
    pub centre: Vec2,
    /// Its edge, about its own centre.
    pub edge: Ellipse,
}

/// The hole: an elliptical throat between a left and a right opening.
///
/// A reduced model: the hole is a straight tube with elliptical ends. A
/// tunnel's bends, an aneurysm of the septum and further holes are left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Defect {
    /// The narrowest section.
    pub throat: Ellipse,
    /// The opening on each face.
    pub openings: PerFace<Opening>,
    /// Wall thickness T at the defect.
    pub wall: Mm,
    /// How the edge answers to the waist.
    pub edge: Edge,
    fit_diameter: Mm,
}

impl Defect {
    /// A defect from its throat, its opening on each face, wall and edge.
    pub fn new(throat: Ellipse, openings: PerFace<Opening>, wall: Mm, edge: Edge) -> Self {
        Self {
            throat,
            openings,
            wall,
            edge,
            fit_diameter: throat.equal_perimeter_diameter(),
        }
    }

    /// A straight hole: both openings are the throat's own ellipse.
    pub fn straight(throat: Ellipse, wall: Mm, edge: Edge) -> Self {
        let opening = Opening {
            centre: Vec2::ZERO,
            edge: throat,
        };
        Self::new(throat, PerFace::new(opening, opening), wall, edge)
    }

    /// d_fit: the diameter of the circle with the throat's perimeter.
    ///
    /// A compliant waist rounds a soft hole and keeps its perimeter
    /// (assumption of the reduced model: the edge does not stretch).
    pub const fn fit_diameter(&self) -> Mm {
        self.fit_diameter
    }

    /// The opening on a face.
    pub fn opening(&self, face: Face) -> &Opening {
        &self.openings[face]
    }
}
