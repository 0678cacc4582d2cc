use super::Detail;
use super::face_on::FacePicture;
use super::lettering::Lettering;
use super::margin::Name;
use super::panel::Panel;
use super::section::SectionPicture;
use crate::{Extent, Point, View, words};
use geometry::{Face, Mm};
use sizing::{Candidate, Neighbour, Setting};

/// Which ventricle lies on the left of a section.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Orientation {
    /// The right one, as in a four-chamber view and on an oblique cine.
    #[default]
    RightVentricleLeft,
    /// The left one, as in a long-axis view.
    LeftVentricleLeft,
}

/// What a plate says over a view: what it is, and how it lies.
pub(super) fn caption(setting: &Setting, view: View, orientation: Orientation) -> String {
    match view {
        View::Section(valve) => {
            let azimuth = setting.anatomy().azimuths[valve].unwrap_or(0.0);
            let left = match orientation {
                Orientation::RightVentricleLeft => "right",
                Orientation::LeftVentricleLeft => "left",
            };
            let toward = if setting.case().is_absent(Neighbour::Valve(valve)) {
                String::new()
            } else {
                format!("toward the {} ", valve.label())
            };
            format!(
                "section {toward}at {}, {left} ventricle on the left",
                words::o_clock(azimuth)
            )
        }
        View::FaceOn(face) => format!("face-on, seen from the {} ventricle", words::side(face)),
    }
}

/// One view of one size, ready to be drawn.
#[derive(Debug)]
pub(super) struct Picture<'a> {
    of: Sight<'a>,
    is_mirrored: bool,
}

#[derive(Debug)]
enum Sight<'a> {
    Section(Box<SectionPicture<'a>>),
    FaceOn(Box<FacePicture<'a>>),
}

impl<'a> Picture<'a> {
    /// `None` while a reading it needs is missing.
    pub(super) fn of(
        setting: &'a Setting,
        candidate: &'a Candidate,
        view: View,
        orientation: Orientation,
    ) -> Option<Self> {
        Some(match view {
            View::Section(valve) => Self {
                of: Sight::Section(Box::new(SectionPicture::of(setting, candidate, valve)?)),
                is_mirrored: orientation == Orientation::RightVentricleLeft,
            },
            View::FaceOn(face) => Self {
                of: Sight::FaceOn(Box::new(FacePicture::of(setting, candidate, face)?)),
                is_mirrored: face == Face::Right,
            },
        })
    }

    pub(super) const fn is_mirrored(&self) -> bool {
        self.is_mirrored
    }

    pub(super) fn bounds(&self, detail: Detail) -> Extent {
        match &self.of {
            Sight::Section(section) => section.bounds(detail),
            Sight::FaceOn(face) => face.bounds(),
        }
    }

    /// The corner at the valve of a section.
    pub(super) fn corner(&self) -> Option<Extent> {
        self.section()?.corner()
    }

    /// The height of level 0 in a section.
    pub(super) fn level(&self) -> Option<Mm> {
        match &self.of {
            Sight::Section(section) => Some(section.level()),
            Sight::FaceOn(_) => None,
        }
    }

    /// The x of the page at which left and right part: the middle of the wall of a
    /// section, of the field of a face.
    pub(super) fn middle(&self, panel: &Panel) -> Mm {
        match &self.of {
            Sight::Section(section) => {
                let wall = section.cut.anatomy.defect.wall;
                panel.at(Point::new(0.5 * wall, 0.0)).x
            }
            Sight::FaceOn(_) => 0.5 * (panel.field.least.x + panel.field.most.x),
        }
    }

    pub(super) fn draw(&self, panel: &mut Panel, detail: Detail) {
        match &self.of {
            Sight::Section(section) => section.draw(panel, detail),
            Sight::FaceOn(face) => face.draw(panel, detail),
        }
    }

    pub(super) fn letter(&self, panel: &Panel, lettering: &mut Lettering, detail: Detail) {
        match &self.of {
            Sight::Section(section) => section.letter(panel, lettering, detail),
            Sight::FaceOn(face) => face.letter(panel, lettering, detail),
        }
    }

    pub(super) fn names(&self, panel: &Panel) -> Vec<Name> {
        match &self.of {
            Sight::Section(section) => section
                .names()
                .into_iter()
                .map(|(at, text)| Name::of(panel.at(at), text))
                .collect(),
            Sight::FaceOn(face) => face.names(panel),
        }
    }

    /// The section, if it is one.
    pub(super) fn section(&self) -> Option<&SectionPicture<'a>> {
        match &self.of {
            Sight::Section(section) => Some(section),
            Sight::FaceOn(_) => None,
        }
    }

    /// The face, if it is one.
    pub(super) fn face_on(&self) -> Option<&FacePicture<'a>> {
        match &self.of {
            Sight::Section(_) => None,
            Sight::FaceOn(face) => Some(face),
        }
    }
}
