//! The valves on a face.

use super::{seen, seen_line, side_of};
use crate::{Figure, Form, Importance, Label, Lean, Part, Point, clip, precision, words};
use geometry::outline::disc_rim;
use geometry::{HingedPlate, SeatedDisc, Vec2};
use measurement::Valve;
use sizing::{Anatomy, face_of};

/// How far a hinge's line runs to each side, as a share of the annulus's
/// semi-axis along it: enough to see its direction.
const HINGE_SHARE: f64 = 0.5;

/// The valves on the face of a disc, as far as they were read, and what of the
/// disc lies past their hinges.
pub(super) fn valves(anatomy: &Anatomy, disc: &SeatedDisc) -> Vec<Figure> {
    let mut figures = Vec::new();
    for valve in Valve::ALL {
        if face_of(valve) != disc.face {
            continue;
        }
        if let Some(hinged) = &anatomy.valves[valve.index()] {
            figures.extend(overlap(valve, hinged, disc));
            figures.extend(hinge(valve, hinged));
            figures.extend(rim(anatomy, valve, hinged));
        }
    }
    figures
}

/// A valve's hinge, and a short line along the wall there.
fn hinge(valve: Valve, hinged: &HingedPlate) -> [Figure; 2] {
    let plate = hinged.plate();
    let along = Vec2::new(plate.second.u, plate.second.v) * (HINGE_SHARE * plate.semi_second);
    let ends = [hinged.hinge() - along, hinged.hinge() + along];
    let name = Label {
        at: seen(hinged.hinge()),
        text: valve.label().to_owned(),
        lean: side_of(hinged.radial()),
        importance: Importance::Name,
    };
    [Form::Line(seen_line(&ends)), Form::Text(name)].map(|form| Figure {
        part: Part::Hinge(valve),
        form,
    })
}

/// What of the disc, or of the waist's end, lies past a hinge, as wide as the
/// annulus.
fn overlap(valve: Valve, hinged: &HingedPlate, disc: &SeatedDisc) -> Option<Figure> {
    let (hinge, out) = (seen(hinged.hinge()), seen(hinged.radial()));
    let half_width = hinged.plate().semi_second;
    let past = |point: Point| (point.x - hinge.x) * out.x + (point.y - hinge.y) * out.y;
    let aside = |point: Point| (point.x - hinge.x) * out.y - (point.y - hinge.y) * out.x;
    let outline = seen_line(&disc_rim(disc, precision::outline()));
    let outline = clip::behind(&outline, past);
    let outline = clip::behind(&outline, |point| half_width - aside(point));
    let outline = clip::behind(&outline, |point| half_width + aside(point));
    (!outline.is_empty()).then_some(Figure {
        part: Part::Overlap(valve),
        form: Form::Area(outline),
    })
}

/// From the edge of the opening to a hinge.
fn rim(anatomy: &Anatomy, valve: Valve, hinged: &HingedPlate) -> Option<Figure> {
    let opening = anatomy.defect.opening(hinged.face());
    let azimuth = anatomy.azimuths[valve.index()]?;
    let rim = anatomy.rims[valve.index()]?;
    let edge = opening.centre + hinged.radial() * opening.edge.polar_radius(azimuth);
    let (from, to) = (seen(edge), seen(hinged.hinge()));
    Some(Figure {
        part: Part::Rim(valve),
        form: Form::Measure {
            from,
            to,
            label: Label {
                at: from.midpoint(to),
                text: format!("rim {}", words::tenths(rim)),
                lean: Lean::Right,
                importance: Importance::Length,
            },
        },
    })
}
