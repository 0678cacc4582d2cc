use geometry::Face;
use measurement::Valve;

/// What a figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// The wall between the ventricles.
    Wall,
    /// The edge of the hole.
    HoleEdge,
    /// The narrowest section of the hole, where it is not an opening's.
    Throat,
    /// Where the conduction bundle runs along the edge.
    Bundle,
    /// The cavity on a face of the wall.
    Cavity(Face),
    /// The wall of the outflow tract that faces a face of the septum.
    Tract(Face),
    /// A valve's annulus plate.
    Plate(Valve),
    /// A valve's closed cusps below its plate.
    Cusps(Valve),
    /// The artery or the atrium past a valve's plate, from habit.
    Root(Valve),
    /// The leaflet that hangs from the far end of a valve's plate, from habit.
    Leaflet(Valve),
    /// A valve's hinge on the wall.
    Hinge(Valve),
    /// How far off a valve's hinge may be.
    Doubt(Valve),
    /// The disc on a face.
    Disc(Face),
    /// The full width of a disc whose centre lies beside the plane of a section.
    DiscBeside(Face),
    /// The waist in the hole.
    Waist,
    /// What of the shape lies where a valve's cusps are, or past them.
    Overlap(Valve),
    /// The rim: from the edge of the hole to a valve's hinge.
    Rim(Valve),
    /// The least rim overlap away from the valves on a face.
    RimOverlap(Face),
    /// How far the shape reaches past the edge of the hole on a face.
    Reach(Face),
    /// The signed clearance from a valve.
    Clearance(Valve),
    /// What stays open between the shape and the far wall of an outflow tract.
    Open(Face),
    /// The thickness of the wall.
    Thickness,
    /// The words of the clock.
    Clock,
    /// From where it is seen, and where it is cut.
    Caption,
    /// Name, verdict and key numbers of the size.
    Heading,
    /// A chart's axis, mark or words.
    Chart,
    /// A ruler in millimetres, or the level of the hinge.
    Ruler,
}
