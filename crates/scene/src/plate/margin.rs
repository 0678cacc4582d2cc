use super::lettering::{HALF_CAPITAL, Lettered};
use super::panel::circle;
use crate::stroke::{Anchor, Ink, Path, Role, Stroke};
use crate::{Extent, Part, Point};
use geometry::Mm;

/// Letters of names, and from line to line of a column, page mm.
const SIZE: Mm = 2.5;
const LEADING: Mm = 3.2;

/// From the field to the names, page mm.
const AWAY: Mm = 4.0;

/// How near a leader comes to the middle of a ruler's number, page mm.
const HALF_NUMBER: Mm = 1.5;

/// A name in the margin of a field.
#[derive(Clone, Debug)]
pub(super) struct Name {
    /// What it means, on the page.
    pub(super) at: Point,
    /// One line or two.
    pub(super) text: String,
    /// The role of its words.
    pub(super) role: Role,
    /// Whether a line leads from the name to the point.
    pub(super) has_leader: bool,
}

impl Name {
    pub(super) const fn of(at: Point, text: String) -> Self {
        Self {
            at,
            text,
            role: Role::Word,
            has_leader: true,
        }
    }
}

/// What lies beside a field.
#[derive(Clone, Debug)]
pub(super) struct Margin {
    pub(super) field: Extent,
    /// The x that parts the names of the left column from those of the right.
    pub(super) middle: Mm,
    /// How far on the page words may run to the left and to the right.
    pub(super) ends: [Mm; 2],
    /// What a ruler takes on the left.
    pub(super) ruler: Mm,
    /// The heights of its numbers, through which no leader runs.
    pub(super) numbers: Vec<Mm>,
}

impl Margin {
    /// Sets names in two columns sorted by height, each with a leader and a dot. Names
    /// for which a column has no room are left out, the last ones first.
    pub(super) fn letter(&self, names: Vec<Name>, strokes: &mut Vec<Stroke>) {
        let Extent { least, most } = self.field;
        // What lies outside the field is not pointed at.
        let is_seen = |name: &Name| {
            (least.x..=most.x).contains(&name.at.x) && (least.y..=most.y).contains(&name.at.y)
        };
        let (left, right): (Vec<Name>, Vec<Name>) = names
            .into_iter()
            .filter(is_seen)
            .partition(|name| name.at.x < self.middle);
        let columns = [
            (left, least.x - AWAY - self.ruler, least.x, Anchor::End),
            (right, most.x + AWAY, most.x, Anchor::Start),
        ];
        for (mut names, x, edge, anchor) in columns {
            let room = match anchor {
                Anchor::End => x - self.ends[0],
                _ => self.ends[1] - x,
            };
            names.retain(|name| lines(name).all(|line| line.width() <= room));
            let room = most.y - least.y;
            while names.iter().map(height).sum::<Mm>() > room {
                names.pop();
            }
            names.sort_by(|one, other| one.at.y.total_cmp(&other.at.y));
            let numbers: &[Mm] = match anchor {
                Anchor::End => &self.numbers,
                _ => &[],
            };
            let heights = self.spread(&names, numbers);
            for (name, y) in names.iter().zip(heights) {
                if name.has_leader
                    && numbers
                        .iter()
                        .any(|number| (number - y).abs() < HALF_NUMBER)
                {
                    continue;
                }
                if name.has_leader {
                    leader(name, Point::new(x, y), edge, strokes);
                }
                let mut y = y + HALF_CAPITAL * SIZE;
                for line in lines(name) {
                    strokes.push(line.at(Point::new(x, y), anchor, false));
                    y += LEADING;
                }
            }
        }
    }

    /// Heights for sorted names, each near its point, none nearer to another than a
    /// line, nor at the height of a number.
    fn spread(&self, names: &[Name], numbers: &[Mm]) -> Vec<Mm> {
        let mut least = self.field.least.y;
        let mut heights = Vec::new();
        for name in names {
            let mut at = name.at.y.max(least);
            for number in numbers {
                if (number - at).abs() < HALF_NUMBER {
                    at = number + HALF_NUMBER;
                }
            }
            heights.push(at);
            least = at + height(name);
        }
        // What was pushed out below moves up again, and pushes in its turn.
        let mut most = self.field.most.y;
        for (at, name) in heights.iter_mut().zip(names).rev() {
            *at = at.min(most - height(name));
            most = *at;
        }
        heights
    }
}

/// The lines of a name.
fn lines(name: &Name) -> impl Iterator<Item = Lettered> {
    name.text.lines().map(|line| {
        let words = Lettered::new(Part::Caption, name.role, line.to_owned(), SIZE);
        // A number is a key number, a name is not.
        if name.role == Role::Word {
            words
        } else {
            words.bold()
        }
    })
}

/// The height that a name takes.
fn height(name: &Name) -> Mm {
    name.text.lines().map(|_| LEADING).sum()
}

/// A line from a name level to the edge of the field, and on to what it means.
fn leader(name: &Name, at: Point, edge: Mm, strokes: &mut Vec<Stroke>) {
    let inward = if at.x < edge { 1.0 } else { -1.0 };
    let start = Point::new(at.x + inward * 0.8, at.y);
    let stub = Point::new(edge - inward * 0.8, at.y);
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
