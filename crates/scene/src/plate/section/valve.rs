//! Valves in a section: the plate and hinge as read, the rest from habit.

use super::{Detail, SectionPicture};
use crate::plate::basis::{doubt, is_measured};
use crate::plate::panel::{Panel, Pen};
use crate::plate::texture;
use crate::section::{PlateLine, plates_shown};
use crate::stroke::Role;
use crate::{Part, Point};
use geometry::{Face, Mm, degrees};
use measurement::{Feature, Structure, Valve};

/// Chords of a curve drawn from habit.
const CHORDS: u32 = 20;

/// How high cusps meet over the plate, as a share of its length.
const COAPTATION: f64 = 0.3;

/// The width of lines drawn from habit, page mm.
const HABIT: Mm = 0.3;

/// The radius of a hinge's ring, page mm.
const RING: Mm = 0.95;

/// The radius of a hinge in a few cells, page mm: a ring would hide what is clear.
const HINGE: Mm = 0.8;

/// How far inside the wall the bar of the hinge's doubt stands, as a share of the
/// wall's thickness.
const DOUBT_DEPTH: f64 = 0.22;

/// A line in the frame of a plate: from its foot along it, and below it.
struct PlateFrame {
    line: PlateLine,
    along: Point,
    down: Point,
    length: Mm,
}

impl PlateFrame {
    fn of(line: PlateLine) -> Self {
        let [along, down] = line.directions();
        Self {
            line,
            along,
            down,
            length: line.foot.distance(line.tip),
        }
    }

    fn at(&self, along: Mm, below: Mm) -> Point {
        let foot = self.line.foot;
        Point::new(
            foot.x + along * self.along.x + below * self.down.x,
            foot.y + along * self.along.y + below * self.down.y,
        )
    }

    /// A curve given by how far along the plate, as a share of its length, and how
    /// far below it.
    fn curve(&self, at: impl Fn(f64) -> (f64, Mm)) -> Vec<Point> {
        (0..=CHORDS)
            .map(|step| {
                let (along, below) = at(f64::from(step) / f64::from(CHORDS));
                self.at(along * self.length, below)
            })
            .collect()
    }
}

/// What is drawn from habit past and below the plate of the valve asked for: the
/// bellies of the closed cusps touch the depth that the engine uses and never pass
/// it; the great vessel or the atrium; in a section toward the aortic valve the
/// mitral leaflet that hangs from its plate.
pub(super) fn habit(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let cut = &picture.cut;
    let Some(line) = cut.hinged.and_then(|hinged| PlateLine::of(cut, hinged)) else {
        return;
    };
    let depth = cut.hinged.map_or(0.0, geometry::HingedPlate::cusp_depth);
    let frame = PlateFrame::of(line);
    let part = Part::Cusps(cut.valve);
    if depth > 0.0 {
        let slab = line.cusps(depth);
        let lines = texture::hatch(&slab, degrees(20.0), 0.8 / panel.scale());
        if detail == Detail::Full {
            panel.lines(Pen::solid(part, Role::Schematic, 0.13), &lines);
        }
        let deepest = [frame.at(0.0, depth), frame.at(frame.length, depth)];
        panel.line(Pen::dashed(part, Role::Schematic, 0.25, 0.9, 0.7), &deepest);
    }
    let width = if detail == Detail::Full {
        HABIT
    } else {
        2.0 * HABIT
    };
    let pen = Pen::solid(part, Role::Schematic, width);
    for mirrored in [false, true] {
        let side = |share: f64| if mirrored { 1.0 - share } else { share };
        let cusp = if cut.valve.is_atrioventricular() {
            // Leaflets meet at the depth used.
            frame.curve(|share| (side(0.5 * share), depth * bulge(0.5 * share)))
        } else {
            let rise = COAPTATION * frame.length;
            frame.curve(|share| {
                let below = depth * bulge(share.min(0.5)) * (1.0 - share * share * share)
                    - rise * share * share * share;
                (side(0.5 * share), below)
            })
        };
        panel.line(pen, &cusp);
    }
    if detail == Detail::Full {
        root(picture, panel, &frame);
        mitral_leaflet(picture, panel, &frame);
        doubt_of_depth(picture, panel, &frame, depth);
    }
}

/// 0 at 0 and at 1, 1 in the middle.
fn bulge(share: f64) -> f64 {
    4.0 * share * (1.0 - share)
}

/// The far wall of the vessel, or of the atrium, past the plate.
fn root(picture: &SectionPicture, panel: &mut Panel, frame: &PlateFrame) {
    let part = Part::Root(picture.cut.valve);
    let pen = Pen::solid(part, Role::Schematic, HABIT);
    let length = frame.length;
    let wall = if picture.cut.valve.is_atrioventricular() {
        frame.curve(|share| (1.0 + 0.12 * share, -0.9 * length * share))
    } else {
        // The sinus bulges and narrows again to the tube.
        frame.curve(|share| {
            let bulge = 0.16 * bulge((1.4 * share).min(1.0));
            (1.0 + bulge - 0.05 * share, -1.1 * length * share)
        })
    };
    panel.line(pen, &wall);
}

/// The anterior mitral leaflet, which hangs from the far end of the aortic plate
/// and leads away from the device.
fn mitral_leaflet(picture: &SectionPicture, panel: &mut Panel, frame: &PlateFrame) {
    if picture.cut.valve != Valve::Aortic {
        return;
    }
    let leaflet: Vec<Point> = (0..=CHORDS)
        .map(|step| leaflet_at(picture, frame.line, f64::from(step) / f64::from(CHORDS)))
        .collect();
    let part = Part::Leaflet(Valve::Mitral);
    panel.line(Pen::solid(part, Role::Schematic, 2.0 * HABIT), &leaflet);
}

/// The point of the mitral leaflet at a share of its length: beyond the far wall
/// where its depth was read, else away from the septum.
pub(super) fn leaflet_at(picture: &SectionPicture, line: PlateLine, share: f64) -> Point {
    let tip = line.tip;
    let out = picture
        .cut
        .tract(Face::Left)
        .map_or(0.0, |tract| (tract.depth + tip.x).max(0.0));
    let length = 0.95 * line.foot.distance(tip);
    let beyond = out * (3.0 * share).min(1.0) + 0.1 * length * share;
    Point::new(
        tip.x - beyond - 0.04 * length * bulge(share),
        tip.y - length * share,
    )
}

/// How deep the cusps may hang besides: one standard deviation more.
fn doubt_of_depth(picture: &SectionPicture, panel: &mut Panel, frame: &PlateFrame, depth: Mm) {
    let structure = Structure::Valve(picture.cut.valve);
    let Some(sd) = doubt(picture.setting, structure, Feature::CuspDepth) else {
        return;
    };
    let below = depth + sd;
    let line = [frame.at(0.0, below), frame.at(frame.length, below)];
    let part = Part::Doubt(picture.cut.valve);
    panel.line(Pen::dashed(part, Role::Schematic, 0.15, 0.4, 0.7), &line);
}

/// The plates of the valves that stand near the plane; of the one asked for the
/// hinge with its doubt.
pub(super) fn plates(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    const FEATURES: &[Feature] = &[Feature::Diameter, Feature::AnnulusAngle];
    let cut = &picture.cut;
    for (valve, hinged) in plates_shown(cut) {
        let Some(line) = PlateLine::of(cut, hinged) else {
            continue;
        };
        let part = Part::Plate(valve);
        let is_measured = is_measured(picture.setting, Structure::Valve(valve), FEATURES);
        let width = if detail == Detail::Full { 1.0 } else { 1.2 };
        let ends = match detail {
            Detail::Full => {
                let ends = [line.foot, line.tip];
                panel.line(Pen::solid(part, Role::Casing, width + 0.7), &ends);
                ends
            }
            // In a few cells the line is thick: all of it lies past the plate, so that
            // it hides nothing of what is clear.
            Detail::Thin => {
                let frame = PlateFrame::of(line);
                let above = -0.5 * width / panel.scale();
                [frame.at(0.0, above), frame.at(frame.length, above)]
            }
        };
        let pen = Pen::solid(part, Role::Plate, width);
        panel.line(pen.dashed_unless(is_measured, 2.4, 1.2), &ends);
        if valve == cut.valve {
            if detail == Detail::Thin {
                panel.dot(Part::Hinge(valve), Role::Plate, ends[0], HINGE);
                continue;
            }
            hinge_doubt(picture, panel, valve, line.foot);
            hinge(panel, valve, line.foot, is_rim_measured(picture, valve));
        }
    }
}

fn is_rim_measured(picture: &SectionPicture, valve: Valve) -> bool {
    is_measured(picture.setting, Structure::Valve(valve), &[Feature::Rim])
}

/// A ring at a hinge; filled with the ground where its place was measured.
pub(in crate::plate) fn hinge(panel: &mut Panel, valve: Valve, at: Point, is_measured: bool) {
    let part = Part::Hinge(valve);
    panel.dot(part, Role::Casing, at, RING + 0.35);
    panel.dot(part, Role::Plate, at, RING);
    let inner = if is_measured { 0.4 } else { 0.65 };
    panel.dot(part, Role::Casing, at, RING * inner);
}

/// The bar of the hinge's doubt: ±1 SD of the rim thick, ±2 SD thin.
fn hinge_doubt(picture: &SectionPicture, panel: &mut Panel, valve: Valve, hinge: Point) {
    let cut = &picture.cut;
    let Some(sd) = doubt(picture.setting, Structure::Valve(valve), Feature::Rim) else {
        return;
    };
    let x = cut.x(cut.face(), -DOUBT_DEPTH * cut.anatomy.defect.wall);
    let middle = Point::new(x, hinge.y);
    doubt_bar(panel, valve, middle, Point::new(0.0, 1.0), sd);
}

/// A bar of doubt about a point along a direction, on a casing.
pub(in crate::plate) fn doubt_bar(
    panel: &mut Panel,
    valve: Valve,
    middle: Point,
    along: Point,
    sd: Mm,
) {
    let part = Part::Doubt(valve);
    let ends = |times: f64| {
        [-times, times].map(|times| {
            Point::new(
                middle.x + times * sd * along.x,
                middle.y + times * sd * along.y,
            )
        })
    };
    panel.line(Pen::solid(part, Role::Casing, 0.8), &ends(2.0));
    panel.line(Pen::solid(part, Role::Casing, 1.5), &ends(1.0));
    panel.line(Pen::solid(part, Role::Plate, 0.25), &ends(2.0));
    panel.line(Pen::solid(part, Role::Plate, 1.0), &ends(1.0));
}
