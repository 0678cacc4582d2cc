//! The device in a section: its true profile, the waist as the defect squeezes it.

use super::tissue::pieces;
use super::{Detail, SectionPicture};
use crate::clip::segment_in_convex;
use crate::plate::panel::{Panel, Pen};
use crate::plate::texture;
use crate::section::PlateLine;
use crate::stroke::Role;
use crate::{Part, Point};
use geometry::{Face, Mm, degrees};

/// Between wires, mm of the heart.
const WIRES: Mm = 0.45;

/// Between hatch lines of what lies past a valve, mm of the page.
const PAST: Mm = 0.95;

pub(super) fn device(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let cut = &picture.cut;
    let body = |panel: &mut Panel, part: Part, outline: &[Point]| {
        if outline.is_empty() {
            return;
        }
        panel.fill(part, Role::Device, outline);
        if detail == Detail::Full {
            let wires = texture::braid(outline, WIRES);
            panel.lines(Pen::solid(part, Role::Wire, 0.12), &wires);
        }
        panel.outline(Pen::solid(part, Role::DeviceOutline, 0.5), outline);
    };
    body(panel, Part::Waist, &cut.waist_outline());
    for face in Face::BOTH {
        if cut.occluder.disc(face).is_some() {
            body(panel, Part::Disc(face), &cut.disc(face));
            if let Some(outline) = cut.full_disc(face) {
                let pen = Pen::dashed(Part::DiscBeside(face), Role::DeviceOutline, 0.25, 0.5, 0.6);
                panel.outline(pen, &outline);
            }
        }
    }
    if detail == Detail::Full {
        edge_under_waist(picture, panel);
    }
}

/// The edge of the defect where the waist lies over it: tissue is drawn at rest.
fn edge_under_waist(picture: &SectionPicture, panel: &mut Panel) {
    let waist = picture.cut.waist_outline();
    if waist.is_empty() {
        return;
    }
    let covered: Vec<[Point; 2]> = pieces(picture, panel)
        .iter()
        .flat_map(|piece| {
            piece
                .crest
                .windows(2)
                .map(|pair| [pair[0], pair[1]])
                .collect::<Vec<_>>()
        })
        .filter_map(|stretch| segment_in_convex(&waist, stretch))
        .collect();
    let pen = Pen::dashed(Part::HoleEdge, Role::Outline, 0.25, 0.8, 0.6);
    panel.lines(pen, &covered);
}

/// What of the device lies among a valve's cusps or past them: veiled and hatched.
pub(super) fn past_valve(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let Some(past) = PlateLine::past(&picture.cut).filter(|past| past.len() > 2) else {
        return;
    };
    let part = Part::Overlap(picture.cut.valve);
    if detail == Detail::Thin {
        panel.fill(part, Role::Beyond, &past);
        return;
    }
    panel.fill(part, Role::Casing, &past);
    let lines = texture::hatch(&past, degrees(60.0), PAST / panel.scale());
    panel.lines(Pen::solid(part, Role::Beyond, 0.4), &lines);
    panel.outline(Pen::solid(part, Role::Beyond, 0.6), &past);
}
