//! The dimensions of a section, outside the anatomy, with ticks at their ends.

use super::{Detail, SectionPicture, outer};
use crate::plate::judged::role;
use crate::plate::panel::{Panel, Pen, TICK, dimension};
use crate::section::{clearance_line, reach_ends};
use crate::stroke::Role;
use crate::{Extent, Part, Point};
use geometry::{Face, Mm};

/// How far beside the device a dimension stands, page mm.
const BESIDE: Mm = 2.6;

/// How far above the lower end of the field the wall's thickness is drawn, page mm.
const FOOT: Mm = 5.0;

/// Width of a dimension that is well, and of one that is not, page mm.
const WIDTHS: [Mm; 2] = [0.2, 0.35];

/// A length in a section with what its line is drawn as.
pub(super) struct Dimension {
    pub(super) part: Part,
    pub(super) role: Role,
    pub(super) ends: [Point; 2],
}

pub(super) fn lines(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let scale = panel.scale();
    let foot = foot(panel);
    let mut all: Vec<Dimension> = clearance(picture).into_iter().collect();
    all.extend(rim(picture, scale));
    if detail == Detail::Full {
        all.extend(reach(picture, scale));
        all.extend(Face::BOTH.iter().filter_map(|&face| open(picture, face)));
        all.push(thickness(picture, foot));
    }
    if detail == Detail::Full {
        extensions(picture, panel, &all);
    }
    for one in &all {
        let is_well = matches!(one.role, Role::Dimension | Role::Ok);
        let (width, tick) = match detail {
            Detail::Full => (WIDTHS[usize::from(!is_well)], TICK),
            Detail::Thin => (0.6, TICK),
        };
        let pen = Pen::solid(one.part, one.role, width);
        dimension(panel, pen, tick, one.ends);
    }
}

/// Dashed lines from the edge and the hinge out to rim and reach.
fn extensions(picture: &SectionPicture, panel: &mut Panel, all: &[Dimension]) {
    let cut = &picture.cut;
    for one in all {
        let from = match one.part {
            Part::Rim(_) | Part::Reach(_) => cut.x(cut.face(), 0.0),
            _ => continue,
        };
        let lines = one.ends.map(|end| [Point::new(from, end.y), end]);
        let pen = Pen::dashed(one.part, Role::Dimension, 0.15, 0.9, 0.7);
        panel.lines(pen, &lines);
    }
}

/// From the edge of the defect to the hinge, on the other side of the wall, where
/// neither plate nor cusps lie.
pub(super) fn rim(picture: &SectionPicture, scale: f64) -> Option<Dimension> {
    let cut = &picture.cut;
    let [_, edge] = cut.edges(cut.face())?;
    cut.anatomy.rims[cut.valve]?;
    let far = cut.face().opposite();
    let x = beside(picture, far, scale);
    Some(Dimension {
        part: Part::Rim(cut.valve),
        role: Role::Dimension,
        ends: [edge, cut.y(cut.hinged?.hinge())].map(|y| Point::new(x, y)),
    })
}

/// From the edge to the farthest point of the disc in the plane.
pub(super) fn reach(picture: &SectionPicture, scale: f64) -> Option<Dimension> {
    let cut = &picture.cut;
    let face = cut.face();
    let ends = reach_ends(cut)?;
    let x = beside(picture, face, scale);
    Some(Dimension {
        part: Part::Reach(face),
        role: Role::Dimension,
        ends: ends.map(|end| Point::new(x, end)),
    })
}

/// Beside the device on a face, or beside the wall where the device ends in it.
fn beside(picture: &SectionPicture, face: Face, scale: f64) -> Mm {
    let disc = Extent::of(picture.cut.disc(face));
    let face_at = picture.cut.x(face, 0.0);
    let edge = disc.map_or(face_at, |disc| outer(&disc, face));
    let edge = match face {
        Face::Left => edge.min(face_at),
        Face::Right => edge.max(face_at),
    };
    edge + face.outward() * BESIDE / scale
}

/// From the device to the cusps, where both ends lie in the cut.
pub(super) fn clearance(picture: &SectionPicture) -> Option<Dimension> {
    let line = clearance_line(&picture.cut).filter(|line| line.is_in_cut)?;
    let valve = picture.cut.valve;
    Some(Dimension {
        part: Part::Clearance(valve),
        role: role(picture.judgement.clearance(valve)),
        ends: line.ends,
    })
}

/// What stays open of an outflow tract at the middle of the disc.
pub(super) fn open(picture: &SectionPicture, face: Face) -> Option<Dimension> {
    let cut = &picture.cut;
    let depth = cut.tract(face)?.depth;
    let disc = cut.place.disc(face);
    let layer = disc.stand_off + disc.thickness;
    let y = cut.y(disc.centre);
    (layer < depth).then(|| Dimension {
        part: Part::Open(face),
        role: role(picture.judgement.open_share(face)),
        ends: [layer, depth].map(|out| Point::new(cut.x(face, out), y)),
    })
}

/// The thickness of the wall, in its lower end.
pub(super) fn thickness(picture: &SectionPicture, y: Mm) -> Dimension {
    let wall = picture.cut.anatomy.defect.wall;
    Dimension {
        part: Part::Thickness,
        role: Role::Dimension,
        ends: [Point::new(0.0, y), Point::new(wall, y)],
    }
}

/// The height at which the wall's thickness is drawn in a panel.
pub(super) fn foot(panel: &Panel) -> Mm {
    panel.window().least.y + FOOT / panel.scale()
}
