//! What checks measure: each value in plain `f64`, and what it needs.

mod needs;
mod reach;
mod tract;
mod value;

pub(crate) use needs::beside;
pub(crate) use reach::past_edge;
pub(crate) use tract::open_share;
pub(crate) use value::sheath;

use crate::{Anatomy, Setting, Size};
use geometry::{Face, Seat};
use measurement::Valve;

/// A size as it lies in one anatomy: of a draw in one place, of the values as read in
/// every place that it may take.
#[derive(Clone, Copy, Debug)]
pub struct Situation<'a> {
    /// The case and the rules.
    pub setting: &'a Setting,
    /// The size.
    pub size: &'a Size,
    /// The anatomy.
    pub anatomy: &'a Anatomy,
    /// The seat of the size in it.
    pub seat: &'a Seat,
}

/// What a check measures: the worst value over the places of a seat.
///
/// [`value`](Self::value) is the reference. An engine may bound a measure in its own
/// way and leaves every other to that function.
#[derive(Clone, Copy, Debug)]
pub enum Measure {
    /// w − d_fit, mm.
    WaistExcess,
    /// w / d_fit.
    WaistRatio,
    /// s: what the waist's length leaves of the wall, mm.
    Slack,
    /// max(0, −s): by how much the discs clamp the wall, mm.
    Clamp,
    /// The least lip of the disc on a face over a part of the opening's edge, mm.
    Lip(Face, EdgePart),
    /// Signed clearance from a valve, mm.
    Clearance(Valve),
    /// How far the shape reaches past the opening's edge toward a valve's hinge, mm.
    Reach(Valve),
    /// The share of a valve's leaflet that the shape covers.
    LeafletCovered(Valve),
    /// Open share of the tract on a face.
    OpenShare(Face),
    /// Peak gradient that the shape costs the tract on a face, mmHg.
    TractGradient(Face),
    /// The tract's width less the disc's on a face, mm.
    TractRoom(Face),
    /// The disc's diameter over the length of the ventricle on a face.
    ChamberRatio(Face),
    /// The sheath's outer diameter over the vein's inner one.
    SheathInVein,
    /// The sheath's outer diameter over the artery's inner one.
    SheathInArtery,
    /// The artery's inner diameter, mm.
    ArteryWidth,
    /// A value of the size and the case alone, the same in every draw.
    OfShape(fn(&Setting, &Size) -> f64),
    /// A value of one check alone, which no engine bounds. What it needs the check
    /// says itself.
    Own(fn(&Situation) -> f64),
}

/// A part of the edge of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EdgePart {
    /// Within the arcs about the hinges of its face.
    AtHinge,
    /// Outside them.
    Away,
}

/// The value where a reading is missing: it breaks every limit, so that a check that
/// forgot to name its need cannot pass in silence.
pub(crate) const UNREAD: f64 = f64::NAN;
