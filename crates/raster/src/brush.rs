use crate::fit::Fit;
use scene::Point;
use scene::stroke::{Anchor, Drawing, Ink, Path, PathStep, Role, Word};
use tiny_skia::{
    Color, FillRule, LineJoin, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform,
};
use typeface::{OutlineStep, Weight, outline};

/// The rim of the ground round letters, as a share of their size; half of it lies
/// under the letter.
const HALO: f64 = 0.26;

/// Dashes whose period is under this many pixels run into one line: it is drawn
/// solid.
const LEAST_DASH: f64 = 1.5;

/// A line with more dashes than this is drawn solid: no page has room for them.
const MOST_DASHES: f64 = 10_000.0;

/// How thin a dimension and what is drawn from habit may get, as a share of other
/// lines.
const THIN: f64 = 2.0 / 3.0;

/// Nothing is painted farther than this from the first pixel: the rasteriser counts
/// in fixed-point numbers. It lies well outside the largest picture.
const FARTHEST: f64 = 30_000.0;

/// What of a drawing is painted, and how thin it may get.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Detail {
    /// Whether fibres and wires are painted.
    pub(crate) has_texture: bool,
    /// Whether words are painted as outlines.
    pub(crate) has_words: bool,
    /// Whether edges are smooth: a pixel may be part one colour and part another.
    pub(crate) is_smooth: bool,
    /// Width below which no line falls, pixels; what is drawn thin (see
    /// [`least_line`](Self::least_line)) may be thinner.
    pub(crate) least_line: f64,
}

impl Detail {
    /// The least width of a line of a role, pixels.
    fn least_line(self, role: Role) -> f64 {
        let least = match role {
            Role::Fibre | Role::Wire => 0.0,
            Role::Dimension | Role::Schematic | Role::FarWall => self.least_line * THIN,
            _ => self.least_line,
        };
        // With rough edges a line under a pixel falls between two, here and there.
        if self.is_smooth {
            least
        } else {
            least.max(1.0)
        }
    }
}

/// Paints the strokes of a drawing, one colour a role.
pub(crate) struct Brush<'a> {
    pub(crate) pixmap: &'a mut Pixmap,
    pub(crate) fit: Fit,
    pub(crate) detail: Detail,
    pub(crate) colour: &'a dyn Fn(Role) -> Color,
}

impl Brush<'_> {
    /// Paints every stroke in its order and gives the characters that have no glyph.
    pub(crate) fn draw(&mut self, drawing: &Drawing) -> Vec<char> {
        self.pixmap.fill((self.colour)(Role::Ground));
        let mut missing = Vec::new();
        for stroke in &drawing.strokes {
            if is_texture(stroke.role) && !self.detail.has_texture {
                continue;
            }
            match &stroke.ink {
                Ink::Fill(path) => self.fill(self.path(path), stroke.role),
                Ink::Line { path, width, dash } if width.is_finite() => {
                    let dash = dash.map(|dash| [dash.on, dash.off]);
                    self.line(self.path(path), stroke.role, *width, dash);
                }
                Ink::Word(word) if self.detail.has_words && word.size.is_finite() => {
                    for letter in self.word(word, stroke.role) {
                        if !missing.contains(&letter) {
                            missing.push(letter);
                        }
                    }
                }
                Ink::Line { .. } | Ink::Word(_) => {}
            }
        }
        missing
    }

    fn paint(&self, role: Role) -> Paint<'static> {
        let mut paint = Paint {
            anti_alias: self.detail.is_smooth,
            ..Paint::default()
        };
        paint.set_color((self.colour)(role));
        paint
    }

    fn fill(&mut self, path: Option<tiny_skia::Path>, role: Role) {
        if let Some(path) = path {
            let paint = self.paint(role);
            self.pixmap.fill_path(
                &path,
                &paint,
                FillRule::Winding,
                Transform::identity(),
                None,
            );
        }
    }

    /// Paints a line whose width and dashes are in mm.
    fn line(
        &mut self,
        path: Option<tiny_skia::Path>,
        role: Role,
        width: f64,
        dash: Option<[f64; 2]>,
    ) {
        let Some(path) = path else { return };
        let scale = self.fit.scale();
        let dash = dash
            .map(|lengths| lengths.map(|length| scale * length))
            .filter(|[on, off]| {
                let period = on + off;
                let are_seen = *on > 0.0 && *off > 0.0 && period >= LEAST_DASH;
                are_seen && length(&path) <= MOST_DASHES * period
            })
            .and_then(|lengths| StrokeDash::new(lengths.map(single).to_vec(), 0.0));
        let pen = Stroke {
            width: single((scale * width).clamp(self.detail.least_line(role), FARTHEST)),
            line_join: LineJoin::Round,
            dash,
            ..Stroke::default()
        };
        let paint = self.paint(role);
        self.pixmap
            .stroke_path(&path, &paint, &pen, Transform::identity(), None);
    }

    fn path(&self, path: &Path) -> Option<tiny_skia::Path> {
        let mut builder = PathBuilder::with_capacity(path.0.len(), 2 * path.0.len());
        let at = |point: Point| self.fit.at(point).map(single);
        for step in &path.0 {
            match *step {
                PathStep::Move(to) => {
                    let [x, y] = at(to);
                    builder.move_to(x, y);
                }
                PathStep::Line(to) => {
                    let [x, y] = at(to);
                    builder.line_to(x, y);
                }
                PathStep::Cubic(first, second, to) => {
                    let ([x1, y1], [x2, y2], [x, y]) = (at(first), at(second), at(to));
                    builder.cubic_to(x1, y1, x2, y2, x, y);
                }
                PathStep::Close => builder.close(),
            }
        }
        finished(builder)
    }

    /// Paints words and gives those of their characters that have no glyph.
    fn word(&mut self, word: &Word, role: Role) -> Vec<char> {
        let weight = if word.is_bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        let outline = outline(&word.text, weight);
        let start = match word.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -0.5 * outline.width,
            Anchor::End => -outline.width,
        };
        let at = |[x, y]: [f64; 2]| {
            let x = word.at.x + word.size * (start + x);
            let y = word.at.y - word.size * y;
            self.fit.at(Point::new(x, y)).map(single)
        };
        let mut builder = PathBuilder::new();
        for step in &outline.steps {
            match *step {
                OutlineStep::Move(to) => {
                    let [x, y] = at(to);
                    builder.move_to(x, y);
                }
                OutlineStep::Line(to) => {
                    let [x, y] = at(to);
                    builder.line_to(x, y);
                }
                OutlineStep::Quad(control, to) => {
                    let ([x1, y1], [x, y]) = (at(control), at(to));
                    builder.quad_to(x1, y1, x, y);
                }
                OutlineStep::Close => builder.close(),
            }
        }
        let path = finished(builder);
        if word.has_halo {
            self.line(path.clone(), Role::Ground, HALO * word.size, None);
        }
        self.fill(path, role);
        outline.missing
    }
}

/// Whether a role is drawn for its look alone and is the first to go.
const fn is_texture(role: Role) -> bool {
    matches!(role, Role::Fibre | Role::Wire)
}

/// The path, unless it is empty or holds what is no number: the stroker would never
/// come to the end of a piece that begins there.
fn finished(builder: PathBuilder) -> Option<tiny_skia::Path> {
    let path = builder.finish()?;
    path.points()
        .iter()
        .all(|point| point.x.is_finite() && point.y.is_finite())
        .then_some(path)
}

/// No less than the length of a path, pixels: that of its control points.
fn length(path: &tiny_skia::Path) -> f64 {
    let pairs = path.points().windows(2);
    pairs.map(|pair| f64::from(pair[0].distance(pair[1]))).sum()
}

/// A position or length in pixels as the rasteriser takes it. One that is no number
/// stays so.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a pixel position in single precision is right to a thousandth"
)]
const fn single(value: f64) -> f32 {
    value.clamp(-FARTHEST, FARTHEST) as f32
}
