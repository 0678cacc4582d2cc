//! A scene painted in dots: two across and four down in each cell.

use super::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Context, Line, Points};
use scene::layout::{Grid, place};
use scene::{Extent, Figure, Form, Importance, Part, Point, Scene};

/// How many millimetres a column is wide. A row is twice as high as a column is
/// wide, so that circles stay round.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(super) struct Scale(pub(super) f64);

/// How many times as high as wide a cell is.
const CELL: f64 = 2.0;

/// From this scale on only lengths and orientation are written: names would hide
/// what they name.
const WORDY: Scale = Scale(0.55);

impl Scale {
    /// The coarsest scale at which a picture still tells anything.
    pub(super) const COARSEST: Self = Self(1.2);

    /// The largest scale at which a picture of these bounds fits an area.
    pub(super) fn fitting(bounds: &Extent, area: Rect) -> Self {
        let across = bounds.width() / f64::from(area.width.max(1));
        let down = bounds.height() / (CELL * f64::from(area.height.max(1)));
        Self(across.max(down))
    }

    /// The coarser of two.
    pub(super) fn coarser(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// What of a picture an area shows about a centre.
    fn window(self, centre: Point, area: Rect) -> Extent {
        let half_width = 0.5 * self.0 * f64::from(area.width);
        let half_height = 0.5 * CELL * self.0 * f64::from(area.height);
        Extent {
            least: Point::new(centre.x - half_width, centre.y - half_height),
            most: Point::new(centre.x + half_width, centre.y + half_height),
        }
    }
}

/// Paints a scene into an area, at a scale, about the centre of `bounds`: the
/// same bounds and scale for every bay put their hinges on one level.
pub(super) fn paint(
    scene: &Scene,
    bounds: &Extent,
    scale: Scale,
    theme: Theme,
    area: Rect,
    buffer: &mut Buffer,
) {
    if area.is_empty() || scale.0 <= 0.0 {
        return;
    }
    let window = scale.window(bounds.least.midpoint(bounds.most), area);
    Canvas::default()
        .marker(theme.marker())
        .x_bounds([window.least.x, window.most.x])
        .y_bounds([window.least.y, window.most.y])
        .paint(|context| figures(context, scene, scale, theme))
        .render(area, buffer);
    words(scene, window, scale, theme, area, buffer);
}

fn figures(context: &mut Context, scene: &Scene, scale: Scale, theme: Theme) {
    let dot = 0.5 * scale.0;
    for figure in &scene.figures {
        let colour = theme.part(figure.part).fg.unwrap_or_default();
        let mut stroke = |points: &[Point], dash: Dash| {
            for [from, to] in dashes(points, dash, dot) {
                context.draw(&Line::new(from.x, from.y, to.x, to.y, colour));
            }
        };
        match &figure.form {
            Form::Line(points) => stroke(points, Dash::of(figure.part)),
            Form::Area(points) => {
                let mut outline = points.clone();
                outline.extend(points.first().copied());
                stroke(&outline, Dash::of(figure.part));
                let filling = filling(figure.part, points, dot);
                context.draw(&Points::new(&filling, colour));
            }
            Form::Mark(point) => {
                context.draw(&Points::new(&[(point.x, point.y)], colour));
            }
            Form::Measure { from, to, .. } => stroke(&[*from, *to], Dash::Dotted),
            // Written, not painted.
            Form::Text(_) | Form::Home(..) => continue,
        }
        // What is painted later must not take the colour of what lies under it.
        context.layer();
    }
}

/// Words of a scene where they cover least.
fn words(
    scene: &Scene,
    window: Extent,
    scale: Scale,
    theme: Theme,
    area: Rect,
    buffer: &mut Buffer,
) {
    let grid = Grid {
        bounds: window,
        columns_per_mm: 1.0 / scale.0,
        rows_per_mm: 1.0 / (CELL * scale.0),
    };
    let least = if scale < WORDY {
        Importance::Aside
    } else {
        Importance::Length
    };
    for placed in place(worded(scene, least), &grid) {
        let (Ok(column), Ok(row)) = (u16::try_from(placed.column), u16::try_from(placed.row))
        else {
            continue;
        };
        if column < area.width && row < area.height {
            let room = usize::from(area.width - column);
            // Dots under words must not colour them.
            let style = Style::reset().patch(theme.part(placed.part));
            buffer.set_stringn(area.x + column, area.y + row, placed.text, room, style);
        }
    }
}

/// The figures of a scene without the words below an importance.
fn worded(scene: &Scene, least: Importance) -> impl Iterator<Item = &Figure> + Clone {
    scene.figures.iter().filter(move |figure| {
        // What is open is said by the checks; in little room the rim comes first.
        if least > Importance::Aside && matches!(figure.part, Part::Open(_)) {
            return false;
        }
        let label = figure.form.label();
        label.is_none_or(|label| label.importance >= least)
    })
}

/// How a line is broken, so that parts are told apart without colour.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Dash {
    Solid,
    Dashed,
    Dotted,
}

impl Dash {
    const fn of(part: Part) -> Self {
        match part {
            Part::Tract(_) | Part::Waist => Self::Dashed,
            Part::Throat | Part::Bundle | Part::DiscBeside(_) | Part::Cusps(_) => Self::Dotted,
            _ => Self::Solid,
        }
    }

    /// Dots drawn and dots left out.
    const fn pattern(self) -> Option<(f64, f64)> {
        match self {
            Self::Solid => None,
            Self::Dashed => Some((3.0, 2.0)),
            Self::Dotted => Some((1.0, 2.0)),
        }
    }
}

/// The strokes of a line, the pattern running on round its corners.
fn dashes(points: &[Point], dash: Dash, dot: f64) -> Vec<[Point; 2]> {
    let segments = points.windows(2).map(|pair| [pair[0], pair[1]]);
    let Some((drawn, left_out)) = dash.pattern() else {
        return segments.collect();
    };
    let period = (drawn + left_out) * dot;
    let mut strokes = Vec::new();
    let mut walked = 0.0;
    for [from, to] in segments {
        let length = from.distance(to);
        if length <= 0.0 {
            continue;
        }
        let along = |at: f64| {
            let share = at / length;
            Point::new(
                from.x + share * (to.x - from.x),
                from.y + share * (to.y - from.y),
            )
        };
        let mut start = -(walked % period);
        while start < length {
            let end = (start + drawn * dot).min(length);
            if end > 0.0 {
                strokes.push([along(start.max(0.0)), along(end)]);
            }
            start += period;
        }
        walked += length;
    }
    strokes
}

/// The dots inside an outline by which a part is filled: overlap densely, the
/// wall and the discs sparsely, the rest not at all.
fn filling(part: Part, outline: &[Point], dot: f64) -> Vec<(f64, f64)> {
    let every = match part {
        Part::Overlap(_) => 1.0,
        Part::Wall => 4.0,
        _ => return Vec::new(),
    };
    let Some(extent) = Extent::of(outline.iter().copied()) else {
        return Vec::new();
    };
    let step = every * dot;
    let lattice = |least: f64, most: f64| {
        let first = (least / step).ceil();
        let count = ((most / step).floor() - first).max(-1.0) + 1.0;
        std::iter::successors(Some(0.0), move |index| Some(index + 1.0))
            .take_while(move |index| *index < count)
            .map(move |index| (first + index) * step)
    };
    let mut dots = Vec::new();
    for y in lattice(extent.least.y, extent.most.y) {
        let crossings = crossings(outline, y);
        // A ray to the right from within an outline crosses it an odd number of times.
        let is_inside = |x: &f64| crossings.iter().filter(|&at| x < at).count() % 2 == 1;
        let row = lattice(extent.least.x, extent.most.x).filter(is_inside);
        dots.extend(row.map(|x| (x, y)));
    }
    dots
}

/// Where an outline crosses a level.
fn crossings(outline: &[Point], y: f64) -> Vec<f64> {
    let next = outline.iter().cycle().skip(1);
    let sides = outline.iter().zip(next);
    sides
        .filter(|(from, to)| (from.y > y) != (to.y > y))
        .map(|(from, to)| from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dashed_line_is_drawn_in_part_and_keeps_within_its_ends() {
        let ends = [Point::new(0.0, 0.0), Point::new(10.0, 0.0)];
        let strokes = dashes(&ends, Dash::Dashed, 0.5);
        let drawn: f64 = strokes.iter().map(|[from, to]| from.distance(*to)).sum();
        assert!((drawn - 6.0).abs() < 0.1, "{drawn}");
        assert!(
            strokes
                .iter()
                .flatten()
                .all(|point| (0.0..=10.0).contains(&point.x))
        );
    }

    #[test]
    fn a_filling_lies_inside_its_outline() {
        let corner = |x, y| Point::new(x, y);
        let square = [
            corner(0.0, 0.0),
            corner(2.0, 0.0),
            corner(2.0, 2.0),
            corner(0.0, 2.0),
        ];
        assert_eq!(crossings(&square, 1.0), [2.0, 0.0]);
        assert!(crossings(&square, 3.0).is_empty());
        let dots = filling(Part::Wall, &square, 0.1);
        assert!(dots.len() >= 16, "{}", dots.len());
        assert!(
            dots.iter()
                .all(|&(x, y)| (0.0..=2.0).contains(&x) && (0.0..=2.0).contains(&y))
        );
    }
}
