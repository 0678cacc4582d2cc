use crate::Point;

/// A path of straight lines and cubic Bézier curves, in page millimetres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path(pub Vec<PathStep>);

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PathStep {
    /// Begins a new piece at a point.
    Move(Point),
    /// A straight line to a point.
    Line(Point),
    /// A cubic curve by two control points to a point.
    Cubic(Point, Point, Point),
    /// A straight line back to where the piece began.
    Close,
}

impl Path {
    /// A path straight from point to point; empty without points.
    pub fn polyline(points: impl IntoIterator<Item = Point>) -> Self {
        let steps = points.into_iter().enumerate();
        Self(
            steps
                .map(|(index, point)| match index {
                    0 => PathStep::Move(point),
                    _ => PathStep::Line(point),
                })
                .collect(),
        )
    }

    /// The same, closed.
    pub fn polygon(points: impl IntoIterator<Item = Point>) -> Self {
        let mut path = Self::polyline(points);
        if !path.0.is_empty() {
            path.0.push(PathStep::Close);
        }
        path
    }

    /// Every point that its steps name, control points too.
    pub(super) fn points_mut(&mut self) -> impl Iterator<Item = &mut Point> {
        self.0.iter_mut().flat_map(|step| {
            let points: [Option<&mut Point>; 3] = match step {
                PathStep::Move(to) | PathStep::Line(to) => [Some(to), None, None],
                PathStep::Cubic(first, second, to) => [Some(first), Some(second), Some(to)],
                PathStep::Close => [None, None, None],
            };
            points.into_iter().flatten()
        })
    }
}
