//! The words of a face: the least overlap beside its line, names in the margins.

use super::{FacePicture, patch, seen};
use crate::plate::basis::is_defect_measured;
use crate::plate::judged::{mark, overlap_words, role};
use crate::plate::lettering::{HALF_CAPITAL, Lettered, Lettering};
use crate::plate::margin::Name;
use crate::plate::panel::Panel;
use crate::stroke::{Anchor, Role};
use crate::{Part, Point, words};
use geometry::{Mm, Vec2, degrees, radial};
use sizing::face_of;

/// Letters of key numbers, page mm.
const KEY: Mm = 2.9;

/// Letters of names, page mm.
const NAME: Mm = 2.5;

pub(super) fn letter(picture: &FacePicture, panel: &Panel, lettering: &mut Lettering) {
    least_overlap(picture, panel, lettering);
    clock(picture, panel, lettering);
}

/// The four quarters of the clock at the rim of the patch, or as near as they find
/// room; the hour alone where there is little.
fn clock(picture: &FacePicture, panel: &Panel, lettering: &mut Lettering) {
    const QUARTERS: [(f64, [&str; 2]); 4] = [
        (0.0, ["12 base", "12"]),
        (180.0, ["6 apex", "6"]),
        (90.0, ["3 inlet", "3"]),
        (270.0, ["9 outlet", "9"]),
    ];
    let (centre, radius) = (picture.centre(), patch(panel));
    for (azimuth, texts) in QUARTERS {
        let out = |share: f64| panel.at(seen(centre + radial(degrees(azimuth)) * (share * radius)));
        for text in texts {
            let words = Lettered::new(Part::Clock, Role::Word, text.to_owned(), NAME);
            let places = [0.94, 0.88, 0.8, 0.7].into_iter().flat_map(|share| {
                [Anchor::Middle, Anchor::Start, Anchor::End].map(|anchor| {
                    let at = out(share);
                    (Point::new(at.x, at.y + HALF_CAPITAL * NAME), anchor)
                })
            });
            if lettering.set(&words, places) {
                break;
            }
        }
    }
}

fn least_overlap(picture: &FacePicture, panel: &Panel, lettering: &mut Lettering) {
    let Some(ends) = picture.overlap_ends() else {
        return;
    };
    let outcome = picture.judgement.rim_overlap(picture.face);
    let text = least_words(picture);
    let part = Part::RimOverlap(picture.face);
    let words = Lettered::new(part, role(outcome), text, KEY).bold();
    let end = panel.at(ends[1]);
    lettering.set(&words, lettering.places_about(end, KEY));
}

/// What is said of the least rim overlap, with a mark where it is not well.
fn least_words(picture: &FacePicture) -> String {
    let outcome = picture.judgement.rim_overlap(picture.face);
    let least = picture.least.map_or(0.0, |least| least.value);
    format!("{}{}", mark(outcome), overlap_words(least, outcome))
}

/// The names of what is seen, each with the point it means.
pub(super) fn names(picture: &FacePicture, panel: &Panel) -> Vec<Name> {
    let centre = picture.centre();
    let radius = patch(panel);
    let mut names = Vec::new();
    for (azimuth, text) in [(90.0, "3 inlet"), (270.0, "9 outlet")] {
        let at = seen(centre + radial(degrees(azimuth)) * radius);
        names.push(Name {
            has_leader: false,
            ..Name::of(panel.at(at), text.to_owned())
        });
    }
    if let Some([from, to]) = picture.overlap_ends() {
        let role = role(picture.judgement.rim_overlap(picture.face));
        let text = least_words(picture).replace(" of the edge", "\nof the edge");
        names.push(Name {
            role,
            ..Name::of(panel.at(from.midpoint(to)), text)
        });
    }
    let mut name = |at: Point, text: String| names.push(Name::of(panel.at(at), text));
    let face = picture.face;
    let side = |face| words::side(face);
    let on_disc = |face: geometry::Face, azimuth: f64| {
        let disc = &picture.discs[face];
        seen(disc.centre + radial(degrees(azimuth)) * disc.radius)
    };
    if picture.has_disc(face) {
        name(on_disc(face, 235.0), format!("{} disc", side(face)));
    }
    let behind = face.opposite();
    if picture.has_disc(behind) {
        name(
            on_disc(behind, 305.0),
            format!("{} disc,\nbehind", side(behind)),
        );
    }
    let opening = picture.anatomy.defect.opening(face);
    let at_edge = |azimuth: f64| {
        let azimuth = degrees(azimuth);
        seen(opening.centre + radial(azimuth) * opening.edge.polar_radius(azimuth))
    };
    let pointed_at = at_edge(215.0);
    let hidden = if picture.is_under_disc(pointed_at) {
        "edge of the defect,\nunder the disc"
    } else {
        "edge of the defect"
    };
    let assumed = if is_defect_measured(picture.setting) {
        ""
    } else {
        ", assumed"
    };
    name(pointed_at, format!("{hidden}{assumed}"));
    if let Some(axis) = picture.axis_points(0.5)
        && let Some(&middle) = axis.get(axis.len() / 2)
    {
        name(middle, "conduction axis".to_owned());
    }
    for (valve, hinged) in picture.hinges() {
        let away = hinged.hinge() - centre;
        let label = valve.label().trim_end_matches(" valve");
        let behind = if face_of(valve) == face {
            ""
        } else {
            ", behind"
        };
        if away.length() > radius {
            let at = seen(centre + away * ((radius - 0.5) / away.length()));
            let distance = words::tenths(away.length());
            let text = format!("{label} hinge{behind}:\n{distance} mm from the centre");
            name(at, text);
        } else {
            let plate = hinged.plate();
            let half = Vec2::new(plate.second.u, plate.second.v) * (0.6 * plate.semi_second);
            let outer = [hinged.hinge() - half, hinged.hinge() + half]
                .into_iter()
                .filter(|point| (*point - centre).length() < radius)
                .max_by(|one, other| one.v.total_cmp(&other.v))
                .unwrap_or_else(|| hinged.hinge());
            name(seen(outer), format!("{label} annulus,\nedge-on{behind}"));
        }
    }
    names
}
