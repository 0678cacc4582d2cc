use super::Style;
use crate::wrap::broken;
use crate::{Line, Mark, glyphs};
use scene::stroke::Role;

/// What a part of the page is to somebody who hears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tag {
    /// The title of the page.
    Title,
    /// The heading of a section.
    Heading,
    /// A paragraph.
    Paragraph,
    /// The pictures.
    Figure,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// The head of a column.
    ColumnHead,
    /// The head of a row.
    RowHead,
    /// A cell.
    Cell,
    /// Only seen: rules and frames.
    Artifact,
}

/// A part of the page, in the order in which it is read.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    pub(crate) tag: Tag,
    /// What is read in place of a picture.
    pub(crate) alternative_text: String,
    pub(crate) children: Vec<Self>,
    pub(crate) pieces: Vec<Piece>,
}

/// Something printed.
#[derive(Clone, Debug)]
pub(crate) enum Piece {
    /// Words on one line.
    Words(PlacedWords),
    /// A mark in a square from its upper left corner.
    Mark { mark: Mark, at: [f64; 2], size: f64 },
    /// A level line from its left end.
    Rule {
        at: [f64; 2],
        length: f64,
        width: f64,
    },
    /// A frame from its upper left corner.
    Frame { at: [f64; 2], size: [f64; 2] },
}

/// Words on one line.
#[derive(Clone, Debug)]
pub(crate) struct PlacedWords {
    /// The left end of their baseline.
    pub(crate) at: [f64; 2],
    pub(crate) style: Style,
    pub(crate) text: String,
    /// Whether the same paragraph goes on on another line after a blank.
    pub(crate) has_blank_after: bool,
}

impl Node {
    pub(crate) const fn new(tag: Tag) -> Self {
        Self {
            tag,
            alternative_text: String::new(),
            children: Vec::new(),
            pieces: Vec::new(),
        }
    }

    pub(crate) fn move_down(&mut self, by: f64) {
        for piece in &mut self.pieces {
            match piece {
                Piece::Words(PlacedWords { at, .. })
                | Piece::Mark { at, .. }
                | Piece::Rule { at, .. }
                | Piece::Frame { at, .. } => at[1] += by,
            }
        }
        for child in &mut self.children {
            child.move_down(by);
        }
    }
}

/// Sets words one under the other from a place down.
#[derive(Clone, Debug)]
pub(crate) struct Pen {
    pub(crate) left: f64,
    /// The height under what was set last.
    pub(crate) y: f64,
    pub(crate) width: f64,
    pub(crate) nodes: Vec<Node>,
}

impl Pen {
    pub(crate) const fn new(left: f64, y: f64, width: f64) -> Self {
        Self {
            left,
            y,
            width,
            nodes: Vec::new(),
        }
    }

    pub(crate) const fn skip(&mut self, by: f64) {
        self.y += by;
    }

    /// Sets a paragraph.
    pub(crate) fn words(&mut self, tag: Tag, style: Style, text: &str) {
        let line = Line::plain(text);
        self.marked(tag, style, &line);
    }

    /// Sets a paragraph with its mark, and hangs its lines beside it.
    pub(crate) fn marked(&mut self, tag: Tag, style: Style, line: &Line) {
        let mut node = Node::new(tag);
        self.y = set(&mut node, [self.left, self.y], self.width, style, line);
        self.nodes.push(node);
    }

    /// A frame.
    pub(crate) fn frame(&mut self, at: [f64; 2], size: [f64; 2]) {
        self.only_seen(Piece::Frame { at, size });
    }

    /// A level line from its left end.
    pub(crate) fn rule(&mut self, at: [f64; 2], length: f64, width: f64) {
        self.only_seen(Piece::Rule { at, length, width });
    }

    fn only_seen(&mut self, piece: Piece) {
        let mut node = Node::new(Tag::Artifact);
        node.pieces.push(piece);
        self.nodes.push(node);
    }
}

/// How far words hang beside their mark, mm.
pub(super) fn hang(style: Style, line: &Line) -> f64 {
    if line.mark.is_some() {
        1.25 * style.size
    } else {
        0.0
    }
}

/// Sets a line of words, broken where it is too long, from an upper left corner;
/// gives the height below.
pub(super) fn set(node: &mut Node, corner: [f64; 2], width: f64, style: Style, line: &Line) -> f64 {
    /// How far the first baseline lies under the top of a line, in ems.
    const RISE: f64 = 0.93;
    let hang = hang(style, line);
    let [x, mut y] = corner;
    if let Some(mark) = line.mark {
        let size = 0.9 * style.size;
        let at = [x, y + RISE * style.size - 0.8 * style.size];
        node.pieces.push(Piece::Mark { mark, at, size });
    }
    let measure = |text: &str| style.size * glyphs::width(text, style.weight);
    let role = line.mark.map_or(style.role, word_role);
    let lines = broken(&line.text, width - hang, measure);
    let last = lines.len() - 1;
    for (index, one) in lines.into_iter().enumerate() {
        node.pieces.push(Piece::Words(PlacedWords {
            at: [x + hang, y + RISE * style.size],
            style: Style { role, ..style },
            text: one.text,
            has_blank_after: index < last && !one.is_in_word,
        }));
        y += style.leading();
    }
    y
}

/// The colour of words beside a mark: that of the mark where it is to be seen first.
pub(crate) const fn word_role(mark: Mark) -> Role {
    match mark {
        Mark::Warning => Role::Warning,
        Mark::Beyond => Role::Beyond,
        Mark::Ok | Mark::NotKnown | Mark::Box => Role::Word,
    }
}
