//! Blood, far walls and septum of a section.

use super::{Detail, SectionPicture};
use crate::plate::basis::{is_defect_measured, is_measured};
use crate::plate::panel::{Panel, Pen};
use crate::plate::texture;
use crate::section::{PlateLine, plates_shown, points};
use crate::stroke::Role;
use crate::{Part, Point};
use geometry::{Face, Mm, PerFace, degrees};
use measurement::{Feature, Structure};

/// The rounding of a crest, as a share of the wall's thickness.
const ROUNDING: f64 = 0.3;

/// Chords of a rounding.
const CHORDS: u32 = 6;

/// Between hatch lines of a far wall, mm of the heart.
const HATCH: Mm = 0.55;

/// A piece of the septum as it is cut: its outline, and the crest of it that
/// borders the defect.
pub(super) struct Piece {
    pub(super) outline: Vec<Point>,
    pub(super) crest: Vec<Point>,
}

fn block(from: Point, to: Point) -> [Point; 4] {
    [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)]
}

/// Each cavity under the wall that parts them; in the defect flows blood of the left.
pub(super) fn cavities(picture: &SectionPicture, panel: &mut Panel) {
    let window = *panel.window();
    let border = picture.cut.anatomy.defect.wall;
    let left = block(window.least, Point::new(border, window.most.y));
    let right = block(Point::new(border, window.least.y), window.most);
    panel.fill(Part::Cavity(Face::Left), Role::LeftBlood, &left);
    panel.fill(Part::Cavity(Face::Right), Role::RightBlood, &right);
}

/// The wall of each outflow tract that faces the septum, at the depth read.
pub(super) fn far_walls(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let window = *panel.window();
    let tracts = PerFace::new(Structure::LeftOutflow, Structure::RightOutflow);
    for face in Face::BOTH {
        let Some(tract) = picture.cut.tract(face) else {
            continue;
        };
        let x = picture.cut.x(face, tract.depth);
        let outer = match face {
            Face::Left => window.least.x.min(x),
            Face::Right => window.most.x.max(x),
        };
        let part = Part::Tract(face);
        let wall = block(
            Point::new(x, window.least.y),
            Point::new(outer, window.most.y),
        );
        panel.fill(part, Role::FarWall, &wall);
        if detail == Detail::Full {
            let lines = texture::hatch(&wall, degrees(60.0), HATCH);
            panel.lines(Pen::solid(part, Role::Fibre, 0.12), &lines);
        }
        let line = [Point::new(x, window.least.y), Point::new(x, window.most.y)];
        let measured = is_measured(picture.setting, tracts[face], &[Feature::Depth]);
        let pen = Pen::solid(part, Role::Outline, 0.35);
        panel.line(pen.dashed_unless(measured, 1.4, 0.9), &line);
    }
}

/// The septum, which runs off both ends of the field.
pub(super) fn septum(picture: &SectionPicture, panel: &mut Panel, detail: Detail) {
    let wall = picture.cut.anatomy.defect.wall;
    let pieces = pieces(picture, panel);
    for piece in &pieces {
        panel.fill(Part::Wall, Role::Muscle, &piece.outline);
        if detail == Detail::Full {
            let fibres = texture::fibres_along(&piece.outline, wall);
            panel.lines(Pen::solid(Part::Wall, Role::Fibre, 0.13), &fibres);
        }
    }
    let solid = Pen::solid(Part::Wall, Role::Outline, 0.5);
    let faces = |x: Mm| -> Vec<Vec<Point>> {
        let along = |piece: &Piece| {
            let on_face = |point: &&Point| point.x == x;
            piece.outline.iter().filter(on_face).copied().collect()
        };
        pieces.iter().map(along).collect()
    };
    panel.lines(solid, &faces(0.0));
    // How thick the wall is decides where its right face lies.
    let is_measured = is_measured(picture.setting, Structure::Wall, &[Feature::Thickness]);
    panel.lines(solid.dashed_unless(is_measured, 1.4, 0.9), &faces(wall));
    let edge = Pen::solid(Part::HoleEdge, Role::Outline, 0.6);
    let edge = edge.dashed_unless(is_defect_measured(picture.setting), 1.2, 0.8);
    for piece in &pieces {
        panel.line(edge, &piece.crest);
    }
    if let [_] = &pieces[..] {
        single_opening(picture, panel, edge);
    }
}

/// The edges of the one opening that the plane meets, where it misses the other:
/// short lines into the wall, which is not cut through.
fn single_opening(picture: &SectionPicture, panel: &mut Panel, pen: Pen) {
    let cut = &picture.cut;
    let into = -ROUNDING * cut.anatomy.defect.wall;
    for face in Face::BOTH {
        for y in cut.edges(face).into_iter().flatten() {
            let ends = [0.0, into].map(|out| Point::new(cut.x(face, out), y));
            panel.line(pen, &ends);
        }
    }
}

/// The pieces of the septum that the plane cuts: two with rounded crests beside the
/// defect, or one where the plane misses an opening.
///
/// Each crest is straight between the edges measured on the two faces; its corners
/// are rounded off into the muscle, so it never comes nearer to the device.
pub(super) fn pieces(picture: &SectionPicture, panel: &Panel) -> Vec<Piece> {
    let cut = &picture.cut;
    let window = panel.window();
    let reach = window.most.y.max(-window.least.y);
    let blocks = cut.plane.wall(&cut.anatomy.defect, reach);
    let wall: Vec<Vec<Point>> = blocks.iter().map(|block| points(block)).collect();
    match &wall[..] {
        [below, above] => {
            let lower = crest([below[1], below[2]], -1.0, picture);
            let upper = crest([above[0], above[3]], 1.0, picture);
            vec![
                Piece {
                    outline: [&[below[0]], &lower[..], &[below[3]]].concat(),
                    crest: lower,
                },
                Piece {
                    outline: [&[above[1]], &upper[..], &[above[2]]].concat(),
                    crest: upper,
                },
            ]
        }
        _ => wall
            .into_iter()
            .map(|outline| Piece {
                outline,
                crest: Vec::new(),
            })
            .collect(),
    }
}

/// The crest between the edges on the left and the right face; `up` is 1 where the
/// muscle lies above it.
fn crest([left, right]: [Point; 2], up: f64, picture: &SectionPicture) -> Vec<Point> {
    let roundings =
        Face::BOTH.map(|face| rounding(picture, face, PerFace::new(left, right)[face], up));
    let length = left.distance(right).max(f64::MIN_POSITIVE);
    let along = Point::new((right.x - left.x) / length, (right.y - left.y) / length);
    let on_face = |corner: Point, radius: Mm| Point::new(corner.x, corner.y + up * radius);
    let on_crest = |corner: Point, radius: Mm| {
        Point::new(corner.x + radius * along.x, corner.y + radius * along.y)
    };
    let [from, to] = roundings;
    let mut crest = bend(on_face(left, from), left, on_crest(left, from));
    crest.extend(bend(on_crest(right, -to), right, on_face(right, to)));
    crest
}

/// How far a corner is rounded off: less where a hinge stands near it.
fn rounding(picture: &SectionPicture, face: Face, corner: Point, up: f64) -> Mm {
    let cut = &picture.cut;
    plates_shown(cut)
        .filter(|(_, hinged)| hinged.face() == face)
        .filter_map(|(_, hinged)| Some(PlateLine::of(cut, hinged)?.foot.y))
        .map(|foot| 0.5 * (up * (foot - corner.y)).max(0.0))
        .fold(ROUNDING * cut.anatomy.defect.wall, Mm::min)
}

/// A quadratic curve from one point to another, pulled toward a corner.
fn bend(from: Point, corner: Point, to: Point) -> Vec<Point> {
    if from == to {
        return vec![corner];
    }
    (0..=CHORDS)
        .map(|step| {
            let share = f64::from(step) / f64::from(CHORDS);
            let (before, after) = (1.0 - share, share);
            let mix = |a: Mm, b: Mm, c: Mm| {
                before * before * a + 2.0 * before * after * b + after * after * c
            };
            Point::new(mix(from.x, corner.x, to.x), mix(from.y, corner.y, to.y))
        })
        .collect()
}
