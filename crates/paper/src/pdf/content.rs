//! The content of one page: words, marks, rules and the figure.

mod figure;

use super::faces::Faces;
use super::tags::{ElementIndex, Tags};
use super::{POINTS, points};
use crate::layout::{FINE, MARGIN, Node, Piece, PlacedWords, Tag};
use crate::{Figure, Mark, Paper, glyphs, marks};
use pdf_writer::types::LineCapStyle;
use pdf_writer::{Content, Name, Ref, Str, TextStr};
use scene::stroke::colours::colour;
use scene::stroke::{PageGround, Role};
use typeface::Weight;

/// Writes the content of a page.
pub(super) struct PageWriter<'a> {
    content: Content,
    paper: Paper,
    page: Ref,
    faces: &'a mut Faces,
    tags: &'a mut Tags,
    next: &'a mut Ref,
}

impl<'a> PageWriter<'a> {
    pub(super) fn new(
        paper: Paper,
        page: Ref,
        faces: &'a mut Faces,
        tags: &'a mut Tags,
        next: &'a mut Ref,
    ) -> Self {
        tags.begin_page();
        let mut content = Content::new();
        // From here on in millimetres, y downward.
        let [scale, top] = [POINTS, paper.height() * POINTS].map(points);
        content.transform([scale, 0.0, 0.0, -scale, 0.0, top]);
        Self {
            content,
            paper,
            page,
            faces,
            tags,
            next,
        }
    }

    pub(super) fn finish(self) -> Vec<u8> {
        self.content.finish().into_vec()
    }

    /// Writes what a page says in the order in which it is read, with its figure and
    /// where that stands.
    pub(super) fn nodes(&mut self, nodes: &[Node], figure: Option<(&Figure, [f64; 2])>) {
        for node in nodes {
            self.node(Tags::DOCUMENT, node, figure);
        }
    }

    fn node(&mut self, under: ElementIndex, node: &Node, figure: Option<(&Figure, [f64; 2])>) {
        if node.tag == Tag::Artifact {
            self.only_seen(&node.pieces);
            return;
        }
        let (tag, says) = (node.tag, &node.alternative_text);
        let place = self.tags.element(under, tag, says, self.page, self.next);
        self.only_seen(&node.pieces);
        if node.tag == Tag::Figure {
            if let Some((figure, at)) = figure {
                self.begin(b"Figure", place);
                self.figure(figure, at);
                self.content.end_marked_content();
            }
            return;
        }
        let words = node.pieces.iter().filter_map(|piece| match piece {
            Piece::Words(placed) => Some(placed),
            Piece::Mark { .. } | Piece::Rule { .. } | Piece::Frame { .. } => None,
        });
        let words: Vec<&PlacedWords> = words.collect();
        if !words.is_empty() {
            self.begin(b"Span", place);
            for placed in words {
                self.words(placed);
            }
            self.content.end_marked_content();
        }
        for child in &node.children {
            self.node(place, child, figure);
        }
    }

    /// Begins what belongs to an element.
    fn begin(&mut self, tag: &'static [u8], place: ElementIndex) {
        let number = self.tags.marked(place);
        let mut marked = self.content.begin_marked_content_with_properties(Name(tag));
        marked.properties().identify(number);
    }

    /// Marks, rules and frames: seen, and never read aloud.
    fn only_seen(&mut self, pieces: &[Piece]) {
        for piece in pieces {
            if matches!(piece, Piece::Words(_)) {
                continue;
            }
            self.content.begin_marked_content(Name(b"Artifact"));
            match piece {
                Piece::Words(_) => {}
                Piece::Mark { mark, at, size } => self.mark(*mark, *at, *size),
                Piece::Rule { at, length, width } => {
                    self.line_of(Role::Dimension, *width);
                    let [x, y] = at.map(points);
                    self.content.move_to(x, y);
                    self.content.line_to(points(at[0] + length), y).stroke();
                }
                Piece::Frame { at, size } => {
                    self.line_of(Role::Dimension, 0.15);
                    let [x, y] = at.map(points);
                    self.content
                        .rect(x, y, points(size[0]), points(size[1]))
                        .stroke();
                }
            }
            self.content.end_marked_content();
        }
    }

    fn mark(&mut self, mark: Mark, at: [f64; 2], size: f64) {
        let role = match mark {
            Mark::Ok => Role::Ok,
            Mark::Warning => Role::Warning,
            Mark::Beyond => Role::Beyond,
            Mark::NotKnown | Mark::Box => Role::Word,
        };
        for line in marks::lines(mark) {
            self.line_of(role, size * line.width);
            for (index, point) in line.points.iter().enumerate() {
                let [x, y] = [0, 1].map(|axis| points(at[axis] + size * point[axis]));
                if index == 0 {
                    self.content.move_to(x, y);
                } else {
                    self.content.line_to(x, y);
                }
            }
            if line.is_closed {
                self.content.close_path();
            }
            self.content.stroke();
        }
    }

    /// Which page of how many it is, at its foot.
    pub(super) fn page_number(&mut self, number: usize, of: usize) {
        let text = format!("page {number} of {of}");
        let width = FINE.size * typeface::width(&text, FINE.weight);
        let at = [
            self.paper.width() - MARGIN - width,
            self.paper.height() - 0.4 * MARGIN,
        ];
        self.content.begin_marked_content(Name(b"Artifact"));
        self.words(&PlacedWords {
            at,
            style: FINE,
            text,
            has_blank_after: false,
        });
        self.content.end_marked_content();
    }

    fn words(&mut self, placed: &PlacedWords) {
        let PlacedWords { at, style, .. } = placed;
        let blank = if placed.has_blank_after { " " } else { "" };
        let text = format!("{}{blank}", placed.text);
        self.ink_of(style.role);
        self.text(&text, style.weight, style.size, *at, 1.0);
    }

    /// Writes text whose letters stand as wide as they are times a stretch. What is
    /// printed otherwise than it is written says so to readers.
    fn text(&mut self, text: &str, weight: Weight, size: f64, at: [f64; 2], stretch: f64) {
        let printed = glyphs::printed(text, weight);
        let shown = self.faces.shown(&printed, weight);
        let is_told = !shown.is_plain || printed != text;
        if is_told {
            let mut marked = self
                .content
                .begin_marked_content_with_properties(Name(b"Span"));
            marked.properties().actual_text(TextStr(text));
        }
        let name = self.faces.name(weight);
        self.content.begin_text();
        self.content.set_font(name, points(size));
        // Letters stand upright though y runs downward.
        let [x, y] = at.map(points);
        self.content
            .set_text_matrix([points(stretch), 0.0, 0.0, -1.0, x, y]);
        self.content.show(Str(&shown.bytes));
        self.content.end_text();
        if is_told {
            self.content.end_marked_content();
        }
    }

    fn ink_of(&mut self, role: Role) {
        let [red, green, blue] = rgb(role);
        self.content.set_fill_rgb(red, green, blue);
    }

    fn line_of(&mut self, role: Role, width: f64) {
        let [red, green, blue] = rgb(role);
        self.content.set_stroke_rgb(red, green, blue);
        self.content.set_line_width(points(width));
        self.content.set_line_cap(LineCapStyle::ButtCap);
        self.content.set_dash_pattern([], 0.0);
    }
}

/// A colour as the file has it.
fn rgb(role: Role) -> [f32; 3] {
    let channels = colour(role, PageGround::Light).channels();
    channels.map(|channel| points(f64::from(channel) / 255.0))
}
