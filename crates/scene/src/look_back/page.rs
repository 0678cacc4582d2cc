use crate::stroke::{Anchor, Dash, Ink, Path, PathStep, Role, Stroke, Word};
use crate::{Part, Point};

/// The strokes of a page as they are put down.
#[derive(Default)]
pub(super) struct LookBackStrokes {
    pub(super) strokes: Vec<Stroke>,
}

/// Width of a thin line, mm.
pub(super) const THIN: f64 = 0.2;
/// Width of a line that is seen from afar, mm.
pub(super) const THICK: f64 = 1.1;
/// By how much words may be wider in a viewer that has not the face they are meant for.
const OTHER_FACE: f64 = 1.2;
/// How far along its tangent a quarter of a circle is drawn: 4 (√2 − 1) / 3.
const BEND: f64 = 0.552_284_75;

impl LookBackStrokes {
    fn put(&mut self, role: Role, ink: Ink) {
        self.strokes.push(Stroke {
            part: Part::Chart,
            role,
            ink,
        });
    }

    /// Words that begin at a point of the baseline.
    pub(super) fn word(&mut self, x: f64, y: f64, size: f64, text: &str) {
        self.words((x, y), size, text, Anchor::Start);
    }

    /// Words anchored at a point.
    pub(super) fn words(&mut self, (x, y): (f64, f64), size: f64, text: &str, anchor: Anchor) {
        self.lettering((x, y), size, text, anchor, false);
    }

    /// Words that end at a point and begin no further left than `from`: smaller where they
    /// would.
    pub(super) fn words_after(&mut self, from: f64, (x, y): (f64, f64), size: f64, text: &str) {
        let wide = OTHER_FACE * size * typeface::width(text, typeface::Weight::Regular);
        let size = size * ((x - from) / wide).min(1.0);
        self.words((x, y), size, text, Anchor::End);
    }

    /// Bold words that begin at a point.
    pub(super) fn bold(&mut self, x: f64, y: f64, size: f64, text: &str) {
        self.lettering((x, y), size, text, Anchor::Start, true);
    }

    fn lettering(
        &mut self,
        (x, y): (f64, f64),
        size: f64,
        text: &str,
        anchor: Anchor,
        is_bold: bool,
    ) {
        let word = Word {
            at: Point::new(x, y),
            text: text.to_owned(),
            size,
            anchor,
            is_bold,
            has_halo: false,
        };
        self.put(Role::Word, Ink::Word(word));
    }

    /// A straight line.
    pub(super) fn line(&mut self, role: Role, width: f64, from: (f64, f64), to: (f64, f64)) {
        self.stroked(role, width, from, to, None);
    }

    /// A dashed line.
    pub(super) fn dashed(&mut self, role: Role, width: f64, from: (f64, f64), to: (f64, f64)) {
        let dash = Dash { on: 1.6, off: 1.2 };
        self.stroked(role, width, from, to, Some(dash));
    }

    fn stroked(
        &mut self,
        role: Role,
        width: f64,
        from: (f64, f64),
        to: (f64, f64),
        dash: Option<Dash>,
    ) {
        let points = [from, to].map(|(x, y)| Point::new(x, y));
        let path = Path::polyline(points);
        self.put(role, Ink::Line { path, width, dash });
    }

    /// A filled round mark.
    pub(super) fn disc(&mut self, role: Role, at: (f64, f64), radius: f64) {
        self.put(role, Ink::Fill(round(at, radius)));
    }

    /// An open round mark: told from a filled one without its colour.
    pub(super) fn ring(&mut self, role: Role, at: (f64, f64), radius: f64) {
        self.put(Role::Ground, Ink::Fill(round(at, radius)));
        let path = round(at, radius);
        let width = 2.0 * THIN;
        self.put(
            role,
            Ink::Line {
                path,
                width,
                dash: None,
            },
        );
    }
}

/// A circle in four curves.
fn round((x, y): (f64, f64), radius: f64) -> Path {
    let bend = radius * BEND;
    let at = |right: f64, down: f64| Point::new(x + right, y + down);
    Path(vec![
        PathStep::Move(at(radius, 0.0)),
        PathStep::Cubic(at(radius, bend), at(bend, radius), at(0.0, radius)),
        PathStep::Cubic(at(-bend, radius), at(-radius, bend), at(-radius, 0.0)),
        PathStep::Cubic(at(-radius, -bend), at(-bend, -radius), at(0.0, -radius)),
        PathStep::Cubic(at(bend, -radius), at(radius, -bend), at(radius, 0.0)),
        PathStep::Close,
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_label_begins_at_the_margin_and_a_short_one_keeps_its_size() {
        let long = "distance to the disc, tricuspid valve, by transthoracic echocardiography, n";
        for (text, is_smaller) in [(long, true), ("waist", false)] {
            let mut page = LookBackStrokes::default();
            page.words_after(14.0, (99.0, 10.0), 3.4, text);
            let Some(Stroke {
                ink: Ink::Word(word),
                ..
            }) = page.strokes.pop()
            else {
                panic!("words");
            };
            let wide = word.size * typeface::width(text, typeface::Weight::Regular);
            assert!(OTHER_FACE * wide <= 85.0 + 1e-9, "{wide}");
            assert_eq!(word.size < 3.4, is_smaller, "{}", word.size);
        }
    }
}
