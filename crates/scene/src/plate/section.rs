//! A section as strokes: filled, layered, lettered.

mod device;
mod dimensions;
mod lettering;
mod tissue;
mod valve;

pub use lettering::{OUTSIDE_CUT, OUTSIDE_CUT_MARK};
pub(super) use valve::{doubt_bar, hinge};

use super::Detail;
use super::judged::Judgement;
use super::lettering::Lettering;
use super::panel::Panel;
use crate::section::{Cut, PlateLine};
use crate::{Extent, Point};
use geometry::{Face, Mm};
use measurement::Valve;
use sizing::{Candidate, Setting};

/// What stays free beyond the last thing drawn, mm.
const MARGIN: Mm = 1.3;

/// How much of a far wall is shown in a few cells, mm.
const FAR_WALL: Mm = 0.5;

/// How much of a cavity is shown at least beyond the device, mm: the words of the
/// rim find room.
const CAVITY: Mm = 5.4;

/// How much of a plate is shown at most beyond the device, where no far wall ends
/// the field, mm.
const PLATE_BEYOND: Mm = 9.0;

/// How much of the root is shown over the hinge, mm.
const ROOT: Mm = 2.6;

/// A size in a section toward a valve's hinge, where it comes nearest to that
/// valve.
#[derive(Debug)]
pub(super) struct SectionPicture<'a> {
    pub(super) cut: Cut<'a>,
    pub(super) setting: &'a Setting,
    pub(super) judgement: Judgement<'a>,
}

impl<'a> SectionPicture<'a> {
    /// `None` while a reading of hole or wall is missing.
    pub(super) fn of(setting: &'a Setting, candidate: &'a Candidate, valve: Valve) -> Option<Self> {
        Some(Self {
            cut: Cut::of(setting, &candidate.size, candidate.turn, valve)?,
            setting,
            judgement: Judgement(candidate),
        })
    }

    /// What of the heart it is to show, x through the wall from left to right and y
    /// along the section's azimuth.
    pub(super) fn bounds(&self, detail: Detail) -> Extent {
        let device = self.device();
        let mut bounds = device.grown(MARGIN);
        for edge in Face::BOTH.iter().filter_map(|&face| self.cut.edges(face)) {
            bounds.least.y = bounds.least.y.min(edge[0] - 2.0 * MARGIN);
            bounds.most.y = bounds.most.y.max(edge[1] + 2.0 * MARGIN);
        }
        if let Some(hinged) = self.cut.hinged {
            bounds.most.y = bounds.most.y.max(self.cut.y(hinged.hinge()) + ROOT);
        }
        for face in Face::BOTH {
            let beyond = self.beyond(&device, face, detail);
            match face {
                Face::Left => bounds.least.x = bounds.least.x.min(beyond),
                Face::Right => bounds.most.x = bounds.most.x.max(beyond),
            }
        }
        bounds
    }

    /// How far the field is to run out of a face: past the far wall of its tract, or
    /// as far as names and plate need.
    fn beyond(&self, device: &Extent, face: Face, detail: Detail) -> Mm {
        if let Some(tract) = self.cut.tract(face) {
            let shown = match detail {
                Detail::Full => MARGIN,
                Detail::Thin => FAR_WALL,
            };
            return self.cut.x(face, tract.depth + shown);
        }
        let end = outer(device, face);
        let out = self
            .plate()
            .filter(|_| self.cut.face() == face)
            .map_or(CAVITY, |plate| {
                let tip = face.outward() * (plate.tip.x - end);
                (tip + MARGIN).clamp(CAVITY, PLATE_BEYOND)
            });
        end + face.outward() * out
    }

    /// The corner at the valve asked for, to be shown enlarged: hinge, end of the
    /// disc and edge of the defect. `None` without the valve.
    pub(super) fn corner(&self) -> Option<Extent> {
        /// How much of the plate and of the wall is seen beside the corner, mm.
        const BESIDE: Mm = 2.6;
        let face = self.cut.face();
        let disc = Extent::of(self.cut.disc(face));
        let top = disc.map_or(0.0, |disc| disc.most.y);
        let edge = self.cut.edges(face).map_or(0.0, |[_, upper]| upper);
        let hinge = self.cut.y(self.cut.hinged?.hinge());
        let out = disc.map_or(0.0, |disc| face.outward() * outer(&disc, face));
        let out = match face {
            Face::Left => out,
            Face::Right => out - self.cut.anatomy.defect.wall,
        };
        let xs = [
            self.cut.x(face, out.max(0.0) + BESIDE),
            self.cut.x(face, -self.cut.anatomy.defect.wall.min(BESIDE)),
        ];
        Some(Extent {
            least: Point::new(xs[0].min(xs[1]), edge.min(top) - MARGIN),
            most: Point::new(xs[0].max(xs[1]), hinge.max(top) + MARGIN),
        })
    }

    /// The height of the hinge, which is level 0 of the ruler; of the defect's centre
    /// where there is none.
    pub(super) fn level(&self) -> Mm {
        self.cut
            .hinged
            .map_or(0.0, |hinged| self.cut.y(hinged.hinge()))
    }

    /// Everything but the words, back to front.
    pub(super) fn draw(&self, panel: &mut Panel, detail: Detail) {
        tissue::cavities(self, panel);
        tissue::far_walls(self, panel, detail);
        tissue::septum(self, panel, detail);
        valve::habit(self, panel, detail);
        device::device(self, panel, detail);
        device::past_valve(self, panel, detail);
        valve::plates(self, panel, detail);
        dimensions::lines(self, panel, detail);
    }

    /// The words inside the field, the most important first.
    pub(super) fn letter(&self, panel: &Panel, lettering: &mut Lettering, detail: Detail) {
        lettering::letter(self, panel, lettering, detail);
    }

    /// The things that have a name: where each is pointed at, and its name.
    pub(super) fn names(&self) -> Vec<(Point, String)> {
        lettering::names(self)
    }

    /// Whether a ruler on the picture finds the clearance.
    pub(super) fn is_clearance_drawn(&self) -> bool {
        crate::section::clearance_line(&self.cut).is_some_and(|line| line.is_in_cut)
    }

    fn plate(&self) -> Option<PlateLine> {
        PlateLine::of(&self.cut, self.cut.hinged?)
    }

    /// The extent of discs and waist.
    fn device(&self) -> Extent {
        let wall = self.cut.anatomy.defect.wall;
        let discs = Face::BOTH.map(|face| {
            let full = self.cut.full_disc(face).unwrap_or_default();
            [self.cut.disc(face), full].concat()
        });
        let wall = [Point::new(0.0, 0.0), Point::new(wall, 0.0)];
        let points = discs.concat();
        let all = points.iter().chain(&wall).copied();
        Extent::of(all.chain(self.cut.waist_outline())).unwrap_or(Extent {
            least: wall[0],
            most: wall[1],
        })
    }
}

/// The end of an extent that lies out of a face.
const fn outer(extent: &Extent, face: Face) -> Mm {
    match face {
        Face::Left => extent.least.x,
        Face::Right => extent.most.x,
    }
}
