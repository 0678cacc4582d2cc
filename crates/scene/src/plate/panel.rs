use crate::clip::{behind, segment_in};
use crate::stroke::{Dash, Ink, Path, PathStep, Role, Stroke};
use crate::{Extent, Part, Point};
use geometry::Mm;

/// A field of the page that shows a window of the heart at one scale.
///
/// The window is in millimetres of the heart, y upward; the page's y runs
/// downward. What is drawn into the panel is clipped to its field.
#[derive(Clone, Debug)]
pub(super) struct Panel {
    /// The field on the page: `least` is its upper left corner.
    pub(super) field: Extent,
    window: Extent,
    scale: f64,
    is_mirrored: bool,
    pub(super) strokes: Vec<Stroke>,
}

/// How a line is drawn, page mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pen {
    pub(super) part: Part,
    pub(super) role: Role,
    pub(super) width: Mm,
    pub(super) dash: Option<Dash>,
}

impl Pen {
    pub(super) const fn solid(part: Part, role: Role, width: Mm) -> Self {
        Self {
            part,
            role,
            width,
            dash: None,
        }
    }

    pub(super) const fn dashed(part: Part, role: Role, width: Mm, on: Mm, off: Mm) -> Self {
        Self {
            part,
            role,
            width,
            dash: Some(Dash { on, off }),
        }
    }
}

impl Pen {
    /// The same, dashed where what it draws was not measured.
    pub(super) const fn dashed_unless(mut self, is_measured: bool, on: Mm, off: Mm) -> Self {
        if !is_measured {
            self.dash = Some(Dash { on, off });
        }
        self
    }
}

impl Panel {
    /// A panel whose field has its upper left corner at `corner`; mirrored, the
    /// window's left side lies on the right.
    pub(super) fn new(corner: Point, window: Extent, scale: f64, is_mirrored: bool) -> Self {
        let most = Point::new(
            corner.x + scale * window.width(),
            corner.y + scale * window.height(),
        );
        Self {
            field: Extent {
                least: corner,
                most,
            },
            window,
            scale,
            is_mirrored,
            strokes: Vec::new(),
        }
    }

    /// Page millimetres in a millimetre of the heart.
    pub(super) const fn scale(&self) -> f64 {
        self.scale
    }

    /// What of the heart it shows.
    pub(super) const fn window(&self) -> &Extent {
        &self.window
    }

    /// A point of the heart on the page.
    pub(super) fn at(&self, point: Point) -> Point {
        let across = if self.is_mirrored {
            self.window.most.x - point.x
        } else {
            point.x - self.window.least.x
        };
        Point::new(
            self.field.least.x + self.scale * across,
            self.field.least.y + self.scale * (self.window.most.y - point.y),
        )
    }

    /// Whether a side of the heart that lies toward greater x is drawn toward
    /// greater x of the page.
    pub(super) const fn rightward(&self) -> f64 {
        if self.is_mirrored { -1.0 } else { 1.0 }
    }

    /// A filled outline of the heart.
    pub(super) fn fill(&mut self, part: Part, role: Role, outline: &[Point]) {
        let page = outline.iter().map(|&point| self.at(point)).collect();
        self.fill_page(part, role, page);
    }

    fn fill_page(&mut self, part: Part, role: Role, outline: Vec<Point>) {
        let Extent { least, most } = self.field;
        let mut kept = outline;
        kept = behind(&kept, |point| point.x - least.x);
        kept = behind(&kept, |point| most.x - point.x);
        kept = behind(&kept, |point| point.y - least.y);
        kept = behind(&kept, |point| most.y - point.y);
        if kept.len() > 2 {
            self.strokes.push(Stroke {
                part,
                role,
                ink: Ink::Fill(Path::polygon(kept)),
            });
        }
    }

    /// A line through points of the heart.
    pub(super) fn line(&mut self, pen: Pen, points: &[Point]) {
        self.lines(pen, &[points]);
    }

    /// Several lines through points of the heart as one stroke.
    pub(super) fn lines<L: AsRef<[Point]>>(&mut self, pen: Pen, lines: &[L]) {
        let mut path = Path::default();
        let mut end = None;
        for line in lines {
            let page: Vec<Point> = line.as_ref().iter().map(|&point| self.at(point)).collect();
            end = self.trace(&mut path, &page, end);
        }
        self.push_line(pen, path);
    }

    /// A closed line through points of the heart.
    pub(super) fn outline(&mut self, pen: Pen, points: &[Point]) {
        let closed: Vec<Point> = points.iter().chain(points.first()).copied().collect();
        self.line(pen, &closed);
    }

    /// Appends what the field holds of a line on the page, as one piece with what ended
    /// at `last` where it begins there; gives where it ends.
    fn trace(&self, path: &mut Path, page: &[Point], mut last: Option<Point>) -> Option<Point> {
        for pair in page.windows(2) {
            let Some([start, end]) = segment_in(&self.field, [pair[0], pair[1]]) else {
                last = None;
                continue;
            };
            if last != Some(start) {
                path.0.push(PathStep::Move(start));
            }
            path.0.push(PathStep::Line(end));
            last = Some(end);
        }
        last
    }

    fn push_line(&mut self, pen: Pen, path: Path) {
        if !path.0.is_empty() {
            self.strokes.push(Stroke {
                part: pen.part,
                role: pen.role,
                ink: Ink::Line {
                    path,
                    width: pen.width,
                    dash: pen.dash,
                },
            });
        }
    }

    /// A filled circle of a radius on the page round a point of the heart; nothing
    /// where the point lies outside the field.
    pub(super) fn dot(&mut self, part: Part, role: Role, centre: Point, radius: Mm) {
        let centre = self.at(centre);
        if self.holds(centre) {
            let ink = Ink::Fill(circle(centre, radius));
            self.strokes.push(Stroke { part, role, ink });
        }
    }

    /// Whether a point of the page lies in the field.
    pub(super) const fn holds(&self, point: Point) -> bool {
        let Extent { least, most } = self.field;
        point.x >= least.x && point.x <= most.x && point.y >= least.y && point.y <= most.y
    }
}

/// Half a tick across the end of a dimension, page mm.
pub(super) const TICK: Mm = 0.75;

/// A dimension line with a tick across each end, as one stroke: its first stretch is
/// the length itself.
pub(super) fn dimension(panel: &mut Panel, pen: Pen, tick: Mm, [from, to]: [Point; 2]) {
    let length = from.distance(to);
    let mut lines = vec![[from, to]];
    if length > 0.0 && tick > 0.0 {
        let half = tick / panel.scale() / length;
        let across = Point::new(half * (from.y - to.y), half * (to.x - from.x));
        lines.extend([from, to].map(|end| {
            [-1.0, 1.0].map(|side| Point::new(end.x + side * across.x, end.y + side * across.y))
        }));
    }
    panel.lines(pen, &lines);
}

/// A circle as four cubic curves, true within 0.03 % of its radius.
pub(super) fn circle(centre: Point, radius: Mm) -> Path {
    // 4/3 (√2 − 1): the curve meets the circle at its middle.
    const HANDLE: f64 = 0.552_284_749_830_793_4;
    const QUARTERS: [(f64, f64); 5] =
        [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)];
    let point = |x: f64, y: f64| Point::new(centre.x + radius * x, centre.y + radius * y);
    let mut steps = vec![PathStep::Move(point(1.0, 0.0))];
    for pair in QUARTERS.windows(2) {
        let ((x, y), (to_x, to_y)) = (pair[0], pair[1]);
        steps.push(PathStep::Cubic(
            point(x + HANDLE * to_x, y + HANDLE * to_y),
            point(to_x + HANDLE * x, to_y + HANDLE * y),
            point(to_x, to_y),
        ));
    }
    steps.push(PathStep::Close);
    Path(steps)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn window() -> Extent {
        Extent {
            least: Point::new(-2.0, -3.0),
            most: Point::new(4.0, 5.0),
        }
    }

    #[test]
    fn up_is_up_and_a_mirror_swaps_the_sides() {
        let corner = Point::new(10.0, 20.0);
        let straight = Panel::new(corner, window(), 5.0, false);
        let mirrored = Panel::new(corner, window(), 5.0, true);
        assert_eq!(straight.at(Point::new(-2.0, 5.0)), corner);
        assert_eq!(mirrored.at(Point::new(4.0, 5.0)), corner);
        assert_eq!(straight.field.most, Point::new(40.0, 60.0));
        assert_eq!(mirrored.at(Point::new(-2.0, -3.0)), Point::new(40.0, 60.0));
    }

    proptest! {
        #[test]
        fn nothing_is_drawn_outside_the_field(
            points in prop::collection::vec((-9.0..9.0_f64, -9.0..9.0_f64), 3..12),
        ) {
            let mut panel = Panel::new(Point::new(1.0, 1.0), window(), 3.0, true);
            let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            panel.fill(Part::Wall, Role::Muscle, &points);
            panel.line(Pen::solid(Part::Wall, Role::Outline, 0.1), &points);
            let field = panel.field.grown(1e-9);
            for stroke in &panel.strokes {
                let (Ink::Fill(path) | Ink::Line { path, .. }) = &stroke.ink else {
                    continue;
                };
                for step in &path.0 {
                    if let PathStep::Move(point) | PathStep::Line(point) = step {
                        prop_assert!(point.x >= field.least.x && point.x <= field.most.x);
                        prop_assert!(point.y >= field.least.y && point.y <= field.most.y);
                    }
                }
            }
        }
    }
}
