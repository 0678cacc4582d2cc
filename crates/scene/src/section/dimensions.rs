//! The lengths written into a section.

use super::cut::Cut;
use crate::{Figure, Form, Importance, Label, Lean, Part, Point, precision, words};
use geometry::{Accuracy, Face, HingedPlate, Mm, Vec2, Vec3, lip, plate_distance};

/// Where the rim is drawn within the wall, as a share of its thickness from the
/// valve's face.
const RIM_DEPTH: f64 = 0.3;

/// How far out of the disc its reach is drawn.
const BESIDE_DISC: Mm = 0.5;

/// How far above the lower end of the wall its thickness is drawn.
const ABOVE_END: Mm = 0.8;

/// Twice the error of a search: what two answers about one distance may differ
/// by.
const SAME: Mm = 2.0 * Accuracy::DEFAULT.mm();

pub(super) fn dimensions(cut: &Cut) -> Vec<Figure> {
    let mut figures = vec![thickness(cut)];
    figures.extend(clearance(cut));
    figures.extend(rim(cut));
    figures.extend(reach(cut));
    figures.extend(Face::BOTH.into_iter().filter_map(|face| open(cut, face)));
    figures
}

fn measure(part: Part, [from, to]: [Point; 2], text: String, lean: Lean) -> Figure {
    Figure {
        part,
        form: Form::Measure {
            from,
            to,
            label: Label {
                at: from.midpoint(to),
                text,
                lean,
                importance: Importance::Length,
            },
        },
    }
}

/// The side of a point that leads out of a face, into its cavity.
const fn outward(face: Face) -> Lean {
    match face {
        Face::Left => Lean::Left,
        Face::Right => Lean::Right,
    }
}

/// From the edge of the hole to the hinge.
fn rim(cut: &Cut) -> Option<Figure> {
    let [_, edge] = cut.edges(cut.face())?;
    let rim = cut.anatomy.rims[cut.valve.index()]?;
    let x = cut.x(cut.face(), -RIM_DEPTH * cut.anatomy.defect.wall);
    let ends = [
        Point::new(x, edge),
        Point::new(x, cut.y(cut.hinged?.hinge())),
    ];
    let text = format!("rim {}", words::tenths(rim));
    let into_wall = outward(cut.face().opposite());
    Some(measure(Part::Rim(cut.valve), ends, text, into_wall))
}

/// The heights of the edge and of the farthest point of the disc, or of the waist's
/// end, in the plane; nothing where the plane misses it or it does not show the
/// reach.
pub(crate) fn reach_ends(cut: &Cut) -> Option<[Mm; 2]> {
    cut.hinged?;
    let face = cut.face();
    let [_, edge] = cut.edges(face)?;
    let tip = cut
        .disc(face)
        .iter()
        .map(|point| point.y)
        .reduce(f64::max)?;
    let opening = cut.anatomy.defect.opening(face);
    let reach = lip::lip_of(cut.place.disc(face), opening, cut.azimuth);
    // A disc wholly beside the opening's centre has a lip that no line shows.
    ((tip - edge - reach).abs() <= 2.0 * precision::outline().mm()).then_some([edge, tip])
}

fn reach(cut: &Cut) -> Option<Figure> {
    let ends = reach_ends(cut)?;
    let face = cut.face();
    let disc = cut.place.disc(face);
    let opening = cut.anatomy.defect.opening(face);
    let reach = lip::lip_of(disc, opening, cut.azimuth);
    let x = cut.x(face, disc.stand_off + disc.thickness + BESIDE_DISC);
    let ends = ends.map(|y| Point::new(x, y));
    let text = format!("reach {}", words::tenths(reach));
    Some(measure(Part::Reach(face), ends, text, outward(face)))
}

/// Where the clearance would be drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ClearanceLine {
    /// Its ends as they are seen square to the plane: on the shape first.
    pub(crate) ends: [Point; 2],
    /// Whether both lie in the plane, so that a ruler finds it there.
    pub(crate) is_in_cut: bool,
}

/// How far beside the plane an end may lie: of a disc of 4 mm the plane then cuts
/// off 0.00005 mm.
const BESIDE: Mm = 0.02;

/// From the shape to the cusps: square to them where they are apart; else along
/// the wall, from where the shape reaches to where it would have to end. `None`
/// without a valve.
pub(crate) fn clearance_line(cut: &Cut) -> Option<ClearanceLine> {
    let ends = ends(cut, cut.hinged?);
    let seen = ends.map(|end| cut.seen(end));
    let beside = ends.map(|end| cut.aside(Vec2::new(end.u, end.v)).abs());
    let length = seen[0].distance(seen[1]);
    let is_whole = (length - cut.place.clearance.abs()).abs() <= precision::outline().mm();
    Some(ClearanceLine {
        ends: seen,
        is_in_cut: is_whole && beside.iter().all(|&beside| beside <= BESIDE),
    })
}

fn clearance(cut: &Cut) -> Option<Figure> {
    let part = Part::Clearance(cut.valve);
    let text = format!("clearance {}", words::tenths(cut.place.clearance));
    let lean = outward(cut.face());
    let line = clearance_line(cut)?;
    if line.is_in_cut {
        return Some(measure(part, line.ends, text, lean));
    }
    Some(Figure {
        part,
        form: Form::Text(Label {
            at: line.ends[0],
            text,
            lean,
            importance: Importance::Length,
        }),
    })
}

/// The ends of the clearance in space, in the frame of the valve's face.
fn ends(cut: &Cut, hinged: &HingedPlate) -> [Vec3; 2] {
    let disc = cut.place.disc(cut.face());
    let core = disc.core();
    let clearance = cut.place.clearance;
    let half = 0.5 * disc.thickness;
    let nearest = plate_distance(&core, hinged.plate(), Accuracy::DEFAULT);
    let apart = nearest.distance > SAME
        && (nearest.distance - half - hinged.sag() - clearance).abs() <= SAME;
    if apart {
        let across = (nearest.on_plate - nearest.on_round) * (1.0 / nearest.distance);
        let from = nearest.on_round + across * half;
        return [from, from + across * clearance];
    }
    let toward_hinge = Vec3::from_wall(0.0, cut.radial);
    let tip = core.centre + toward_hinge * (core.radius + half);
    [tip, tip + toward_hinge * clearance]
}

/// What stays open of an outflow tract beyond the shape; nothing where the
/// shape fills it.
fn open(cut: &Cut, face: Face) -> Option<Figure> {
    let depth = cut.tract(face)?.depth;
    let disc = cut.place.disc(face);
    let layer = disc.stand_off + disc.thickness;
    if layer >= depth {
        return None;
    }
    let y = cut.y(disc.centre);
    let ends = [layer, depth].map(|out| Point::new(cut.x(face, out), y));
    let text = format!("open {}", words::tenths(depth - layer));
    Some(measure(Part::Open(face), ends, text, Lean::Above))
}

fn thickness(cut: &Cut) -> Figure {
    let wall = cut.anatomy.defect.wall;
    let y = ABOVE_END - cut.reach();
    let ends = [Point::new(0.0, y), Point::new(wall, y)];
    let text = format!("wall {}", words::tenths(wall));
    measure(Part::Thickness, ends, text, Lean::Above)
}
