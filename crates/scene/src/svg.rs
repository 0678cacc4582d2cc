//! A scene as an SVG 1.1 picture: black on white, told apart by line and fill
//! alone.

mod look;

use crate::layout::{Grid, Placed, place};
use crate::{Form, Part, Point, Scene};
use geometry::Mm;
use look::Look;
use std::fmt::Write as _;

/// Characters in the width of a picture.
const COLUMNS: f64 = 80.0;

/// Advance of a character of common fixed-width founts, as a share of the size.
const ADVANCE: f64 = 0.6;

/// From line to line, as a share of the size.
const LEADING: f64 = 1.25;

/// From the top of a row down to the foot of its letters, as a share of the row.
const FOOT: f64 = 0.78;

/// Radius of a marked point, in widths of its line.
const MARK: f64 = 1.5;

/// Half the stroke across the ends of a dimension line, as a share of a
/// character's size.
const TICK: f64 = 0.3;

/// The scene as a document of its own, one unit a millimetre.
pub fn svg(scene: &Scene) -> String {
    let (width, height) = (scene.bounds.width(), scene.bounds.height());
    let size = width / COLUMNS / ADVANCE;
    let mut page = Page {
        scene,
        size,
        text: String::new(),
    };
    page.put(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.3} {height:.3}\" \
         font-family=\"monospace\" font-size=\"{size:.3}\">\n{}\n\
         <rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
        look::PATTERNS,
    ));
    for figure in &scene.figures {
        page.form(figure.part, &figure.form);
    }
    page.words();
    page.put(format_args!("</svg>\n"));
    page.text
}

struct Page<'a> {
    scene: &'a Scene,
    size: Mm,
    text: String,
}

impl Page<'_> {
    fn put(&mut self, text: std::fmt::Arguments) {
        // Writing to a string cannot fail.
        let _ = self.text.write_fmt(text);
    }

    /// A point from the upper left corner, y downward.
    fn at(&self, point: Point) -> [Mm; 2] {
        let bounds = &self.scene.bounds;
        [point.x - bounds.least.x, bounds.most.y - point.y]
    }

    fn form(&mut self, part: Part, form: &Form) {
        let look = look::of(part);
        match form {
            Form::Line(points) => self.path(
                points,
                "",
                &Look {
                    fill: "none",
                    ..look
                },
            ),
            Form::Area(points) => self.path(points, "Z", &look),
            Form::Mark(point) => {
                let [x, y] = self.at(*point);
                let radius = look.width * MARK;
                self.put(format_args!(
                    "<circle cx=\"{x:.3}\" cy=\"{y:.3}\" r=\"{radius:.3}\"/>\n"
                ));
            }
            Form::Measure { from, to, .. } => self.measure(*from, *to, &look),
            Form::Text(_) | Form::Home(..) => {}
        }
    }

    fn path(&mut self, points: &[Point], end: &str, look: &Look) {
        self.put(format_args!("<path d=\""));
        for (index, &point) in points.iter().enumerate() {
            let [x, y] = self.at(point);
            let step = if index == 0 { 'M' } else { 'L' };
            self.put(format_args!("{step}{x:.3} {y:.3}"));
        }
        self.put(format_args!("{end}\" {look}/>\n"));
    }

    /// A line with a stroke across each end.
    fn measure(&mut self, from: Point, to: Point, look: &Look) {
        self.path(&[from, to], "", look);
        let length = from.distance(to);
        if length == 0.0 {
            return;
        }
        let half = TICK * self.size / length;
        let across = Point::new(half * (from.y - to.y), half * (to.x - from.x));
        for end in [from, to] {
            let tick = [-1.0, 1.0]
                .map(|side| Point::new(end.x + side * across.x, end.y + side * across.y));
            self.path(&tick, "", look);
        }
    }

    fn words(&mut self) {
        let row = LEADING * self.size;
        let column = ADVANCE * self.size;
        let grid = Grid {
            bounds: self.scene.bounds,
            columns_per_mm: 1.0 / column,
            rows_per_mm: 1.0 / row,
        };
        for placed in place(&self.scene.figures, &grid) {
            let Placed { text, .. } = placed;
            let x = f64::from(placed.column) * column;
            let y = (f64::from(placed.row) + FOOT) * row;
            let width = f64::from(placed.width()) * column;
            self.put(format_args!(
                "<text x=\"{x:.3}\" y=\"{y:.3}\" textLength=\"{width:.3}\" {}>{}</text>\n",
                look::HALO,
                escaped(text)
            ));
        }
    }
}

/// Text that cannot be taken for markup.
fn escaped(text: &str) -> String {
    text.chars().fold(String::new(), |mut out, one| {
        match one {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            one if one.is_control() => out.push('\u{fffd}'),
            one => out.push(one),
        }
        out
    })
}

#[cfg(test)]
mod tests;
