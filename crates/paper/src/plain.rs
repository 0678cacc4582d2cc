//! The sheet as plain text, 80 columns wide: for a screen reader, a mail, a pipe.
//!
//! Words say every state; there are no boxes of lines and no columns side by side.

use crate::columns::paragraph;
use crate::{Body, Bundle, Line, Mark, Section, Sheet, TableRow};

/// How wide the text is.
const WIDTH: usize = 80;

/// Several sheets as text, the index before them.
pub fn bundle(bundle: &Bundle) -> String {
    let mut all = String::new();
    if let Some(index) = bundle.index() {
        all.push_str(&paragraph("", &index.title, WIDTH));
        all.push('\n');
        all.push_str(&paragraph("", &index.caution, WIDTH));
        for one in index.pages.iter().flatten() {
            all.push('\n');
            section(&mut all, one);
        }
    }
    for sheet in &bundle.sheets {
        // A form feed begins a new page on a printer.
        if !all.is_empty() {
            all.push('\u{c}');
        }
        all.push_str(&text(sheet));
    }
    all
}

/// The sheet as text.
pub fn text(sheet: &Sheet) -> String {
    let mut text = String::new();
    let put = |text: &mut String, says: &str| text.push_str(&paragraph("", says, WIDTH));
    put(&mut text, &sheet.title);
    put(&mut text, &sheet.site);
    text.push('\n');
    put(&mut text, &sheet.caution);
    put(&mut text, &format!("[{}]", sheet.sticker));
    text.push('\n');
    for says in &sheet.headline {
        put(&mut text, says);
    }
    section(&mut text, &sheet.alerts);
    text.push('\n');
    if let Some(figure) = &sheet.figure {
        for sentence in &figure.sentences {
            put(&mut text, sentence);
        }
        text.push('\n');
    }
    for one in sheet.columns.iter().flatten() {
        section(&mut text, one);
        text.push('\n');
    }
    for who in &sheet.signatures {
        put(&mut text, &format!("____________________ {who}"));
    }
    text.push('\n');
    for says in &sheet.provenance {
        put(&mut text, says);
    }
    text
}

fn section(text: &mut String, section: &Section) {
    for says in [&section.heading, &section.note] {
        if !says.is_empty() {
            text.push_str(&paragraph("", says, WIDTH));
        }
    }
    match &section.body {
        Body::Lines(lines) => {
            for line in lines {
                text.push_str(&paragraph(first(line), &line.text, WIDTH));
            }
        }
        Body::Table { heads, rows } => {
            for one in rows {
                text.push_str(&paragraph("- ", &row(heads, one), WIDTH));
            }
        }
    }
    if let Some(more) = section.more() {
        text.push_str(&paragraph("", &more, WIDTH));
    }
}

/// What stands before a line: a box that can be ticked, else a dash.
const fn first(line: &Line) -> &'static str {
    match line.mark {
        Some(Mark::Box) => "[ ] ",
        _ => "- ",
    }
}

/// A row as a sentence: each cell under the name of its column.
fn row(heads: &[String], row: &TableRow) -> String {
    let cells = heads.iter().zip(&row.cells);
    let said: Vec<String> = cells
        .filter(|(_, cell)| !cell.text.is_empty())
        .map(|(head, cell)| format!("{head} {}", cell.text).trim_start().to_owned())
        .collect();
    said.join("; ")
}
