use super::PageWriter;
use crate::pdf::points;
use crate::{Figure, glyphs};
use pdf_writer::types::LineJoinStyle;
use scene::Point;
use scene::stroke::{Anchor, Ink, Path, PathStep, Role, Word};
use typeface::{OutlineStep, Weight};

/// The rim of the ground round letters, as a share of their size.
const HALO: f64 = 0.26;

impl PageWriter<'_> {
    /// The strokes of the figure, moved to its place.
    pub(super) fn figure(&mut self, figure: &Figure, at: [f64; 2]) {
        let [right, down] = at;
        for stroke in &figure.drawing.strokes {
            let mut stroke = stroke.clone();
            stroke.move_by(right, down);
            match &stroke.ink {
                Ink::Fill(path) => {
                    self.ink_of(stroke.role);
                    self.path(path);
                    self.content.fill_nonzero();
                }
                Ink::Line { path, width, dash } => {
                    self.line_of(stroke.role, *width);
                    self.content.set_line_join(LineJoinStyle::RoundJoin);
                    if let Some(dash) = dash {
                        let dashes = [points(dash.on), points(dash.off)];
                        self.content.set_dash_pattern(dashes, 0.0);
                    }
                    self.path(path);
                    self.content.stroke();
                }
                Ink::Word(word) => self.word(word, stroke.role),
            }
        }
    }

    fn path(&mut self, path: &Path) {
        for step in &path.0 {
            match step {
                PathStep::Move(to) => self.content.move_to(points(to.x), points(to.y)),
                PathStep::Line(to) => self.content.line_to(points(to.x), points(to.y)),
                PathStep::Cubic(first, second, to) => self.content.cubic_to(
                    points(first.x),
                    points(first.y),
                    points(second.x),
                    points(second.y),
                    points(to.x),
                    points(to.y),
                ),
                PathStep::Close => self.content.close_path(),
            };
        }
    }

    fn word(&mut self, word: &Word, role: Role) {
        let weight = if word.is_bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        let width = word.width();
        let before = match word.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * width,
            Anchor::End => width,
        };
        let start = Point::new(word.at.x - before, word.at.y);
        // Code points in place of letters stand in the room that the letters had.
        let printed = word.size * glyphs::width(&word.text, weight);
        let stretch = if printed > width {
            width / printed
        } else {
            1.0
        };
        if word.has_halo {
            self.halo(
                &glyphs::printed(&word.text, weight),
                weight,
                word.size,
                start,
                stretch,
            );
        }
        self.ink_of(role);
        self.text(&word.text, weight, word.size, [start.x, start.y], stretch);
    }

    /// The rim of the ground round letters, as outlines: as text it would be selected
    /// and read twice.
    fn halo(&mut self, text: &str, weight: Weight, size: f64, start: Point, stretch: f64) {
        let at = |[x, y]: [f64; 2]| Point::new(start.x + size * stretch * x, start.y - size * y);
        let mut path = Path::default();
        let mut last = start;
        for step in typeface::outline(text, weight).steps {
            path.0.push(match step {
                OutlineStep::Move(to) => PathStep::Move(at(to)),
                OutlineStep::Line(to) => PathStep::Line(at(to)),
                OutlineStep::Quad(control, to) => raised(last, at(control), at(to)),
                OutlineStep::Close => PathStep::Close,
            });
            if let Some(end) = step.end() {
                last = at(end);
            }
        }
        self.line_of(Role::Ground, size * HALO);
        self.content.set_line_join(LineJoinStyle::RoundJoin);
        self.path(&path);
        self.content.stroke();
    }
}

/// A quadratic curve as a cubic one, which is what the file has.
fn raised(from: Point, control: Point, to: Point) -> PathStep {
    const TO_CONTROL: f64 = 2.0 / 3.0;
    let toward = |end: Point| {
        Point::new(
            end.x + TO_CONTROL * (control.x - end.x),
            end.y + TO_CONTROL * (control.y - end.y),
        )
    };
    PathStep::Cubic(toward(from), toward(to), to)
}
