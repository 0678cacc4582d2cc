use geometry::Face;
use measurement::Valve;
use std::fmt;

/// What one row of a check is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Subject {
    /// The shape as a whole.
    Shape,
    /// The disc, or the waist's end, on a face.
    Face(Face),
    /// A neighbouring valve.
    Valve(Valve),
    /// The vein of the way in.
    Vein,
    /// The artery of the way in.
    Artery,
}

impl Subject {
    /// Its name in files and output.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Shape => "shape",
            Self::Face(Face::Left) => "left side",
            Self::Face(Face::Right) => "right side",
            Self::Valve(valve) => valve.label(),
            Self::Vein => "femoral vein",
            Self::Artery => "femoral artery",
        }
    }

    /// The word for it in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Shape => "shape",
            Self::Face(Face::Left) => "left",
            Self::Face(Face::Right) => "right",
            Self::Valve(Valve::Aortic) => "aortic_valve",
            Self::Valve(Valve::Mitral) => "mitral_valve",
            Self::Valve(Valve::Tricuspid) => "tricuspid_valve",
            Self::Valve(Valve::Pulmonary) => "pulmonary_valve",
            Self::Vein => "vein",
            Self::Artery => "artery",
        }
    }

    /// The face it is, if it is one.
    pub const fn face(self) -> Option<Face> {
        match self {
            Self::Face(face) => Some(face),
            _ => None,
        }
    }

    /// The valve it is, if it is one.
    pub const fn valve(self) -> Option<Valve> {
        match self {
            Self::Valve(valve) => Some(valve),
            _ => None,
        }
    }

    /// Every subject there is.
    pub const ALL: [Self; 9] = [
        Self::Shape,
        Self::Face(Face::Left),
        Self::Face(Face::Right),
        Self::Valve(Valve::Aortic),
        Self::Valve(Valve::Mitral),
        Self::Valve(Valve::Tricuspid),
        Self::Valve(Valve::Pulmonary),
        Self::Vein,
        Self::Artery,
    ];
}

impl fmt::Display for Subject {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.label())
    }
}

/// The face of the septum on which a valve stands.
pub const fn face_of(valve: Valve) -> Face {
    if valve.is_left() {
        Face::Left
    } else {
        Face::Right
    }
}
