//! The lengths written into a section.

use super::cut::Cut;
use crate::{Point, precision};
use geometry::{Accuracy, HingedPlate, Mm, Vec2, Vec3, lip, plate_distance};

/// Twice the error of a search: what two answers about one distance may differ
/// by.
const SAME: Mm = 2.0 * Accuracy::DEFAULT.mm();

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

/// The ends of the clearance in space, in the frame of the valve's face.
fn ends(cut: &Cut, hinged: &HingedPlate) -> [Vec3; 2] {
    let disc = cut.place.disc(cut.face());
    let core = disc.core();
    let clearance = cut.place.clearance;
    let half = 0.5 * disc.thickness;
    let nearest = plate_distance(&core, hinged.plate(), Accuracy::DEFAULT);
    let apart = nearest.distance > SAME
        && (nearest.distance - half - hinged.cusp_depth() - clearance).abs() <= SAME;
    if apart {
        let across = (nearest.on_plate - nearest.on_round) * (1.0 / nearest.distance);
        let from = nearest.on_round + across * half;
        return [from, from + across * clearance];
    }
    let toward_hinge = Vec3::from_wall(0.0, cut.radial);
    let tip = core.centre + toward_hinge * (core.radius + half);
    [tip, tip + toward_hinge * clearance]
}
