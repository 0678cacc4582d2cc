//! A small drawing of every kind of stroke: a septum, a device in it, a plate with
//! what lies past it, and words.

use scene::stroke::{Anchor, Dash, Drawing, Ink, Path, PathStep, Role, Stroke, Word};
use scene::{Part, Point};

/// Points of the page, mm, where one colour lies for at least 1 mm around.
pub(crate) const PROBES: [([f64; 2], Role); 10] = [
    ([12.0, 60.0], Role::LeftBlood),
    ([90.0, 20.0], Role::RightBlood),
    ([50.0, 8.0], Role::Muscle),
    ([50.0, 66.0], Role::Muscle),
    ([50.0, 37.0], Role::Device),
    ([37.5, 30.0], Role::Device),
    ([37.5, 17.5], Role::Beyond),
    ([20.0, 22.0], Role::Plate),
    ([97.5, 40.0], Role::FarWall),
    ([80.0, 50.0], Role::Ok),
];

fn fill(role: Role, points: &[[f64; 2]]) -> Stroke {
    let points = points.iter().map(|[x, y]| Point::new(*x, *y));
    Stroke {
        part: Part::Wall,
        role,
        ink: Ink::Fill(Path::polygon(points)),
    }
}

fn line(role: Role, width: f64, dash: Option<Dash>, points: &[[f64; 2]]) -> Stroke {
    let points = points.iter().map(|[x, y]| Point::new(*x, *y));
    Stroke {
        part: Part::Wall,
        role,
        ink: Ink::Line {
            path: Path::polyline(points),
            width,
            dash,
        },
    }
}

fn word(role: Role, [x, y]: [f64; 2], anchor: Anchor, text: &str) -> Stroke {
    Stroke {
        part: Part::Caption,
        role,
        ink: Ink::Word(Word {
            at: Point::new(x, y),
            text: text.to_owned(),
            size: 3.0,
            anchor,
            is_bold: role == Role::Beyond,
            has_halo: true,
        }),
    }
}

/// A disc on the left from x 35 to 40 or on the right from 60 to 65, rounded.
fn disc(role: Role, left: f64, top: f64, bottom: f64) -> Stroke {
    let at = Point::new;
    Stroke {
        part: Part::Waist,
        role,
        ink: Ink::Fill(Path(vec![
            PathStep::Move(at(left, top + 3.0)),
            PathStep::Cubic(
                at(left, top),
                at(left + 5.0, top),
                at(left + 5.0, top + 3.0),
            ),
            PathStep::Line(at(left + 5.0, bottom - 3.0)),
            PathStep::Cubic(
                at(left + 5.0, bottom),
                at(left, bottom),
                at(left, bottom - 3.0),
            ),
            PathStep::Close,
        ])),
    }
}

/// The drawing, 100 by 71.4 mm: a bay of 42 by 15 cells.
pub(crate) fn drawing() -> Drawing {
    let mut strokes = vec![
        fill(
            Role::LeftBlood,
            &[[0.0, 0.0], [50.0, 0.0], [50.0, 71.4], [0.0, 71.4]],
        ),
        fill(
            Role::RightBlood,
            &[[50.0, 0.0], [100.0, 0.0], [100.0, 71.4], [50.0, 71.4]],
        ),
        fill(
            Role::FarWall,
            &[[95.0, 0.0], [100.0, 0.0], [100.0, 71.4], [95.0, 71.4]],
        ),
        fill(
            Role::Muscle,
            &[[40.0, 0.0], [60.0, 0.0], [60.0, 26.0], [40.0, 26.0]],
        ),
        fill(
            Role::Muscle,
            &[[40.0, 48.0], [60.0, 48.0], [60.0, 71.4], [40.0, 71.4]],
        ),
        line(
            Role::Outline,
            0.5,
            None,
            &[[40.0, 0.0], [40.0, 26.0], [60.0, 26.0], [60.0, 0.0]],
        ),
        line(
            Role::Outline,
            0.5,
            None,
            &[[40.0, 71.4], [40.0, 48.0], [60.0, 48.0], [60.0, 71.4]],
        ),
        line(
            Role::Schematic,
            0.3,
            None,
            &[[6.0, 22.0], [14.0, 12.0], [24.0, 21.0]],
        ),
        fill(
            Role::Device,
            &[[40.0, 28.0], [60.0, 28.0], [60.0, 46.0], [40.0, 46.0]],
        ),
        disc(Role::Device, 35.0, 14.0, 56.0),
        disc(Role::Device, 60.0, 20.0, 56.0),
        line(
            Role::DeviceOutline,
            0.5,
            None,
            &[[35.0, 17.0], [35.0, 53.0]],
        ),
        line(
            Role::DeviceOutline,
            0.5,
            None,
            &[[65.0, 23.0], [65.0, 53.0]],
        ),
    ];
    for step in 0..30 {
        let x = 41.0 + 0.6 * f64::from(step);
        strokes.push(line(Role::Fibre, 0.13, None, &[[x, 52.0], [x + 0.4, 53.0]]));
        strokes.push(line(Role::Wire, 0.12, None, &[[x, 29.0], [x, 35.0]]));
    }
    strokes.extend([
        fill(
            Role::Beyond,
            &[[35.5, 16.0], [39.5, 16.0], [39.5, 20.0], [35.5, 20.0]],
        ),
        line(Role::Casing, 3.5, None, &[[6.0, 22.0], [40.0, 22.0]]),
        line(Role::Plate, 2.5, None, &[[6.0, 22.0], [40.0, 22.0]]),
        line(Role::Ok, 2.5, None, &[[80.0, 40.0], [80.0, 60.0]]),
        line(
            Role::Dimension,
            0.2,
            Some(Dash { on: 1.0, off: 0.6 }),
            &[[60.0, 26.0], [78.0, 26.0]],
        ),
        word(Role::Word, [4.0, 68.0], Anchor::Start, "left ventricle"),
        word(Role::Word, [94.0, 68.0], Anchor::End, "right ventricle"),
        word(Role::Beyond, [20.0, 30.0], Anchor::Middle, "1.8 mm past"),
    ]);
    Drawing {
        width: 100.0,
        height: 71.4,
        title: "Sample".to_owned(),
        alternative_text: "A device in a septum.".to_owned(),
        strokes,
    }
}
