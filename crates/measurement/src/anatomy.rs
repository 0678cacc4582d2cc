/// Where a ventricular septal defect lies, by its place and its borders, as the
/// International Paediatric and Congenital Cardiac Code and ICD-11 name them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Site {
    /// Perimembranous, central (LA88.41).
    CentralPerimembranous,
    /// Inlet, with a perimembranous border.
    InletPerimembranous,
    /// Inlet, with muscle all round.
    InletMuscular,
    /// Trabecular muscular (LA88.40): mid-septal, apical, anterior or posterior.
    TrabecularMuscular,
    /// Outlet, with a perimembranous border.
    OutletPerimembranous,
    /// Outlet, with muscle all round.
    OutletMuscular,
    /// Outlet, juxta-arterial: both arterial valves form its edge.
    OutletJuxtaArterial,
}

impl Site {
    /// Every site, in the order of the code list.
    pub const ALL: [Self; 7] = [
        Self::CentralPerimembranous,
        Self::InletPerimembranous,
        Self::InletMuscular,
        Self::TrabecularMuscular,
        Self::OutletPerimembranous,
        Self::OutletMuscular,
        Self::OutletJuxtaArterial,
    ];

    /// The site's word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::CentralPerimembranous => "central_perimembranous",
            Self::InletPerimembranous => "inlet_perimembranous",
            Self::InletMuscular => "inlet_muscular",
            Self::TrabecularMuscular => "trabecular_muscular",
            Self::OutletPerimembranous => "outlet_perimembranous",
            Self::OutletMuscular => "outlet_muscular",
            Self::OutletJuxtaArterial => "outlet_juxta_arterial",
        }
    }

    /// The site's name in a sentence.
    pub const fn label(self) -> &'static str {
        match self {
            Self::CentralPerimembranous => "central perimembranous",
            Self::InletPerimembranous => "perimembranous inlet",
            Self::InletMuscular => "muscular inlet",
            Self::TrabecularMuscular => "trabecular muscular",
            Self::OutletPerimembranous => "perimembranous outlet",
            Self::OutletMuscular => "muscular outlet",
            Self::OutletJuxtaArterial => "juxta-arterial outlet",
        }
    }

    /// Whether a border of the defect is the membranous septum's remnant.
    pub const fn is_perimembranous(self) -> bool {
        matches!(
            self,
            Self::CentralPerimembranous | Self::InletPerimembranous | Self::OutletPerimembranous
        )
    }

    /// Whether muscle surrounds the defect.
    pub const fn is_muscular(self) -> bool {
        matches!(
            self,
            Self::InletMuscular | Self::TrabecularMuscular | Self::OutletMuscular
        )
    }
}

/// A valve that can be the neighbour of a ventricular septal defect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Valve {
    /// Aortic valve, on the left face.
    Aortic,
    /// Mitral valve, on the left face.
    Mitral,
    /// Tricuspid valve, on the right face.
    Tricuspid,
    /// Pulmonary valve, on the right face.
    Pulmonary,
}

impl Valve {
    /// Every valve, left face first.
    pub const ALL: [Self; 4] = [Self::Aortic, Self::Mitral, Self::Tricuspid, Self::Pulmonary];

    /// The valve's name in a sentence.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Aortic => "aortic valve",
            Self::Mitral => "mitral valve",
            Self::Tricuspid => "tricuspid valve",
            Self::Pulmonary => "pulmonary valve",
        }
    }

    /// The valve's index in an array of four.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Whether the valve stands on the left face of the septum.
    pub const fn is_left(self) -> bool {
        matches!(self, Self::Aortic | Self::Mitral)
    }

    /// Whether it is an atrioventricular valve, whose leaflets hang from chordae.
    pub const fn is_atrioventricular(self) -> bool {
        matches!(self, Self::Mitral | Self::Tricuspid)
    }
}

/// The side of the wall on which a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// On the left face.
    Left,
    /// On the right face.
    Right,
    /// Within the wall, at the narrowest part of the defect.
    Within,
    /// A side does not apply.
    NoSide,
}
