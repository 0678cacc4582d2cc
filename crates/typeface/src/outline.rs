use crate::Weight;
use ttf_parser::OutlineBuilder;

/// The outline of words from their first letter's origin, in em: x along the
/// baseline, y upward from it. Fill it by non-zero winding.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline {
    /// Its steps.
    pub steps: Vec<OutlineStep>,
    /// The width of the words.
    pub width: f64,
    /// The characters drawn as an empty box since the face lacks them, each once.
    pub missing: Vec<char>,
}

/// One step of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutlineStep {
    /// Begins a new contour.
    Move([f64; 2]),
    /// A straight line.
    Line([f64; 2]),
    /// A quadratic curve by a control point to a point.
    Quad([f64; 2], [f64; 2]),
    /// A straight line back to where the contour began.
    Close,
}

impl OutlineStep {
    /// Where the step ends; `None` for the end of a contour.
    pub const fn end(&self) -> Option<[f64; 2]> {
        match *self {
            Self::Move(to) | Self::Line(to) | Self::Quad(_, to) => Some(to),
            Self::Close => None,
        }
    }
}

/// The outline of words on one line.
pub fn outline(text: &str, weight: Weight) -> Outline {
    let mut pen = Pen {
        origin: 0.0,
        em: weight
            .face()
            .map_or(1.0, |face| f64::from(face.units_per_em())),
        steps: Vec::new(),
    };
    for letter in text.chars() {
        if let Some(face) = weight.face() {
            // A glyph without an outline, such as a space, draws nothing.
            let _ = face.outline_glyph(weight.glyph_or_box(letter), &mut pen);
        }
        pen.origin += weight.advance(letter);
    }
    Outline {
        steps: pen.steps,
        width: pen.origin,
        missing: crate::missing_glyphs(text, weight),
    }
}

struct Pen {
    origin: f64,
    em: f64,
    steps: Vec<OutlineStep>,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> [f64; 2] {
        [self.origin + f64::from(x) / self.em, f64::from(y) / self.em]
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.steps.push(OutlineStep::Move(self.at(x, y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.steps.push(OutlineStep::Line(self.at(x, y)));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let step = OutlineStep::Quad(self.at(x1, y1), self.at(x, y));
        self.steps.push(step);
    }

    /// TrueType outlines, the only ones embedded, have no cubic curves; one is kept
    /// as near as a quadratic can.
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.quad_to(0.5 * (x1 + x2), 0.5 * (y1 + y2), x, y);
    }

    fn close(&mut self) {
        self.steps.push(OutlineStep::Close);
    }
}
