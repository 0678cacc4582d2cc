use super::Style;
use super::pen::{Node, Pen, Piece, Tag, hang, set};
use crate::{Line, TableRow, glyphs};

/// Between columns of a table, mm.
const GAP: f64 = 2.5;
/// A column narrower than this breaks every word, mm.
const NARROWEST: f64 = 10.0;

/// Sets a table: heads over a rule, and a row under the other.
pub(super) fn table(pen: &mut Pen, heads: &[String], rows: &[TableRow], head: Style, body: Style) {
    let widths = widths(pen.width, heads, rows, head, body);
    let mut table = Node::new(Tag::Table);
    let heads: Vec<Line> = heads.iter().map(Line::plain).collect();
    let (row, below) = set_row(pen, &heads, &widths, head, [Tag::ColumnHead; 2]);
    table.children.push(row);
    let rule = Piece::Rule {
        at: [pen.left, below + 0.2],
        length: pen.width,
        width: 0.12,
    };
    pen.y = below + 0.7;
    let mut line = Node::new(Tag::Artifact);
    line.pieces.push(rule);
    pen.nodes.push(line);
    for one in rows {
        let (row, below) = set_row(pen, &one.cells, &widths, body, [Tag::RowHead, Tag::Cell]);
        table.children.push(row);
        pen.y = below + 0.15;
    }
    pen.nodes.push(table);
}

/// A row, and the height below it.
fn set_row(
    pen: &Pen,
    cells: &[Line],
    widths: &[f64],
    style: Style,
    [first, others]: [Tag; 2],
) -> (Node, f64) {
    let mut row = Node::new(Tag::Row);
    let (mut x, mut below) = (pen.left, pen.y);
    for (index, (cell, &width)) in cells.iter().zip(widths).enumerate() {
        let mut node = Node::new(if index == 0 { first } else { others });
        below = below.max(set(&mut node, [x, pen.y], width, style, cell));
        row.children.push(node);
        x += width + GAP;
    }
    (row, below)
}

/// The width of each column: what it needs, the widest giving way where all together
/// need more than there is; what is left over goes to the last.
fn widths(width: f64, heads: &[String], rows: &[TableRow], head: Style, body: Style) -> Vec<f64> {
    let wide = |style: Style, line: &Line| {
        hang(style, line) + style.size * glyphs::width(&line.text, style.weight)
    };
    let mut widths: Vec<f64> = heads
        .iter()
        .enumerate()
        .map(|(column, title)| {
            let cells = rows.iter().filter_map(|row| row.cells.get(column));
            let most = cells.map(|cell| wide(body, cell)).fold(0.0, f64::max);
            // A hair more, so that rounding breaks no line.
            most.max(wide(head, &Line::plain(title))) + 0.01
        })
        .collect();
    let room = (width - GAP * widths.len().saturating_sub(1) as f64).max(0.0);
    loop {
        let over = widths.iter().sum::<f64>() - room;
        if over <= 0.0 {
            if let Some(last) = widths.last_mut() {
                *last -= over;
            }
            return widths;
        }
        let most = widths.iter().copied().fold(0.0, f64::max);
        if most <= NARROWEST {
            return widths;
        }
        // Down to the next widest at most, so that no column pays for all.
        let next = widths
            .iter()
            .copied()
            .filter(|&one| one < most)
            .fold(NARROWEST, f64::max);
        let same = widths.iter().filter(|&&one| one == most).count() as f64;
        let less = (over / same).min(most - next).max(0.01);
        for one in widths.iter_mut().filter(|one| **one == most) {
            *one -= less;
        }
    }
}
