use super::lettering::{HALF_CAPITAL, Lettered};
use super::panel::circle;
use crate::stroke::{Anchor, Ink, Path, Role, Stroke};
use crate::{Extent, Part, Point};
use geometry::Mm;

/// Letters of names, and from line to line of a column, page mm.
const SIZE: Mm = 2.5;
const LEADING: Mm = 3.2;

/// From the field to the names, and how much of that is a level stub, page mm.
const AWAY: Mm = 4.0;
const STUB: Mm = 1.5;

/// A name in the margin of a field.
#[derive(Clone, Debug)]
pub(super) struct Name {
    /// What it means, on the page.
    pub(super) at: Point,
    /// One line or two.
    pub(super) text: String,
    /// Whether a line leads from the name to the point.
    pub(super) has_leader: bool,
}

impl Name {
    pub(super) const fn of(at: Point, text: String) -> Self {
        Self {
            at,
            text,
            has_leader: true,
        }
    }
}

/// Names in two columns beside a field, sorted by height, each with a leader and a
/// dot. A name for which the column has no room between `least` and `most` of the
/// page is left out.
pub(super) fn margins(
    names: Vec<Name>,
    field: &Extent,
    [least, most]: [Mm; 2],
    strokes: &mut Vec<Stroke>,
) {
    let middle = 0.5 * (field.least.x + field.most.x);
    let (left, right): (Vec<Name>, Vec<Name>) =
        names.into_iter().partition(|name| name.at.x < middle);
    let columns = [
        (left, field.least.x - AWAY, -1.0, Anchor::End),
        (right, field.most.x + AWAY, 1.0, Anchor::Start),
    ];
    for (mut names, x, side, anchor) in columns {
        let room = if side < 0.0 { x - least } else { most - x };
        names.retain(|name| lines(name).all(|line| line.width() <= room));
        names.sort_by(|one, other| one.at.y.total_cmp(&other.at.y));
        let heights = spread(&names, field);
        for (name, y) in names.iter().zip(heights) {
            if name.has_leader {
                leader(name, Point::new(x, y), side, strokes);
            }
            let mut y = y + HALF_CAPITAL * SIZE;
            for line in lines(name) {
                strokes.push(line.at(Point::new(x, y), anchor, false));
                y += LEADING;
            }
        }
    }
}

/// The lines of a name.
fn lines(name: &Name) -> impl Iterator<Item = Lettered> {
    name.text
        .lines()
        .map(|line| Lettered::new(Part::Caption, Role::Word, line.to_owned(), SIZE))
}

/// The height that a name takes.
fn height(name: &Name) -> Mm {
    name.text.lines().map(|_| LEADING).sum()
}

/// Heights for sorted names, each near its point, none nearer to another than a
/// line.
fn spread(names: &[Name], field: &Extent) -> Vec<Mm> {
    let mut heights: Vec<Mm> = names.iter().map(|name| name.at.y).collect();
    for index in 1..heights.len() {
        heights[index] = heights[index].max(heights[index - 1] + height(&names[index - 1]));
    }
    // What was pushed out below moves up again, and pushes in its turn.
    let mut most = field.most.y;
    for (at, name) in heights.iter_mut().zip(names).rev() {
        *at = at.min(most - height(name));
        most = *at;
    }
    heights
}

fn leader(name: &Name, at: Point, side: f64, strokes: &mut Vec<Stroke>) {
    let start = Point::new(at.x - side * 0.8, at.y);
    let stub = Point::new(start.x - side * STUB, at.y);
    let role = Role::Dimension;
    strokes.push(Stroke {
        part: Part::Caption,
        role,
        ink: Ink::Line {
            path: Path::polyline([start, stub, name.at]),
            width: 0.15,
            dash: None,
        },
    });
    strokes.push(Stroke {
        part: Part::Caption,
        role,
        ink: Ink::Fill(circle(name.at, 0.4)),
    });
}
