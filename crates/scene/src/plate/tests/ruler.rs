//! A ruler laid on strokes.

use crate::plate::lettering::{corners, stretches};
use crate::plate::panel::Panel;
use crate::stroke::{Ink, Role, Stroke};
use crate::{Extent, Part, Point};
use geometry::Mm;

/// The strokes of a panel, measured in millimetres of the heart: y upward, the left
/// ventricle on the left.
pub(super) struct Ruler {
    strokes: Vec<Stroke>,
    origin: Point,
    scale: f64,
    side: f64,
}

impl Ruler {
    pub(super) fn on(panel: Panel) -> Self {
        Self {
            origin: panel.at(Point::new(0.0, 0.0)),
            scale: panel.scale(),
            side: panel.rightward(),
            strokes: panel.strokes,
        }
    }

    fn heart(&self, page: Point) -> Point {
        Point::new(
            self.side * (page.x - self.origin.x) / self.scale,
            (self.origin.y - page.y) / self.scale,
        )
    }

    fn solid_lines(&self, part: Part) -> impl Iterator<Item = Vec<[Point; 2]>> {
        self.strokes
            .iter()
            .filter(move |stroke| stroke.part == part && stroke.role != Role::Casing)
            .filter_map(|stroke| match &stroke.ink {
                Ink::Line {
                    path, dash: None, ..
                } => Some(
                    stretches(path)
                        .into_iter()
                        .map(|ends| ends.map(|end| self.heart(end)))
                        .collect(),
                ),
                _ => None,
            })
    }

    /// The first stretch of each solid line of a part: of a dimension its length.
    pub(super) fn lines(&self, part: Part) -> Vec<[Point; 2]> {
        self.solid_lines(part)
            .filter_map(|line| line.first().copied())
            .collect()
    }

    /// The outline of the first fill of a part.
    pub(super) fn outline(&self, part: Part) -> Vec<Point> {
        let fill = |stroke: &Stroke| match &stroke.ink {
            Ink::Fill(path) if stroke.part == part => Some(corners(path)),
            _ => None,
        };
        let page = self.strokes.iter().find_map(fill).unwrap_or_default();
        page.into_iter().map(|point| self.heart(point)).collect()
    }

    /// The middle of the first dot of a part.
    pub(super) fn dot(&self, part: Part) -> Option<Point> {
        let extent = Extent::of(self.outline(part))?;
        Some(extent.least.midpoint(extent.most))
    }

    /// The points of what is drawn from habit.
    pub(super) fn habit(&self, part: Part) -> Vec<Point> {
        self.strokes
            .iter()
            .filter(|stroke| stroke.part == part && stroke.role == Role::Schematic)
            .filter_map(|stroke| match &stroke.ink {
                Ink::Line { path, .. } => Some(corners(path)),
                _ => None,
            })
            .flatten()
            .map(|point| self.heart(point))
            .collect()
    }

    /// The height of the upper edge of the defect at an x, by the straight part of
    /// its crest.
    pub(super) fn upper_edge_at(&self, x: Mm) -> Mm {
        let straight = |line: Vec<[Point; 2]>| {
            let length = |ends: &[Point; 2]| ends[0].distance(ends[1]);
            line.into_iter()
                .max_by(|one, other| length(one).total_cmp(&length(other)))
        };
        self.solid_lines(Part::HoleEdge)
            .filter_map(straight)
            .map(|[a, b]| a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y))
            .fold(f64::MIN, f64::max)
    }
}

/// How far from a point an outline reaches toward another.
pub(super) fn beyond(outline: &[Point], from: Point, toward: Point) -> Mm {
    let length = from.distance(toward);
    let (x, y) = ((toward.x - from.x) / length, (toward.y - from.y) / length);
    let place = |point: Point| {
        let (right, up) = (point.x - from.x, point.y - from.y);
        (right * x + up * y, right * y - up * x)
    };
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    edges
        .filter_map(|(&a, &b)| {
            let ((along_a, aside_a), (along_b, aside_b)) = (place(a), place(b));
            ((aside_a < 0.0) != (aside_b < 0.0))
                .then(|| along_a + (along_b - along_a) * aside_a / (aside_a - aside_b))
        })
        .fold(f64::NEG_INFINITY, f64::max)
}

/// The distance of a point from a stretch of line.
fn from_stretch(point: Point, [start, end]: [Point; 2]) -> Mm {
    let (x, y) = (end.x - start.x, end.y - start.y);
    let along = ((point.x - start.x) * x + (point.y - start.y) * y) / (x * x + y * y);
    let along = along.clamp(0.0, 1.0);
    point.distance(Point::new(start.x + along * x, start.y + along * y))
}

/// The clearance as a ruler would find it on the picture, from the outline of the
/// disc and the line of the plate; `None` where the disc touches the plate's end.
pub(crate) fn ruled(
    outline: &[Point],
    [foot, tip]: [Point; 2],
    thickness: Mm,
    sag: Mm,
) -> Option<Mm> {
    if outline.is_empty() {
        return None;
    }
    // Draw the disc back along the wall until its core just meets the plate.
    let highest = outline.iter().fold(
        outline[0],
        |best, one| {
            if one.y > best.y { *one } else { best }
        },
    );
    let share = (highest.x - foot.x) / (tip.x - foot.x);
    if share <= 1.0 {
        let plate = foot.y + share * (tip.y - foot.y);
        if highest.y - 0.5 * thickness >= plate {
            return Some(plate - highest.y - sag);
        }
    }
    // Else the distance, below 0 where only the disc's roundness is in the plate.
    let length = foot.distance(tip);
    let along = Point::new((tip.x - foot.x) / length, (tip.y - foot.y) / length);
    let below = |point: Point| {
        let square = (point.x - foot.x) * along.y - (point.y - foot.y) * along.x;
        if along.x < 0.0 { -square } else { square }
    };
    let nearest = |best: Point, one: &Point| {
        if below(*one) < below(best) {
            *one
        } else {
            best
        }
    };
    let nearest = outline.iter().fold(outline[0], nearest);
    let place = (nearest.x - foot.x) * along.x + (nearest.y - foot.y) * along.y;
    if (0.0..=length).contains(&place) {
        return Some(below(nearest) - sag);
    }
    let closing = outline.iter().skip(1).chain(outline.first());
    let from_corner = outline
        .iter()
        .zip(closing)
        .flat_map(|(&a, &b)| [from_stretch(foot, [a, b]), from_stretch(tip, [a, b])]);
    let from_plate = outline
        .iter()
        .map(|&point| from_stretch(point, [foot, tip]));
    let apart = from_plate.chain(from_corner).fold(f64::INFINITY, f64::min);
    (apart > super::CLOSE).then_some(apart - sag)
}
