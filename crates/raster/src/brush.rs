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
                    let pen = self.pen(*width, stroke.role, dash.map(|dash| [dash.on, dash.off]));
                    self.line(self.path(path), stroke.role, &pen);
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

    fn line(&mut self, path: Option<tiny_skia::Path>, role: Role, pen: &Stroke) {
        if let Some(path) = path {
            let paint = self.paint(role);
            self.pixmap
                .stroke_path(&path, &paint, pen, Transform::identity(), None);
        }
    }

    /// The pen of a line whose width and dashes are in mm.
    fn pen(&self, width: f64, role: Role, dash: Option<[f64; 2]>) -> Stroke {
        let scale = self.fit.scale;
        let least = self.detail.least_line(role);
        let dash = dash
            .map(|lengths| lengths.map(|length| scale * length))
            .filter(|[on, off]| *on > 0.0 && *off > 0.0 && on + off >= LEAST_DASH)
            .and_then(|lengths| StrokeDash::new(lengths.map(single).to_vec(), 0.0));
        let width = (scale * width).clamp(least, FARTHEST);
        Stroke {
            width: single(width),
            line_join: LineJoin::Round,
            dash,
            ..Stroke::default()
        }
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
        builder.finish()
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
        let path = builder.finish();
        if word.has_halo {
            let rim = self.pen(HALO * word.size, Role::Ground, None);
            self.line(path.clone(), Role::Ground, &rim);
        }
        self.fill(path, role);
        outline.missing
    }
}

/// Whether a role is drawn for its look alone and is the first to go.
const fn is_texture(role: Role) -> bool {
    matches!(role, Role::Fibre | Role::Wire)
}

/// A position or length in pixels as the rasteriser takes it. One that is no number
/// stays so, and the rasteriser then leaves the path out.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a pixel position in single precision is right to a thousandth"
)]
const fn single(value: f64) -> f32 {
    value.clamp(-FARTHEST, FARTHEST) as f32
}
