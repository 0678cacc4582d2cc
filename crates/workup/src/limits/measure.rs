use crate::Figure;

/// A figure that a row of guidance may name.
pub trait NamedFigure: Copy {
    /// The figure itself.
    fn figure(self) -> Figure;
}

/// A figure that means the same in a child and in an adult.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SharedFigure {
    /// Weight, kg.
    Weight,
    /// Age, years.
    Age,
    /// Pulmonary over systemic flow.
    QpQs,
    /// Pulmonary over systemic resistance.
    ResistanceRatio,
    /// Systolic pressure of the lungs over that of the body.
    PressureRatio,
    /// Left ventricle against children, or adults, of the same size.
    LeftVentricleZ,
    /// Left atrium against children of the same size.
    LeftAtriumZ,
}

/// A figure of a child: resistance is indexed to body surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfChild {
    /// A figure that means the same in an adult.
    Shared(SharedFigure),
    /// Pulmonary resistance indexed to body surface, WU·m².
    ResistanceIndexed,
}

/// A figure of an adult: resistance is that of the whole body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfAdult {
    /// A figure that means the same in a child.
    Shared(SharedFigure),
    /// Pulmonary resistance, WU.
    Resistance,
}

impl NamedFigure for SharedFigure {
    fn figure(self) -> Figure {
        match self {
            Self::Weight => Figure::Weight,
            Self::Age => Figure::Age,
            Self::QpQs => Figure::QpQs,
            Self::ResistanceRatio => Figure::ResistanceRatio,
            Self::PressureRatio => Figure::PressureRatio,
            Self::LeftVentricleZ => Figure::LeftVentricleZ,
            Self::LeftAtriumZ => Figure::LeftAtriumZ,
        }
    }
}

impl NamedFigure for OfChild {
    fn figure(self) -> Figure {
        match self {
            Self::Shared(shared) => shared.figure(),
            Self::ResistanceIndexed => Figure::PulmonaryResistanceIndexed,
        }
    }
}

impl NamedFigure for OfAdult {
    fn figure(self) -> Figure {
        match self {
            Self::Shared(shared) => shared.figure(),
            Self::Resistance => Figure::PulmonaryResistance,
        }
    }
}
