use geometry::Face;
use measurement::{Feature, Quantity, Structure, Valve};
use sizing::{Neighbour, Setting};

/// A way of looking at a shape in a defect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum View {
    /// Lengthwise through the wall, toward a valve's hinge.
    Section(Valve),
    /// On a face of the wall, as seen from its own ventricle.
    FaceOn(Face),
}

impl View {
    /// Every way of looking at a case: toward each valve that may stand beside
    /// the defect, then on both faces.
    pub fn all(setting: &Setting) -> Vec<Self> {
        let beside = |valve: &Valve| !setting.case().is_absent(Neighbour::Valve(*valve));
        let sections = Valve::ALL.into_iter().filter(beside).map(Self::Section);
        sections.chain(Face::BOTH.map(Self::FaceOn)).collect()
    }

    /// The readings without which it is not drawn.
    pub fn missing(self, setting: &Setting) -> Vec<Quantity> {
        let mut missing = self.needs();
        missing.retain(|&quantity| !setting.is_known(quantity));
        missing
    }

    fn needs(self) -> Vec<Quantity> {
        use Feature::{LongAxis, OffsetToward3, OffsetToward12, Rotation, ShortAxis, Thickness};
        const AXES: &[Feature] = &[LongAxis, ShortAxis, Rotation];
        const MOUTH: &[Feature] = &[LongAxis, ShortAxis, Rotation, OffsetToward12, OffsetToward3];
        let throat = (Structure::Defect, AXES);
        let opening = |face| match face {
            Face::Left => (Structure::LeftOpening, MOUTH),
            Face::Right => (Structure::RightOpening, MOUTH),
        };
        let structures = match self {
            Self::FaceOn(face) => vec![throat, opening(face)],
            Self::Section(_) => vec![
                throat,
                (Structure::Wall, &[Thickness][..]),
                opening(Face::Left),
                opening(Face::Right),
            ],
        };
        structures
            .into_iter()
            .flat_map(|(structure, features)| {
                features
                    .iter()
                    .filter_map(move |&feature| Quantity::find(structure, feature))
            })
            .collect()
    }
}
