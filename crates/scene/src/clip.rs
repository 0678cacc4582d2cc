use crate::{Extent, Point};
use geometry::Mm;

/// What of a filled outline lies on one side of a straight line: `depth` is the
/// distance behind the line, negative before it. Of a convex outline the result
/// is exact; empty where nothing lies behind.
///
/// Sutherland and Hodgman, Communications of the ACM 17 (1974) 32–42, for one
/// line (from memory).
pub(crate) fn behind(outline: &[Point], depth: impl Fn(Point) -> Mm) -> Vec<Point> {
    let mut kept = Vec::new();
    for (index, &point) in outline.iter().enumerate() {
        let next = outline[(index + 1) % outline.len()];
        let (here, there) = (depth(point), depth(next));
        if here >= 0.0 {
            kept.push(point);
        }
        if (here < 0.0) != (there < 0.0) {
            let share = here / (here - there);
            kept.push(Point::new(
                point.x + share * (next.x - point.x),
                point.y + share * (next.y - point.y),
            ));
        }
    }
    kept
}

/// What of a stretch of line lies in an upright rectangle; `None` where nothing
/// does.
///
/// Liang and Barsky, ACM Transactions on Graphics 3 (1984) 1–22 (from memory).
pub(crate) fn segment_in(field: &Extent, [start, end]: [Point; 2]) -> Option<[Point; 2]> {
    within(
        [start, end],
        [
            (start.x - field.least.x, end.x - field.least.x),
            (field.most.x - start.x, field.most.x - end.x),
            (start.y - field.least.y, end.y - field.least.y),
            (field.most.y - start.y, field.most.y - end.y),
        ],
    )
}

/// What of a stretch of line lies in a convex outline, whichever way round it
/// runs; `None` where nothing does.
pub(crate) fn segment_in_convex(outline: &[Point], [start, end]: [Point; 2]) -> Option<[Point; 2]> {
    let turn = area(outline).signum();
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    within(
        [start, end],
        edges.map(|(a, b)| {
            let inward = |point: Point| {
                turn * ((b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x))
            };
            (inward(start), inward(end))
        }),
    )
}

/// Twice the area of an outline, positive where it turns from x toward y.
fn area(outline: &[Point]) -> f64 {
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    edges.map(|(a, b)| a.x * b.y - a.y * b.x).sum()
}

/// What is left of a stretch of line by borders, each given by how far its start
/// and its end lie inside.
fn within(
    [start, end]: [Point; 2],
    borders: impl IntoIterator<Item = (f64, f64)>,
) -> Option<[Point; 2]> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (at_start, at_end) in borders {
        if at_start < 0.0 && at_end < 0.0 {
            return None;
        }
        if at_start < 0.0 {
            from = from.max(at_start / (at_start - at_end));
        } else if at_end < 0.0 {
            to = to.min(at_start / (at_start - at_end));
        }
    }
    if from > to {
        return None;
    }
    let at = |share: f64| {
        Point::new(
            start.x + share * (end.x - start.x),
            start.y + share * (end.y - start.y),
        )
    };
    Some([
        if from == 0.0 { start } else { at(from) },
        if to == 1.0 { end } else { at(to) },
    ])
}

/// Whether a point lies inside a closed outline, convex or not.
pub(crate) fn is_inside(outline: &[Point], point: Point) -> bool {
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    edges
        .filter(|(a, b)| {
            (a.y > point.y) != (b.y > point.y)
                && point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)
        })
        .count()
        % 2
        == 1
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Point; 4] = [
        Point::new(0.0, 0.0),
        Point::new(2.0, 0.0),
        Point::new(2.0, 2.0),
        Point::new(0.0, 2.0),
    ];

    #[test]
    fn a_line_cuts_a_square_in_two() {
        let right = behind(&SQUARE, |point| point.x - 1.5);
        assert_eq!(
            right,
            [
                Point::new(1.5, 0.0),
                Point::new(2.0, 0.0),
                Point::new(2.0, 2.0),
                Point::new(1.5, 2.0),
            ]
        );
    }

    #[test]
    fn a_stretch_is_cut_at_the_border() {
        let field = Extent {
            least: Point::new(0.0, 0.0),
            most: Point::new(2.0, 2.0),
        };
        let across = [Point::new(-1.0, 1.0), Point::new(1.0, 1.0)];
        let kept = Some([Point::new(0.0, 1.0), Point::new(1.0, 1.0)]);
        assert_eq!(segment_in(&field, across), kept);
        assert_eq!(segment_in_convex(&SQUARE, across), kept);
        let turned: Vec<Point> = SQUARE.iter().rev().copied().collect();
        assert_eq!(segment_in_convex(&turned, across), kept);
        let beside = [Point::new(-1.0, 3.0), Point::new(1.0, 3.0)];
        assert_eq!(segment_in(&field, beside), None);
        let past_a_corner = [Point::new(-1.0, 0.5), Point::new(0.5, -1.0)];
        assert_eq!(segment_in(&field, past_a_corner), None);
        assert!(is_inside(&SQUARE, Point::new(1.0, 1.0)));
        assert!(!is_inside(&SQUARE, Point::new(3.0, 1.0)));
    }

    #[test]
    fn all_or_nothing_where_the_line_misses() {
        assert_eq!(behind(&SQUARE, |_| 1.0), SQUARE);
        assert!(behind(&SQUARE, |_| -1.0).is_empty());
        assert!(behind(&[], |_| 1.0).is_empty());
    }
}
