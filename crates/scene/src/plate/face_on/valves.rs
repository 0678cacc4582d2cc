//! Valves on a face: each plate edge-on where it stands on the wall.

use super::{FacePicture, patch, seen};
use crate::clip;
use crate::plate::Detail;
use crate::plate::basis::{doubt, is_measured};
use crate::plate::panel::{Panel, Pen};
use crate::plate::section::{doubt_bar, hinge};
use crate::plate::texture;
use crate::precision;
use crate::stroke::Role;
use crate::{Part, Point};
use geometry::outline::disc_rim;
use geometry::{HingedPlate, Mm, Vec2, degrees};
use measurement::{Feature, Structure, Valve};
use sizing::face_of;

/// How far aside of the hinge the bar of its doubt stands, page mm.
const ASIDE: Mm = 2.6;

impl FacePicture<'_> {
    /// The valves whose annulus was read, with their plates.
    pub(super) fn hinges(&self) -> impl Iterator<Item = (Valve, &HingedPlate)> {
        Valve::ALL
            .into_iter()
            .filter_map(|valve| Some((valve, self.anatomy.valves[valve].as_ref()?)))
    }

    /// Those on the face that is seen.
    pub(super) fn near_hinges(&self) -> impl Iterator<Item = (Valve, &HingedPlate)> {
        self.hinges()
            .filter(|(valve, _)| face_of(*valve) == self.face)
    }
}

/// The width of a plate along its hinge's tangent, in the wall.
fn tangent(hinged: &HingedPlate) -> Vec2 {
    let plate = hinged.plate();
    Vec2::new(plate.second.u, plate.second.v) * plate.semi_second
}

/// Three scallops past each hinge of the face, from habit.
pub(super) fn cusps(picture: &FacePicture, panel: &mut Panel, detail: Detail) {
    const SCALLOPS: u32 = 3;
    const CHORDS: u32 = 10;
    if detail == Detail::Thin {
        return;
    }
    for (valve, hinged) in picture.near_hinges() {
        if valve.is_atrioventricular() {
            continue;
        }
        let across = tangent(hinged);
        let out = hinged.radial() * (0.42 * across.length());
        let point = |step: u32| {
            let share = f64::from(step) / f64::from(SCALLOPS * CHORDS);
            let within = f64::from(step % CHORDS) / f64::from(CHORDS);
            let belly = 4.0 * within * (1.0 - within);
            seen(hinged.hinge() + across * (2.0 * share - 1.0) + out * (1.15 - 0.8 * belly))
        };
        let line: Vec<Point> = (0..=SCALLOPS * CHORDS).map(point).collect();
        panel.line(Pen::solid(Part::Cusps(valve), Role::Schematic, 0.3), &line);
    }
}

/// What of the disc lies past a hinge of its face, as wide as the annulus.
pub(super) fn past(picture: &FacePicture, panel: &mut Panel, detail: Detail) {
    let outline: Vec<Point> = disc_rim(picture.disc(), precision::outline())
        .into_iter()
        .map(seen)
        .collect();
    for (valve, hinged) in picture.near_hinges() {
        let (at, out) = (seen(hinged.hinge()), seen(hinged.radial()));
        let half_width = hinged.plate().semi_second;
        let past = |point: Point| (point.x - at.x) * out.x + (point.y - at.y) * out.y;
        let aside = |point: Point| (point.x - at.x) * out.y - (point.y - at.y) * out.x;
        let area = clip::behind(&outline, past);
        let area = clip::behind(&area, |point| half_width - aside(point));
        let area = clip::behind(&area, |point| half_width + aside(point));
        if area.len() < 3 {
            continue;
        }
        let part = Part::Overlap(valve);
        if detail == Detail::Thin {
            panel.fill(part, Role::Beyond, &area);
            continue;
        }
        panel.fill(part, Role::Casing, &area);
        let lines = texture::hatch(&area, degrees(60.0), 0.95 / panel.scale());
        panel.lines(Pen::solid(part, Role::Beyond, 0.4), &lines);
        panel.outline(Pen::solid(part, Role::Beyond, 0.6), &area);
    }
}

/// The stretch of a plate on each side of its hinge that lies on the patch.
fn within(hinge: Vec2, across: Vec2, centre: Vec2, patch: Mm) -> [Vec2; 2] {
    // |hinge + t across − centre| = patch.
    let from = hinge - centre;
    let (square, middle) = (across.dot(across), from.dot(across));
    let root = middle * middle - square * (from.dot(from) - patch * patch);
    let root = root.max(0.0).sqrt();
    [-1.0, 1.0].map(|side: f64| {
        let end = (-middle + side * root) / square;
        hinge + across * end.clamp(-1.0, 1.0)
    })
}

/// Each plate edge-on: dark on the face that is seen, dashed behind the wall; the
/// hinges of the face with their doubt.
pub(super) fn plates(picture: &FacePicture, panel: &mut Panel, detail: Detail) {
    /// What decides how far off a plate stands and how long it is. Its clock position
    /// may be the frame itself, which nobody measures.
    const SEEN: &[Feature] = &[Feature::Rim, Feature::Diameter];
    let (centre, radius) = (picture.centre(), patch(panel));
    for (valve, hinged) in picture.hinges() {
        if (hinged.hinge() - centre).length() > radius {
            continue;
        }
        let across = tangent(hinged);
        let ends = within(hinged.hinge(), across, centre, radius).map(seen);
        let part = Part::Plate(valve);
        let is_near = face_of(valve) == picture.face;
        let structure = Structure::Valve(valve);
        if detail == Detail::Full {
            let width = if is_near { 1.7 } else { 1.1 };
            panel.line(Pen::solid(part, Role::Casing, width), &ends);
        }
        if !is_near {
            panel.line(Pen::dashed(part, Role::Plate, 0.6, 1.1, 1.1), &ends);
            continue;
        }
        let is_drawn_measured = is_measured(picture.setting, structure, SEEN);
        let pen = Pen::solid(part, Role::Plate, 1.0);
        panel.line(pen.dashed_unless(is_drawn_measured, 2.4, 1.2), &ends);
        if detail == Detail::Full
            && let Some(sd) = doubt(picture.setting, structure, Feature::Rim)
        {
            let aside = across * (ASIDE / panel.scale() / across.length());
            let out = seen(hinged.radial());
            doubt_bar(panel, valve, seen(hinged.hinge() + aside), out, sd);
        }
        if detail == Detail::Thin {
            continue;
        }
        let is_measured = is_measured(picture.setting, structure, &[Feature::Rim]);
        hinge(panel, valve, seen(hinged.hinge()), is_measured);
    }
}
