//! Rulers, and what stands at the foot of a page.

use super::lettering::{HALF_CAPITAL, Lettered};
use super::panel::Panel;
use super::{LEADING, MARGIN, SMALL};
use crate::stroke::{Anchor, Dash, Ink, Path, PathStep, Role, Stroke};
use crate::{Part, Point, words};
use geometry::Mm;

/// What the pictures leave out.
const MODEL: &str = "Reduced model: discs untilted, tissue at rest and not moved by the device, \
    valves as flat plates with closed cusps. Each picture has the device where it comes nearest \
    to its limit.";

/// Letters at the foot, page mm.
const FINE: Mm = 2.2;

fn line(points: &[[Point; 2]], width: Mm) -> Stroke {
    let mut path = Path::default();
    for [from, to] in points {
        path.0.push(PathStep::Move(*from));
        path.0.push(PathStep::Line(*to));
    }
    Stroke {
        part: Part::Ruler,
        role: Role::Dimension,
        ink: Ink::Line {
            path,
            width,
            dash: None,
        },
    }
}

/// The level of the hinge from one field to the next.
pub(super) fn level(ends: [Point; 2]) -> Stroke {
    let mut stroke = line(&[ends], 0.15);
    if let Ink::Line { dash, .. } = &mut stroke.ink {
        *dash = Some(Dash { on: 0.3, off: 1.2 });
    }
    stroke
}

/// An upright ruler on the left of a panel, 0 at a level of the heart, millimetres
/// counted both ways; gives the heights of its numbers.
pub(super) fn ruler(strokes: &mut Vec<Stroke>, panel: &Panel, level: Mm) -> Vec<Mm> {
    let mut numbers = Vec::new();
    let window = *panel.window();
    let x = panel.field.least.x - 1.8;
    let height = |mm: f64| panel.at(Point::new(window.least.x, level + mm)).y;
    let (low, high) = (window.least.y - level, window.most.y - level);
    let mut lines = vec![[
        Point::new(x, height(low.ceil())),
        Point::new(x, height(high.floor())),
    ]];
    let mut mm = low.ceil();
    while mm <= high {
        let y = height(mm);
        let is_fifth = mm.rem_euclid(5.0) < 0.5;
        let tick = if is_fifth { 1.8 } else { 0.9 };
        lines.push([Point::new(x - tick, y), Point::new(x, y)]);
        if is_fifth {
            let unit = if mm == 0.0 { " mm" } else { "" };
            let text = format!("{:.0}{unit}", mm.abs());
            let words = Lettered::new(Part::Ruler, Role::Dimension, text, FINE);
            let at = Point::new(x - 2.5, y + HALF_CAPITAL * FINE);
            strokes.push(words.at(at, Anchor::End, false));
            numbers.push(y);
        }
        mm += 1.0;
    }
    strokes.push(line(&lines, 0.18));
    numbers
}

/// The ruler of a part of a page with everything else beside it: the scale on paper,
/// the legend, what the pictures leave out; gives the height below.
pub(super) fn beside_ruler(
    strokes: &mut Vec<Stroke>,
    width: Mm,
    scale: f64,
    legend: &str,
    y: Mm,
) -> Mm {
    let end = level_ruler(strokes, width, scale, y);
    let says = format!(
        "mm in the heart, {} : 1 on this sheet; 10 mm here are {} mm of paper. {legend} {MODEL}",
        words::short(scale),
        words::short(10.0 * scale)
    );
    let left = end + 4.0;
    let mut y = y + 1.0;
    for line in fine(&says).wrapped(width - MARGIN - left) {
        strokes.push(line.at(Point::new(left, y), Anchor::Start, false));
        y += FINE + 0.6;
    }
    y - FINE
}

/// The ruler of the print with what is printed beside it, and what the page was made
/// from; gives the height below.
pub(super) fn footing(
    strokes: &mut Vec<Stroke>,
    width: Mm,
    scale: f64,
    printed: &str,
    notes: &[&str],
    y: Mm,
) -> Mm {
    let y = y + LEADING;
    let end = level_ruler(strokes, width, scale, y);
    let words = Lettered::new(Part::Ruler, Role::Dimension, printed.to_owned(), FINE);
    let beside = Point::new(end + 3.0, y + 1.5);
    strokes.push(words.at(beside, Anchor::Start, false));
    let mut y = y + 9.0;
    for text in std::iter::once(MODEL).chain(notes.iter().copied()) {
        for line in fine(text).wrapped(width - 2.0 * MARGIN) {
            strokes.push(line.at(Point::new(MARGIN, y), Anchor::Start, false));
            y += SMALL + 0.6;
        }
    }
    y - SMALL
}

/// A level ruler from the margin on, a scale to the millimetre; gives its right end.
fn level_ruler(strokes: &mut Vec<Stroke>, width: Mm, scale: f64, y: Mm) -> Mm {
    // As many tens of millimetres as a third of the page holds.
    let tens = (width / 3.0 / (10.0 * scale)).floor().clamp(1.0, 3.0);
    let at = |mm: f64| MARGIN + scale * mm;
    let mut lines = vec![[Point::new(at(0.0), y), Point::new(at(10.0 * tens), y)]];
    let mut mm = 0.0;
    while mm <= 10.0 * tens {
        let is_fifth = mm.rem_euclid(5.0) < 0.5;
        let tick = if is_fifth { 1.8 } else { 0.9 };
        lines.push([Point::new(at(mm), y), Point::new(at(mm), y + tick)]);
        if is_fifth {
            let words = Lettered::new(Part::Ruler, Role::Dimension, format!("{mm:.0}"), FINE);
            let place = Point::new(at(mm), y + tick + 2.4);
            strokes.push(words.at(place, Anchor::Middle, false));
        }
        mm += 1.0;
    }
    strokes.push(line(&lines, 0.2));
    at(10.0 * tens)
}

fn fine(text: &str) -> Lettered {
    Lettered::new(Part::Caption, Role::Dimension, text.to_owned(), FINE)
}
