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

/// The ruler of the print and what the page was made from; gives the height below.
pub(super) fn footing(
    strokes: &mut Vec<Stroke>,
    width: Mm,
    scale: f64,
    notes: &[&str],
    y: Mm,
) -> Mm {
    // As many tens of millimetres as a third of the page holds.
    let tens = (width / 3.0 / (10.0 * scale)).floor().clamp(1.0, 3.0);
    let y = y + LEADING;
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
    let printed = format!(
        "mm; {} : 1 where the page is printed {width:.0} mm wide",
        words::short(scale)
    );
    let words = Lettered::new(Part::Ruler, Role::Dimension, printed, FINE);
    let beside = Point::new(at(10.0 * tens) + 3.0, y + 1.5);
    strokes.push(words.at(beside, Anchor::Start, false));
    let mut y = y + 9.0;
    for text in std::iter::once(MODEL).chain(notes.iter().copied()) {
        for line in wrapped(text, width - 2.0 * MARGIN) {
            strokes.push(line.at(Point::new(MARGIN, y), Anchor::Start, false));
            y += SMALL + 0.6;
        }
    }
    y - SMALL
}

/// Words on as many lines as they need; a word longer than a line is cut.
fn wrapped(text: &str, width: Mm) -> Vec<Lettered> {
    let line = |text: &str| Lettered::new(Part::Caption, Role::Dimension, text.to_owned(), FINE);
    let mut lines = vec![line("")];
    for word in text.split_whitespace() {
        let longer = match lines.last() {
            Some(last) if !last.text.is_empty() => line(&format!("{} {word}", last.text)),
            _ => line(word),
        };
        let is_first = lines.last().is_none_or(|last| last.text.is_empty());
        if is_first || longer.width() <= width {
            lines.pop();
            lines.push(longer);
        } else {
            lines.push(line(word));
        }
    }
    lines.into_iter().map(|line| line.fitted(width)).collect()
}
