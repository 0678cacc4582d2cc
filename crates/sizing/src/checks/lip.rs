//! The least lip of a disc over some arcs of the edge.

use crate::Anatomy;
use crate::check::{Lanes, UNREAD};
use geometry::lip::{ArcSet, least_lip};
use geometry::{Accuracy, Face, Mm};

/// Fills each lane with the least lip of the disc on a face over the arcs that
/// its anatomy gives.
pub(super) fn fill(
    lanes: &Lanes,
    face: Face,
    values: &mut [Mm],
    arcs: impl Fn(&Anatomy) -> ArcSet,
) {
    lanes.each(values, |anatomy, seat| {
        let opening = anatomy.defect.opening(face);
        let arcs = arcs(anatomy);
        least_lip(
            lanes.occluder(),
            seat,
            opening,
            face,
            &arcs,
            Accuracy::DEFAULT,
        )
        .unwrap_or(UNREAD)
    });
}
