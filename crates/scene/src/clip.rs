use crate::Point;
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
    fn all_or_nothing_where_the_line_misses() {
        assert_eq!(behind(&SQUARE, |_| 1.0), SQUARE);
        assert!(behind(&SQUARE, |_| -1.0).is_empty());
        assert!(behind(&[], |_| 1.0).is_empty());
    }
}
