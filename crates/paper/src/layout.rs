//! Where the words of a sheet stand on its paper, in millimetres.
//!
//! Used twice: to see what has room, and to print. x runs to the right and y
//! downward from the upper left corner of the page.

mod pen;
mod table;

use crate::{Body, Figure, Line, Mark, Paper, Section, Sheet, glyphs};
use pen::Pen;
pub(crate) use pen::{Node, Piece, PlacedWords, Tag};
use scene::stroke::Role;
use typeface::Weight;

/// Round the page, and between its two columns, mm.
pub(crate) const MARGIN: f64 = 10.0;
const GUTTER: f64 = 6.0;

/// The empty place for a sticker, mm.
const STICKER: [f64; 2] = [62.0, 21.0];

/// From line to line, as a share of the size of the letters.
const LEADING: f64 = 1.22;

/// A style of words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Style {
    /// The em, mm. None is under 6.2 points, 2.19 mm.
    pub(crate) size: f64,
    pub(crate) weight: Weight,
    pub(crate) role: Role,
}

const fn style(size: f64, weight: Weight, role: Role) -> Style {
    Style { size, weight, role }
}

pub(crate) const TITLE: Style = style(5.4, Weight::Bold, Role::Word);
const SITE: Style = style(3.2, Weight::Regular, Role::Word);
const CAUTION: Style = style(2.4, Weight::Regular, Role::Word);
pub(crate) const HEADLINE: Style = style(4.7, Weight::Bold, Role::Word);
pub(crate) const ALERT: Style = style(3.0, Weight::Bold, Role::Word);
const HEADING: Style = style(3.2, Weight::Bold, Role::Word);
pub(crate) const BODY: Style = style(2.6, Weight::Regular, Role::Word);
const HEAD: Style = style(2.3, Weight::Bold, Role::Dimension);
pub(crate) const FINE: Style = style(2.2, Weight::Regular, Role::Dimension);

impl Style {
    /// From baseline to baseline, mm.
    const fn leading(self) -> f64 {
        LEADING * self.size
    }
}

/// A page: what is read, in order, and what is only seen.
#[derive(Clone, Debug)]
pub(crate) struct PrintedPage {
    pub(crate) nodes: Vec<Node>,
    /// Where the figure stands.
    pub(crate) figure: Option<[f64; 2]>,
}

/// Between which heights the columns of a sheet stand, mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ColumnEnds {
    top: f64,
    bottom: f64,
}

impl ColumnEnds {
    /// Whether sections have room in one column.
    pub(crate) fn have_room(self, sections: &[Section], paper: Paper) -> bool {
        let mut pen = Pen::new(MARGIN, self.top, column_width(paper));
        for one in sections {
            section(&mut pen, one);
        }
        pen.y <= self.bottom
    }
}

/// Between which heights the columns of a sheet stand.
pub(crate) fn column_ends(sheet: &Sheet) -> ColumnEnds {
    let mut pen = Pen::new(MARGIN, MARGIN, content_width(sheet.paper));
    above_columns(&mut pen, sheet);
    ColumnEnds {
        top: pen.y,
        bottom: sheet.paper.height() - MARGIN - foot(sheet).1,
    }
}

/// How wide the words between the margins may be, mm.
pub(crate) const fn content_width(paper: Paper) -> f64 {
    paper.width() - 2.0 * MARGIN
}

/// How wide the title may be, mm.
pub(crate) const fn title_width(paper: Paper) -> f64 {
    content_width(paper) - STICKER[0] - GUTTER
}

/// How wide a column is, mm.
pub(crate) const fn column_width(paper: Paper) -> f64 {
    0.5 * (content_width(paper) - GUTTER)
}

/// Lays a sheet out.
pub(crate) fn page(sheet: &Sheet) -> PrintedPage {
    let mut pen = Pen::new(MARGIN, MARGIN, content_width(sheet.paper));
    let figure = above_columns(&mut pen, sheet);
    let top = pen.y;
    let mut nodes = std::mem::take(&mut pen.nodes);
    for (index, sections) in sheet.columns.iter().enumerate() {
        let left = MARGIN
            + if index == 0 {
                0.0
            } else {
                column_width(sheet.paper) + GUTTER
            };
        let mut pen = Pen::new(left, top, column_width(sheet.paper));
        for one in sections {
            section(&mut pen, one);
        }
        nodes.append(&mut pen.nodes);
    }
    nodes.extend(foot(sheet).0);
    PrintedPage { nodes, figure }
}

/// Everything that stands over the columns; gives where the figure stands.
fn above_columns(pen: &mut Pen, sheet: &Sheet) -> Option<[f64; 2]> {
    head(pen, sheet);
    let figure = sheet.figure.as_ref().map(|figure| {
        pen.skip(1.0);
        let at = [MARGIN, pen.y];
        pen.nodes.push(figure_node(figure));
        pen.skip(figure.drawing.height);
        at
    });
    pen.skip(0.8);
    figure
}

/// Whether everything has room on the paper.
pub(crate) fn is_whole(sheet: &Sheet) -> bool {
    let ends = column_ends(sheet);
    let mut columns = sheet.columns.iter();
    columns.all(|sections| ends.have_room(sections, sheet.paper))
}

/// A page of an index: its title and caution, and sections the whole page wide.
pub(crate) fn index_page(
    title: &str,
    caution: &str,
    sections: &[Section],
    paper: Paper,
) -> PrintedPage {
    PrintedPage {
        nodes: index_pen(title, caution, sections, paper).nodes,
        figure: None,
    }
}

fn index_pen(title: &str, caution: &str, sections: &[Section], paper: Paper) -> Pen {
    let mut pen = Pen::new(MARGIN, MARGIN, content_width(paper));
    pen.words(Tag::Title, TITLE, title);
    pen.skip(0.8);
    pen.words(Tag::Paragraph, CAUTION, caution);
    for one in sections {
        section(&mut pen, one);
    }
    pen
}

/// Whether sections have room on a page of an index.
pub(crate) fn has_room(sections: &[Section], paper: Paper) -> bool {
    index_pen("Cases", crate::CAUTION, sections, paper).y <= paper.height() - MARGIN
}

/// Title, caution, place for a sticker, headline and alerts.
fn head(pen: &mut Pen, sheet: &Sheet) {
    let top = pen.y;
    let whole = pen.width;
    pen.width = title_width(sheet.paper);
    pen.words(Tag::Title, TITLE, &sheet.title);
    pen.words(Tag::Paragraph, SITE, &sheet.site);
    pen.skip(0.8);
    pen.words(Tag::Paragraph, CAUTION, &sheet.caution);
    let corner = [pen.left + whole - STICKER[0], top];
    pen.frame(corner, STICKER);
    let mut inside = Pen::new(corner[0] + 1.5, top + STICKER[1] - 4.0, STICKER[0]);
    inside.words(Tag::Paragraph, FINE, &sheet.sticker);
    pen.nodes.append(&mut inside.nodes);
    pen.width = whole;
    pen.y = pen.y.max(top + STICKER[1]) + 2.0;
    for says in &sheet.headline {
        pen.words(Tag::Paragraph, HEADLINE, says);
    }
    if !sheet.alerts.is_empty() {
        pen.skip(0.8);
        section_body(pen, &sheet.alerts, ALERT);
    }
}

fn figure_node(figure: &Figure) -> Node {
    Node {
        tag: Tag::Figure,
        alternative_text: figure.sentences.join(" "),
        children: Vec::new(),
        pieces: Vec::new(),
    }
}

fn section(pen: &mut Pen, section: &Section) {
    // Of what has no line left, one line says how much it was.
    if section.is_empty()
        && let Some(more) = section.more()
    {
        pen.skip(0.8);
        pen.words(
            Tag::Paragraph,
            BODY,
            &format!("{}: {more}", section.heading),
        );
        return;
    }
    pen.skip(1.6);
    pen.words(Tag::Heading, HEADING, &section.heading);
    pen.skip(0.3);
    if !section.note.is_empty() {
        pen.words(Tag::Paragraph, FINE, &section.note);
    }
    section_body(pen, section, BODY);
}

fn section_body(pen: &mut Pen, section: &Section, style: Style) {
    match &section.body {
        Body::Lines(lines) if are_short_boxes(pen, lines, style) => boxes(pen, style, lines),
        Body::Lines(lines) => {
            for line in lines {
                marked(pen, style, line);
            }
        }
        Body::Table { heads, rows } => table::table(pen, heads, rows, HEAD, style),
    }
    if let Some(more) = section.more() {
        pen.words(Tag::Paragraph, style, &more);
    }
}

/// Whether lines are boxes that have room two and two beside each other.
fn are_short_boxes(pen: &Pen, lines: &[Line], style: Style) -> bool {
    lines.iter().all(|line| {
        let width = pen::hang(style, line) + style.size * glyphs::width(&line.text, style.weight);
        line.mark == Some(Mark::Box) && width + 0.5 * GUTTER < 0.5 * pen.width
    })
}

/// Sets boxes two and two beside each other.
fn boxes(pen: &mut Pen, style: Style, lines: &[Line]) {
    let (left, width) = (pen.left, pen.width);
    pen.width = 0.5 * width;
    for pair in lines.chunks(2) {
        let top = pen.y;
        let mut below = top;
        for (index, line) in pair.iter().enumerate() {
            pen.left = left + 0.5 * width * index as f64;
            pen.y = top;
            marked(pen, style, line);
            below = below.max(pen.y);
        }
        pen.y = below;
    }
    (pen.left, pen.width) = (left, width);
}

fn marked(pen: &mut Pen, style: Style, line: &Line) {
    pen.marked(Tag::Paragraph, style, line);
    pen.skip(0.35);
}

/// Signatures and provenance, which stand at the foot of the page, and their height.
fn foot(sheet: &Sheet) -> (Vec<Node>, f64) {
    /// Room to write in over each line.
    const TO_SIGN: f64 = 8.0;
    let width = content_width(sheet.paper);
    let mut pen = Pen::new(MARGIN, 0.0, width);
    let each = (width + GUTTER) / sheet.signatures.len().max(1) as f64;
    let mut below: f64 = 0.0;
    for (index, who) in sheet.signatures.iter().enumerate() {
        let left = MARGIN + each * index as f64;
        pen.rule([left, TO_SIGN], each - GUTTER, 0.2);
        let mut one = Pen::new(left, TO_SIGN + 0.6, each - GUTTER);
        one.words(Tag::Paragraph, FINE, who);
        below = below.max(one.y);
        pen.nodes.append(&mut one.nodes);
    }
    pen.y = below + 1.2;
    for says in &sheet.provenance {
        pen.words(Tag::Paragraph, FINE, says);
    }
    let height = pen.y;
    let down = sheet.paper.height() - MARGIN - height;
    for node in &mut pen.nodes {
        node.move_down(down);
    }
    (pen.nodes, height)
}
