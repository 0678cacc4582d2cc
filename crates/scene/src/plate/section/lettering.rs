//! The words of a section: side names first, then lengths, then names.

use super::dimensions::{self, Dimension};
use super::valve::leaflet_at;
use super::{Detail, SectionPicture, outer};
use crate::plate::basis::doubt;
use crate::plate::judged::{mark, role, value};
use crate::plate::lettering::{HALF_CAPITAL, Lettered, Lettering};
use crate::plate::panel::Panel;
use crate::section::{PlateLine, clearance_line};
use crate::stroke::{Anchor, Role};
use crate::{Extent, Part, Point, words};
use geometry::{Face, Mm, PerFace};
use measurement::{Feature, Structure, Valve};

/// In fewer columns than these a number stands without a word.
const FEW_COLUMNS: Mm = 40.0;

/// What is said of a clearance whose nearest points the cut does not hold, so that no
/// line shows it.
pub const OUTSIDE_CUT: &str = "nearest point outside this cut";

/// What stands behind its number for that where there is no room for the words.
pub const OUTSIDE_CUT_MARK: char = '*';

/// Letters of names and lengths, of key numbers, and of cavities, page mm.
const SMALL: Mm = 2.5;
const KEY: Mm = 2.9;

pub(super) fn letter(
    picture: &SectionPicture,
    panel: &Panel,
    lettering: &mut Lettering,
    detail: Detail,
) {
    // In a few cells the number that is looked for has its place first.
    if detail == Detail::Thin {
        clearance(picture, panel, lettering, detail);
    }
    ventricles(picture, panel, lettering);
    let scale = panel.scale();
    if detail == Detail::Full {
        clearance(picture, panel, lettering, detail);
    }
    if detail == Detail::Full {
        for face in Face::BOTH {
            open(picture, panel, lettering, face);
        }
    }
    rim(picture, panel, lettering, scale);
    if detail == Detail::Full {
        reach(picture, panel, lettering, scale);
        thickness(picture, panel, lettering);
    }
    past_plate(picture, panel, lettering);
}

/// The names of the ventricles, each at the foot of its cavity: both in whole words, or
/// both by their initials where one of them finds no room for its words.
fn ventricles(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering) {
    let whole = |face: Face| format!("{} ventricle", words::side(face));
    let initials = |face: Face| PerFace::new("LV", "RV")[face].to_owned();
    let placed = |lettering: &Lettering, name: &dyn Fn(Face) -> String| {
        Face::BOTH.map(|face| {
            let words = Lettered::new(Part::Caption, Role::Word, name(face), SMALL).bold();
            let places = ventricle_places(picture, panel, face, lettering.width_of(&words));
            (words, places)
        })
    };
    let in_words = placed(lettering, &whole);
    let by_initials = placed(lettering, &initials);
    if lettering.set_all(&in_words) || lettering.set_all(&by_initials) {
        return;
    }
    for (words, places) in by_initials {
        lettering.set(&words, places);
    }
}

/// Where the name of a ventricle may stand, so wide: on its own side of the wall, the
/// best place first.
fn ventricle_places(
    picture: &SectionPicture,
    panel: &Panel,
    face: Face,
    width: Mm,
) -> Vec<(Point, Anchor)> {
    /// Between places of a name, and how far its first stands off the field's side,
    /// page mm.
    const STEP: Mm = 3.0;
    let Extent { least, most } = panel.field;
    let [left, right] = cavity(picture, panel, face);
    let is_left = (face == Face::Left) == (panel.rightward() > 0.0);
    let free = right - left - width;
    // Over a valve's plate lies what is past the valve.
    let plate = picture.plate().filter(|_| face == picture.cut.face());
    let highest = plate.map_or(least.y, |plate| {
        panel.at(plate.foot).y.max(panel.at(plate.tip).y)
    });
    let mut places = Vec::new();
    let heights = [most.y - 2.0, most.y - 6.0, most.y - 11.0, least.y + 4.0];
    for y in heights.into_iter().filter(|y| *y >= highest) {
        let mut aside = STEP.min(0.5 * free);
        while aside >= 0.0 && aside <= free {
            places.push(if is_left {
                (Point::new(left + aside, y), Anchor::Start)
            } else {
                (Point::new(right - aside, y), Anchor::End)
            });
            aside += STEP;
        }
    }
    places
}

/// Where the cavity on a face lies in the field, from left to right: between the wall
/// and the far wall of its tract, or the field's side.
fn cavity(picture: &SectionPicture, panel: &Panel, face: Face) -> [Mm; 2] {
    let Extent { least, most } = panel.field;
    let at = |out: Mm| {
        let x = panel.at(Point::new(picture.cut.x(face, out), 0.0)).x;
        x.clamp(least.x, most.x)
    };
    let wall = at(0.0);
    let is_left = (face == Face::Left) == (panel.rightward() > 0.0);
    let side = if is_left { least.x } else { most.x };
    let far = picture
        .cut
        .tract(face)
        .map_or(side, |tract| at(tract.depth));
    [wall.min(far), wall.max(far)]
}

/// What lies past the plate, and on the other side at the same height.
fn past_plate(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering) {
    let cut = &picture.cut;
    let other = cut.face().opposite();
    let mut names = Vec::new();
    if cut.hinged.is_some() {
        names.push((cut.face(), past(cut.valve)));
    }
    if cut.tract(other).is_some() {
        names.push((
            other,
            match other {
                Face::Left => ["LV outflow", "LVOT"],
                Face::Right => ["RV outflow", "RVOT"],
            },
        ));
    }
    for (face, names) in names {
        let least = panel.field.least;
        // Only on its own side of the wall: elsewhere the name would mislead.
        let side = cavity(picture, panel, face);
        for name in names {
            let words = Lettered::new(Part::Caption, Role::Word, name.to_owned(), SMALL);
            let half = 0.5 * lettering.width_of(&words);
            let places = [3.5, 5.5, 8.0].into_iter().flat_map(|down| {
                [0.0, -6.0, 6.0, -12.0, 12.0]
                    .map(|aside| 0.5 * (side[0] + side[1]) + aside)
                    .into_iter()
                    .filter(|middle| middle - half >= side[0] && middle + half <= side[1])
                    .map(move |middle| (Point::new(middle, least.y + down), Anchor::Middle))
            });
            if lettering.set(&words, places) {
                break;
            }
        }
    }
}

/// What lies past a valve, as it is called, and shorter.
const fn past(valve: Valve) -> [&'static str; 2] {
    match valve {
        Valve::Aortic => ["aortic root", "aorta"],
        Valve::Pulmonary => ["pulmonary root", "PA"],
        Valve::Mitral => ["left atrium", "LA"],
        Valve::Tricuspid => ["right atrium", "RA"],
    }
}

/// A key number in the cavity of the valve, as near to its line as it finds room, or
/// elsewhere where it finds none there.
fn clearance(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering, detail: Detail) {
    let valve = picture.cut.valve;
    let Some(line) = clearance_line(&picture.cut) else {
        return;
    };
    let middle = panel.at(line.ends[0].midpoint(line.ends[1]));
    let out = panel.rightward() * picture.cut.face().outward();
    // Over the plate it would be read as a length of the root.
    let below = |(at, _): &(Point, Anchor)| at.y >= middle.y;
    let role = role(picture.judgement.clearance(valve));
    let mut texts = clearance_words(picture, line.is_in_cut, detail);
    if detail == Detail::Thin && panel.field.width() < FEW_COLUMNS {
        // The name of the ventricle needs room as well.
        texts.remove(0);
    }
    let words =
        |text: &String| Lettered::new(Part::Clearance(valve), role, text.clone(), KEY).bold();
    for text in &texts {
        let places = cavity_places(middle, out, KEY).filter(below);
        if lettering.set(&words(text), places) {
            return;
        }
    }
    // Then as near as there is room: of a device past the plate on its own side of the
    // wall first, of one that is clear anywhere but in the root.
    let is_past = picture.cut.place.clearance < 0.0;
    let is_well = |at: Point| {
        let is_outward = out * (at.x - middle.x) > 0.0;
        if is_past {
            is_outward
        } else {
            at.y >= middle.y || !is_outward
        }
    };
    for is_anywhere in [false, true] {
        for text in &texts {
            let places = lettering.places_about(middle, KEY).into_iter();
            let places = places.filter(|(at, _)| is_anywhere || is_well(*at));
            if lettering.set(&words(text), places) {
                return;
            }
        }
    }
}

/// What is said of the clearance, and shorter: how far clear, or how far past.
fn clearance_words(picture: &SectionPicture, is_in_cut: bool, detail: Detail) -> Vec<String> {
    let valve = picture.cut.valve;
    let outcome = picture.judgement.clearance(valve);
    let clearance = picture.cut.place.clearance;
    let length = outcome
        .and_then(value)
        .unwrap_or_else(|| format!("{} mm", words::tenths(clearance)));
    let mark = mark(outcome);
    let length = format!("{mark}{}", length.trim_start_matches('-'));
    let how = if clearance < 0.0 { "past" } else { "clear" };
    let star = if is_in_cut {
        String::new()
    } else {
        OUTSIDE_CUT_MARK.to_string()
    };
    let mut texts = vec![
        format!("{length} {how}{star}"),
        format!("{length}{star}"),
        // Cells are few where the device is large.
        format!("{}{star}", length.replacen(' ', "", mark.len().min(1))),
    ];
    if !is_in_cut && detail == Detail::Full {
        texts.insert(0, format!("{length} {how}, {OUTSIDE_CUT}"));
    }
    texts
}

/// Places out of a face about a point of the page, the nearest first.
fn cavity_places(from: Point, out: f64, size: Mm) -> impl Iterator<Item = (Point, Anchor)> {
    let anchor = if out < 0.0 {
        Anchor::End
    } else {
        Anchor::Start
    };
    let downs = [
        0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0, -3.0, -6.0, -9.0, 15.0, 18.0, 22.0,
    ];
    let outs = [2.0, 1.0, 4.0, 7.0, 10.0, 14.0];
    let mut places: Vec<(f64, Point)> = downs
        .into_iter()
        .flat_map(|down| outs.map(|away| (away, down)))
        .map(|(away, down): (f64, f64)| {
            let at = Point::new(from.x + out * away, from.y + down + HALF_CAPITAL * size);
            (away * away + down * down, at)
        })
        .collect();
    places.sort_by(|one, other| one.0.total_cmp(&other.0));
    places.into_iter().map(move |(_, at)| (at, anchor))
}

/// The open width of a tract with its share, over its line or under it.
fn open(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering, face: Face) {
    let Some(line) = dimensions::open(picture, face) else {
        return;
    };
    let outcome = picture.judgement.open_share(face);
    let width = line.ends[0].distance(line.ends[1]);
    let share = outcome.and_then(value);
    let mut texts = vec![format!("open {} mm", words::tenths(width))];
    if let Some(share) = share {
        let mark = mark(outcome);
        texts.insert(0, format!("{mark}{share} open"));
        texts.insert(
            0,
            format!("open {} mm, {mark}{share}", words::tenths(width)),
        );
    }
    let [start, end] = line.ends.map(|end| panel.at(end));
    let middle = start.midpoint(end);
    for text in texts {
        let words = Lettered::new(line.part, line.role, text, SMALL);
        let places = [-1.2, 3.2, -4.5, 6.5].into_iter().flat_map(|down| {
            [0.0, -3.0, 3.0].map(|aside| {
                (
                    Point::new(middle.x + aside, middle.y + down),
                    Anchor::Middle,
                )
            })
        });
        if lettering.set(&words, places) {
            return;
        }
    }
}

fn rim(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering, scale: f64) {
    let cut = &picture.cut;
    let (Some(line), Some(rim)) = (dimensions::rim(picture, scale), cut.anatomy.rims[cut.valve])
    else {
        return;
    };
    let sd = doubt(picture.setting, Structure::Valve(cut.valve), Feature::Rim);
    let rim = words::tenths(rim);
    let mut texts = vec![format!("rim {rim} mm")];
    if let Some(sd) = sd {
        texts.insert(0, format!("rim {rim} ± {} mm", words::tenths(sd)));
    }
    beside(panel, lettering, &line, texts, cut.face().opposite());
}

fn reach(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering, scale: f64) {
    let Some(line) = dimensions::reach(picture, scale) else {
        return;
    };
    let reach = line.ends[1].y - line.ends[0].y;
    let text = format!("reach {} mm", words::tenths(reach));
    beside(panel, lettering, &line, vec![text], picture.cut.face());
}

/// The first of some words that finds room beside an upright line, out of a face.
fn beside(
    panel: &Panel,
    lettering: &mut Lettering,
    line: &Dimension,
    texts: Vec<String>,
    face: Face,
) {
    let middle = panel.at(line.ends[0].midpoint(line.ends[1]));
    let out = panel.rightward() * face.outward();
    for text in texts {
        let words = Lettered::new(line.part, line.role, text, SMALL);
        if lettering.set(&words, cavity_places(middle, out, SMALL).take(48)) {
            return;
        }
    }
}

/// The wall's thickness over its line, in the muscle, or beside it.
fn thickness(picture: &SectionPicture, panel: &Panel, lettering: &mut Lettering) {
    let line = dimensions::thickness(picture, dimensions::foot(panel));
    let wall = picture.cut.anatomy.defect.wall;
    let [start, end] = line.ends.map(|end| panel.at(end));
    let middle = start.midpoint(end);
    let right = start.x.max(end.x);
    let left = start.x.min(end.x);
    for text in [
        format!("wall {} mm", words::tenths(wall)),
        format!("{} mm", words::tenths(wall)),
    ] {
        let words = Lettered::new(line.part, line.role, text, SMALL);
        let level = middle.y + HALF_CAPITAL * SMALL;
        let places = [
            (Point::new(middle.x, middle.y - 1.2), Anchor::Middle),
            (Point::new(middle.x, middle.y + 3.2), Anchor::Middle),
            (Point::new(right + 1.5, level), Anchor::Start),
            (Point::new(left - 1.5, level), Anchor::End),
        ];
        if lettering.set(&words, places) {
            return;
        }
    }
}

/// What has a name, and where it is pointed at.
pub(super) fn names(picture: &SectionPicture) -> Vec<(Point, String)> {
    let cut = &picture.cut;
    let mut names = Vec::new();
    for face in Face::BOTH {
        let outline = cut.disc(face);
        if let (Some(_), Some(extent)) = (cut.occluder.disc(face), Extent::of(outline)) {
            let low = extent.least.y + 0.2 * extent.height();
            let at = Point::new(outer(&extent, face) - face.outward() * 0.3, low);
            names.push((at, format!("{} disc", words::side(face))));
        }
        if let Some(tract) = cut.tract(face) {
            let at = Point::new(cut.x(face, tract.depth + 0.4), -1.0);
            let side = if face == Face::Left { "LV" } else { "RV" };
            names.push((at, format!("far wall of the\n{side} outflow")));
        }
    }
    if let Some(line) = cut.hinged.and_then(|hinged| PlateLine::of(cut, hinged)) {
        let name = cut.valve.label().trim_end_matches(" valve");
        names.push((line.foot.midpoint(line.tip), format!("{name} annulus")));
        names.push((line.foot, format!("{name} hinge")));
        if cut.valve == Valve::Aortic {
            let at = leaflet_at(picture, line, 0.75);
            names.push((at, "mitral leaflet,\nfrom habit".to_owned()));
        }
    }
    names
}
