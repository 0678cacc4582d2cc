//! A face of the septum as strokes.

mod lettering;
mod valves;

use super::Detail;
use super::basis::is_defect_measured;
use super::judged::{Judgement, role};
use super::lettering::Lettering;
use super::margin::Name;
use super::panel::{Panel, Pen, TICK, dimension};
use super::texture;
use crate::rim_overlap::LeastOverlap;
use crate::stroke::Role;
use crate::{Extent, Part, Point, View, precision};
use geometry::outline::{disc_rim, opening_edge, waist_ring};
use geometry::{Face, Mm, PerFace, Seat, SeatedDisc, Vec2, degrees, radial};
use sizing::{Anatomy, Candidate, Setting, Size, nominal_seat};

/// How much of the septum is shown beyond what lies on it, mm.
const MARGIN: Mm = 2.2;

/// How much more of it is shown for the sake of a hinge, mm: a hinge farther off
/// is said with its distance.
const FOR_HINGES: Mm = 2.0;

/// How far the torn rim of the patch runs out at most, mm.
const TORN: Mm = 0.4;

/// Wires of a disc each way round.
const WIRES: u32 = 26;

/// A size seen along the wall's normal, from the side of one face, where its rim
/// overlap on that face is least.
#[derive(Debug)]
pub(super) struct FacePicture<'a> {
    setting: &'a Setting,
    anatomy: &'a Anatomy,
    size: &'a Size,
    pub(super) face: Face,
    judgement: Judgement<'a>,
    seat: Seat,
    waist: Vec2,
    discs: PerFace<SeatedDisc>,
    pub(super) least: Option<LeastOverlap>,
}

/// A point of the wall as it is seen from the left ventricle; from the right one
/// the panel mirrors it.
const fn seen(point: Vec2) -> Point {
    Point::new(point.v, point.u)
}

fn seen_line(line: &[Vec2]) -> Vec<Point> {
    line.iter().copied().map(seen).collect()
}

/// The radius of the patch in a panel, which may show more for the sake of others in
/// its row.
fn patch(panel: &Panel) -> Mm {
    let window = panel.window();
    0.5 * window.width().min(window.height()) - TORN
}

impl<'a> FacePicture<'a> {
    /// `None` while a reading it needs is missing.
    pub(super) fn of(setting: &'a Setting, candidate: &'a Candidate, face: Face) -> Option<Self> {
        if !View::FaceOn(face).missing(setting).is_empty() {
            return None;
        }
        let anatomy = setting.anatomy();
        let size = &candidate.size;
        let seat = nominal_seat(setting, size, candidate.turn);
        let arcs = anatomy.hinge_arcs[face].complement();
        let opening = anatomy.defect.opening(face);
        let least = LeastOverlap::of(&size.occluder, &seat, opening, face, &arcs);
        let waist = least.map_or(seat.play().centre, |least| least.waist);
        let discs = PerFace::of(|face| seat.disc(&size.occluder, face, 0.0, waist));
        Some(Self {
            setting,
            anatomy,
            size,
            face,
            judgement: Judgement(candidate),
            seat,
            waist,
            discs,
            least,
        })
    }

    fn disc(&self) -> &SeatedDisc {
        &self.discs[self.face]
    }

    fn has_disc(&self, face: Face) -> bool {
        self.size.occluder.disc(face).is_some()
    }

    fn centre(&self) -> Vec2 {
        self.anatomy.defect.opening(self.face).centre
    }

    /// The radius of the patch of septum that is shown, about the opening's centre.
    fn radius(&self) -> Mm {
        let centre = self.centre();
        let disc = |face: Face| {
            let disc = &self.discs[face];
            (disc.centre - centre).length() + disc.radius
        };
        let opening = |face: Face| {
            let opening = self.anatomy.defect.opening(face);
            (opening.centre - centre).length() + opening.edge.semi_major
        };
        let near = Face::BOTH
            .iter()
            .flat_map(|&face| [disc(face), opening(face)])
            .fold(0.0, Mm::max)
            + MARGIN;
        self.hinges()
            .map(|(_, hinged)| (hinged.hinge() - centre).length() + MARGIN)
            .filter(|out| *out <= near + FOR_HINGES)
            .fold(near, Mm::max)
    }

    /// What it is to show, as seen from the left: x toward 3 o'clock, y toward 12.
    pub(super) fn bounds(&self) -> Extent {
        let centre = seen(self.centre());
        let radius = self.radius();
        Extent {
            least: centre,
            most: centre,
        }
        .grown(radius + TORN)
    }

    /// Everything but the words, back to front.
    pub(super) fn draw(&self, panel: &mut Panel, detail: Detail) {
        self.septum(panel, detail);
        valves::cusps(self, panel, detail);
        self.defect(panel);
        self.device(panel, detail);
        self.edge(panel, detail);
        self.conduction_axis(panel);
        valves::past(self, panel, detail);
        valves::plates(self, panel, detail);
        self.overlap(panel, detail);
    }

    /// A patch of the septum with a torn rim.
    fn septum(&self, panel: &mut Panel, detail: Detail) {
        const CORNERS: u32 = 90;
        let centre = self.centre();
        let radius = patch(panel);
        let outline: Vec<Point> = (0..CORNERS)
            .map(|corner| {
                let azimuth = degrees(360.0) * f64::from(corner) / f64::from(CORNERS);
                // Torn: a wave of three lengths, the same in every picture.
                let wave =
                    radial(7.0 * azimuth).u + radial(17.0 * azimuth).v + radial(31.0 * azimuth).u;
                seen(centre + radial(azimuth) * (radius + 0.12 * wave))
            })
            .collect();
        panel.fill(Part::Wall, Role::Muscle, &outline);
        if detail == Detail::Full {
            let fibres = texture::fibres_face_on(&outline, seen(centre), radius);
            panel.lines(Pen::solid(Part::Wall, Role::Fibre, 0.13), &fibres);
            // Where the patch ends says nothing of the heart.
            panel.outline(Pen::solid(Part::Wall, Role::Schematic, 0.15), &outline);
        }
    }

    /// Blood in the opening, where the device leaves it bare.
    fn defect(&self, panel: &mut Panel) {
        let opening = self.anatomy.defect.opening(self.face);
        let edge = seen_line(&opening_edge(opening, precision::outline()));
        let blood = match self.face {
            Face::Left => Role::LeftBlood,
            Face::Right => Role::RightBlood,
        };
        panel.fill(Part::Cavity(self.face), blood, &edge);
        let diameter = self.seat.waist_diameter();
        let waist = seen_line(&waist_ring(self.waist, diameter, precision::outline()));
        if !self.has_disc(self.face) {
            panel.fill(Part::Waist, Role::Device, &waist);
            panel.outline(Pen::solid(Part::Waist, Role::DeviceOutline, 0.5), &waist);
        }
    }

    fn device(&self, panel: &mut Panel, detail: Detail) {
        let rim = |face: Face| seen_line(&disc_rim(&self.discs[face], precision::outline()));
        if self.has_disc(self.face) {
            let part = Part::Disc(self.face);
            let outline = rim(self.face);
            panel.fill(part, Role::Device, &outline);
            if detail == Detail::Full {
                let disc = self.disc();
                let wires = texture::spirals(seen(disc.centre), 0.3, disc.radius, WIRES);
                panel.lines(Pen::solid(part, Role::Wire, 0.1), &wires);
                panel.dot(part, Role::DeviceOutline, seen(disc.centre), 0.8);
            }
            panel.outline(Pen::solid(part, Role::DeviceOutline, 0.5), &outline);
        }
        let behind = self.face.opposite();
        if self.has_disc(behind) {
            let part = Part::DiscBeside(behind);
            let pen = Pen::dashed(part, Role::DeviceOutline, 0.35, 0.5, 0.9);
            panel.outline(pen, &rim(behind));
        }
    }

    /// Whether the disc on the face that is seen hides a point.
    fn is_under_disc(&self, point: Point) -> bool {
        let disc = self.disc();
        self.has_disc(self.face) && seen(disc.centre).distance(point) <= disc.radius
    }

    /// The edge of the defect, dashed where the device hides it; the narrowest part
    /// dotted where it is another.
    fn edge(&self, panel: &mut Panel, detail: Detail) {
        let opening = self.anatomy.defect.opening(self.face);
        let edge = seen_line(&opening_edge(opening, precision::outline()));
        let closed: Vec<Point> = edge.iter().chain(edge.first()).copied().collect();
        let (hidden, bare): (Vec<&[Point]>, Vec<&[Point]>) = closed
            .windows(2)
            .partition(|ends| ends.iter().all(|&end| self.is_under_disc(end)));
        let pen = Pen::solid(Part::HoleEdge, Role::Outline, 0.5);
        match detail {
            Detail::Full => {
                panel.lines(Pen::solid(Part::HoleEdge, Role::Casing, 0.9), &hidden);
                panel.lines(pen.dashed_unless(false, 1.3, 0.8), &hidden);
            }
            // Dashes of a cell or two are no line any more.
            Detail::Thin => panel.lines(pen, &hidden),
        }
        let is_measured = is_defect_measured(self.setting);
        let pen = Pen::solid(Part::HoleEdge, Role::Outline, 0.6);
        panel.lines(pen.dashed_unless(is_measured, 1.2, 0.8), &bare);
        let throat = self.anatomy.defect.narrowest;
        if opening.edge != throat || opening.centre != Vec2::ZERO {
            let narrowest = geometry::Opening {
                centre: Vec2::ZERO,
                edge: throat,
            };
            let line = seen_line(&opening_edge(&narrowest, precision::outline()));
            let pen = Pen::dashed(Part::Throat, Role::Outline, 0.3, 0.4, 0.6);
            panel.outline(pen, &line);
        }
    }

    /// Dots along the edge where the conduction axis runs.
    fn conduction_axis(&self, panel: &mut Panel) {
        /// Between dots, page mm.
        const STEP: Mm = 2.1;
        let Some(points) = self.axis_points(STEP / panel.scale()) else {
            return;
        };
        for &point in &points {
            panel.dot(Part::Bundle, Role::Casing, point, 1.1);
        }
        for &point in &points {
            panel.dot(Part::Bundle, Role::ConductionAxis, point, 0.75);
        }
    }

    /// Points along the edge in the danger arc, about `step` apart.
    fn axis_points(&self, step: Mm) -> Option<Vec<Point>> {
        const MOST: f64 = 400.0;
        let arc = self.setting.danger_arc()?;
        let opening = self.anatomy.defect.opening(self.face);
        let start = degrees(arc.from_degrees);
        let width = (degrees(arc.to_degrees) - start).rem_euclid(degrees(360.0));
        let length = width * opening.edge.semi_major;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped"
        )]
        let count = (length / step).ceil().clamp(2.0, MOST) as u32;
        let at = |index: u32| {
            let azimuth = start + width * f64::from(index) / f64::from(count);
            seen(opening.centre + radial(azimuth) * opening.edge.polar_radius(azimuth))
        };
        Some((0..=count).map(at).collect())
    }

    /// The least rim overlap where it is.
    fn overlap(&self, panel: &mut Panel, detail: Detail) {
        let Some(ends) = self.overlap_ends() else {
            return;
        };
        let role = role(self.judgement.rim_overlap(self.face));
        let is_well = matches!(role, Role::Dimension | Role::Ok);
        let width = match detail {
            Detail::Full if is_well => 0.3,
            Detail::Full => 0.45,
            Detail::Thin => 0.6,
        };
        let part = Part::RimOverlap(self.face);
        panel.line(Pen::solid(Part::Caption, Role::Casing, width + 0.6), &ends);
        dimension(panel, Pen::solid(part, role, width), TICK, ends);
    }

    /// From the edge of the opening to the rim of the disc, along a ray from the
    /// opening's centre.
    fn overlap_ends(&self) -> Option<[Point; 2]> {
        let least = self.least?;
        let azimuth = least.azimuth?;
        let opening = self.anatomy.defect.opening(self.face);
        let edge = opening.edge.polar_radius(azimuth);
        let out = |reach: Mm| seen(opening.centre + radial(azimuth) * reach);
        Some([out(edge), out(edge + least.value)])
    }

    /// The words inside the field: of a large drawing none, its margins bear them.
    pub(super) fn letter(&self, panel: &Panel, lettering: &mut Lettering, detail: Detail) {
        if detail == Detail::Thin {
            lettering::letter(self, panel, lettering);
        }
    }

    /// What has a name in the margin.
    pub(super) fn names(&self, panel: &Panel) -> Vec<Name> {
        lettering::names(self, panel)
    }
}
