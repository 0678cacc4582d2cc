//! The wall seen along its normal.

mod valves;

use crate::{
    Extent, Figure, Form, Importance, Label, Lean, Part, Point, Scene, View, precision, words,
};
use geometry::outline::{disc_rim, opening_edge, waist_ring};
use geometry::{Face, Mm, Opening, Radians, SeatedDisc, Vec2, degrees, radial};
use sizing::{Anatomy, Setting, Size, nominal_seat};
use std::f64::consts::TAU;

/// What stays free round the picture, for the words of the clock.
const MARGIN: Mm = 2.0;

/// The words of the clock, clockwise from 12, as of a ventricular septum.
const CLOCK: [(&str, Lean); 4] = [
    ("12 base", Lean::Upon),
    ("3 inlet", Lean::Left),
    ("6 apex", Lean::Upon),
    ("9 outlet", Lean::Right),
];

/// A face of the wall with the size over its opening, the waist in the middle of
/// its play; `None` while a reading it needs is missing.
///
/// Seen from the left ventricle, the right face too, through the wall: up is
/// toward 12 o'clock, right toward 3. Points count from the centre of the
/// throat.
///
/// A reduced model, as that of the checks: discs in the plane of the wall,
/// untilted. Hinges are shown of valves whose annulus was read.
pub fn face_on(setting: &Setting, size: &Size, turn: Radians, face: Face) -> Option<Scene> {
    if !View::FaceOn(face).missing(setting).is_empty() {
        return None;
    }
    let anatomy = setting.anatomy();
    let opening = anatomy.defect.opening(face);
    let seat = nominal_seat(setting, size, turn);
    let place = seat.play().centre;
    let disc = seat.disc(&size.occluder, face, 0.0, place);
    let mut figures = hole(anatomy, opening);
    figures.extend(bundle(setting, opening).into_iter().flatten());
    figures.push(closed(
        Part::Waist,
        &waist_ring(place, seat.waist_diameter(), precision::outline()),
    ));
    if size.occluder.disc(face).is_some() {
        figures.extend(shown_disc(&disc));
    }
    figures.extend(valves::valves(anatomy, &disc));
    let mut scene = Scene::new(figures, MARGIN);
    let words = clock(opening.centre, &scene.bounds);
    scene.figures.extend(words);
    scene.figures.push(caption(face, &scene.bounds));
    Some(scene)
}

/// A point of the wall as it is seen from the left.
const fn seen(point: Vec2) -> Point {
    Point::new(point.v, point.u)
}

fn seen_line(line: &[Vec2]) -> Vec<Point> {
    line.iter().copied().map(seen).collect()
}

fn closed(part: Part, outline: &[Vec2]) -> Figure {
    let mut line = seen_line(outline);
    line.extend(line.first().copied());
    Figure {
        part,
        form: Form::Line(line),
    }
}

/// The opening, and the throat where it is another.
fn hole(anatomy: &Anatomy, opening: &Opening) -> Vec<Figure> {
    let throat = Opening {
        centre: Vec2::ZERO,
        edge: anatomy.defect.throat,
    };
    let edge = |part, of| closed(part, &opening_edge(of, precision::outline()));
    let mut figures = vec![edge(Part::HoleEdge, opening)];
    if throat != *opening {
        figures.push(edge(Part::Throat, &throat));
    }
    figures
}

/// The edge along which the conduction bundle runs.
fn bundle(setting: &Setting, opening: &Opening) -> Option<[Figure; 2]> {
    /// Between two points: the danger arc is a stretch to look out for, and is
    /// known no better than this.
    const STEP: Radians = degrees(1.0);
    let arc = setting.danger_arc()?;
    let start = degrees(arc.from_degrees);
    let width = (degrees(arc.to_degrees) - start).rem_euclid(TAU);
    let at = |azimuth: Radians| {
        let out = radial(azimuth) * opening.edge.polar_radius(azimuth);
        seen(opening.centre + out)
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 to 360"
    )]
    let steps = (width / STEP).ceil() as u32;
    let line = (0..=steps)
        .map(|step| at(start + width * f64::from(step) / f64::from(steps.max(1))))
        .collect();
    let middle = start + 0.5 * width;
    let name = Label {
        at: at(middle),
        text: "bundle".to_owned(),
        lean: side_of(radial(middle)),
        importance: Importance::Name,
    };
    Some([Form::Line(line), Form::Text(name)].map(|form| Figure {
        part: Part::Bundle,
        form,
    }))
}

fn shown_disc(disc: &SeatedDisc) -> [Figure; 2] {
    let name = Label {
        at: seen(disc.centre - Vec2::new(disc.radius, 0.0)),
        text: format!("{} disc", words::side(disc.face)),
        lean: Lean::Below,
        importance: Importance::Name,
    };
    let part = Part::Disc(disc.face);
    let form = Form::Text(name);
    [
        closed(part, &disc_rim(disc, precision::outline())),
        Figure { part, form },
    ]
}

/// The side of a point on which words stand that belong outward of it.
fn side_of(outward: Vec2) -> Lean {
    if outward.u.abs() >= outward.v.abs() {
        if outward.u >= 0.0 {
            Lean::Above
        } else {
            Lean::Below
        }
    } else if outward.v >= 0.0 {
        Lean::Right
    } else {
        Lean::Left
    }
}

fn clock(centre: Vec2, bounds: &Extent) -> [Figure; 4] {
    let Point { x, y } = seen(centre);
    let places = [
        Point::new(x, bounds.most.y),
        Point::new(bounds.most.x, y),
        Point::new(x, bounds.least.y),
        Point::new(bounds.least.x, y),
    ];
    [0, 1, 2, 3].map(|quarter| {
        let (text, lean) = CLOCK[quarter];
        Figure {
            part: Part::Clock,
            form: Form::Text(Label {
                at: places[quarter],
                text: text.to_owned(),
                lean,
                importance: Importance::Orientation,
            }),
        }
    })
}

fn caption(face: Face, bounds: &Extent) -> Figure {
    let text = match face {
        Face::Left => "seen from the left ventricle",
        Face::Right => "right face, seen from the left ventricle",
    };
    Figure {
        part: Part::Caption,
        form: Form::Text(Label {
            at: bounds.least,
            text: text.to_owned(),
            lean: Lean::Right,
            importance: Importance::Orientation,
        }),
    }
}

#[cfg(test)]
mod tests;
