//! The lengthwise section.

mod cut;
mod dimensions;
mod valves;

pub(crate) use cut::{Cut, points};
pub(crate) use dimensions::{clearance_line, reach_ends};
pub(crate) use valves::{PlateLine, plates_shown};

use crate::{Extent, Figure, Form, Home, Importance, Label, Lean, Part, Point, Scene, words};
use geometry::{Accuracy, Face, Mm, Radians, least_clearance};
use measurement::Valve;
use sizing::{Neighbour, Setting, Size, nominal_seat};

/// What stays free round a section.
const MARGIN: Mm = 1.5;

/// How much of each cavity is shown at least, so that its name finds room.
const CAVITY: Mm = 6.0;

/// The valve from which a size has the least clearance; `None` where no valve
/// beside the defect was read.
pub fn nearest_valve(setting: &Setting, size: &Size, turn: Radians) -> Option<Valve> {
    let seat = nominal_seat(setting, size, turn);
    let clearance = |valve: Valve| {
        let plate = setting.anatomy().valves[valve.index()].as_ref()?;
        let clearance = least_clearance(&size.occluder, &seat, plate, Accuracy::DEFAULT);
        Some((valve, clearance))
    };
    Valve::ALL
        .into_iter()
        .filter_map(clearance)
        .reduce(|least, one| if one.1 < least.1 { one } else { least })
        .map(|(valve, _)| valve)
}

/// The section through the wall's normal and the azimuth of a valve's hinge,
/// with the size where it comes nearest to that valve; `None` while a reading of
/// hole or wall is missing. A valve that does not stand there, or whose annulus
/// was not read, is not drawn, and the picture says so; it is then cut at the
/// azimuth where the valve would stand, or at 12 o'clock.
///
/// The left ventricle lies on the left, and the valve's hinge above the hole. y
/// counts from the centre of the opening on the valve's face. Where the disc's
/// centre lies beside the plane, its cut is narrower than the disc, whose full
/// width is shown as well. The line of the clearance is left out where it does
/// not lie in the plane; its number never is.
///
/// A reduced model, as that of the checks: untilted discs, flat plates at rest,
/// hinges and openings where they were read. Cusps are shown on the side of the
/// defect alone, and of the valve asked for.
pub fn section(setting: &Setting, size: &Size, turn: Radians, valve: Valve) -> Option<Scene> {
    let cut = Cut::of(setting, size, turn, valve)?;
    let mut figures = cut.tracts();
    figures.extend(valves::cusps(&cut));
    figures.extend(cut.waist());
    figures.extend(cut.wall());
    figures.extend(cut.discs());
    figures.extend(valves::overlap(&cut));
    figures.extend(valves::plates(&cut));
    figures.extend(dimensions::dimensions(&cut));
    let mut scene = Scene::new(figures, MARGIN);
    let bounds = &mut scene.bounds;
    bounds.least.x = bounds.least.x.min(cut.x(Face::Left, CAVITY));
    bounds.most.x = bounds.most.x.max(cut.x(Face::Right, CAVITY));
    let captions = captions(&cut, &scene);
    scene.figures.extend(captions);
    scene
        .figures
        .extend(without_valve(setting, &cut, &scene.bounds));
    Some(scene)
}

/// Why the valve asked for is not in the picture.
fn without_valve(setting: &Setting, cut: &Cut, bounds: &Extent) -> Option<Figure> {
    if cut.hinged.is_some() {
        return None;
    }
    let name = cut.valve.label();
    let text = if setting.case().is_absent(Neighbour::Valve(cut.valve)) {
        format!("{name} out of reach")
    } else {
        format!("{name} not read")
    };
    Some(Figure {
        part: Part::Plate(cut.valve),
        form: Form::Text(Label {
            at: Point::new(cut.x(cut.face(), 0.0), bounds.most.y),
            text,
            lean: Lean::Upon,
            importance: Importance::Orientation,
        }),
    })
}

/// Which side is which, and where it is cut.
fn captions(cut: &Cut, scene: &Scene) -> [Figure; 3] {
    let bounds = &scene.bounds;
    // Each name keeps to its side of the middle of the wall.
    let middle = 0.5 * (cut.x(Face::Left, 0.0) + cut.x(Face::Right, 0.0));
    let cavity = |face: Face| {
        let (least, most, short) = match face {
            Face::Left => (bounds.least.x, middle, "LV"),
            Face::Right => (middle, bounds.most.x, "RV"),
        };
        let outer = if face == Face::Left { least } else { most };
        let label = Label {
            at: Point::new(0.5 * (outer + cut.x(face, 0.0)), bounds.least.y),
            text: format!("{} ventricle", words::side(face)),
            lean: Lean::Upon,
            importance: Importance::Orientation,
        };
        Figure {
            part: Part::Caption,
            form: Form::Home(label, Home { least, most, short }),
        }
    };
    let place = format!("section at {}, mm", words::o_clock(cut.azimuth));
    let corner = Point::new(bounds.least.x, bounds.most.y);
    let place = Figure {
        part: Part::Caption,
        form: Form::Text(Label {
            at: corner,
            text: place,
            lean: Lean::Right,
            importance: Importance::Aside,
        }),
    };
    [cavity(Face::Left), cavity(Face::Right), place]
}

#[cfg(test)]
mod tests;
