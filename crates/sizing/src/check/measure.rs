use geometry::Face;
use measurement::Valve;

/// What a check measures, where it is one of the values that every engine knows.
///
/// A check that names its measure is counted by an engine in that engine's own
/// way; one that does not is counted by its own `fill`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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
    /// A value of the shape alone, the same in every draw.
    OfShape,
}

/// A part of the edge of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EdgePart {
    /// Within the arcs about the hinges of its face.
    AtHinge,
    /// Outside them.
    Away,
}
