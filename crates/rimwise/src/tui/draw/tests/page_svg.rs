//! A page of the terminal as SVG, so that the README shows what the program draws.

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr;

/// Width and height of a cell in units of the drawing.
const CELL: (u32, u32) = (8, 17);
/// The ground and the letters of the terminal that is drawn.
const GROUND: [u8; 3] = [0x1a, 0x1c, 0x20];
const LETTERS: [u8; 3] = [0xd8, 0xdb, 0xe0];

/// The page on a dark ground.
pub(super) fn svg(page: &Buffer) -> String {
    let (columns, rows) = (u32::from(page.area.width), u32::from(page.area.height));
    let (width, height) = (columns * CELL.0, rows * CELL.1);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" \
         font-family=\"ui-monospace, DejaVu Sans Mono, monospace\" font-size=\"13\" \
         shape-rendering=\"crispEdges\">\n\
         <rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n",
        hex(GROUND)
    );
    for (row, cells) in (0u32..).zip(page.content.chunks(usize::from(page.area.width))) {
        draw_row(&mut out, row, cells);
    }
    out.push_str("</svg>\n");
    out
}

/// Backgrounds and blocks first, letters over them, a run of like cells at once.
fn draw_row(out: &mut String, row: u32, cells: &[Cell]) {
    let y = row * CELL.1;
    let mut column = 0;
    let mut words = String::new();
    while let Some(first) = cells.get(column) {
        let like = |cell: &Cell| {
            (cell.fg, cell.bg, cell.modifier) == (first.fg, first.bg, first.modifier)
                && quadrants(cell.symbol()) == quadrants(first.symbol())
        };
        let mut run = cells[column..].iter().take_while(|cell| like(cell)).count();
        let wide = first.symbol().width().max(1);
        run = run.max(wide);
        let x = u32::try_from(column).unwrap() * CELL.0;
        let (fore, back) = colours(first);
        if back != GROUND {
            rect(
                out,
                (x, y),
                (u32::try_from(run).unwrap() * CELL.0, CELL.1),
                back,
            );
        }
        let run_cells = &cells[column..(column + run).min(cells.len())];
        if let Some(parts) = quadrants(first.symbol()) {
            for place in 0..run {
                let x = x + u32::try_from(place).unwrap() * CELL.0;
                blocks(out, (x, y), parts, fore);
            }
        } else {
            let text: String = run_cells.iter().map(Cell::symbol).collect();
            write_words(&mut words, (x, y), &text, (fore, first.modifier));
        }
        column += run;
    }
    out.push_str(&words);
}

/// Which quarters of a cell a block fills: upper left, upper right, lower left,
/// lower right; `None` for a letter.
fn quadrants(symbol: &str) -> Option<[bool; 4]> {
    let mask = match symbol {
        "▘" => 0b1000,
        "▝" => 0b0100,
        "▖" => 0b0010,
        "▗" => 0b0001,
        "▀" => 0b1100,
        "▄" => 0b0011,
        "▌" => 0b1010,
        "▐" => 0b0101,
        "▚" => 0b1001,
        "▞" => 0b0110,
        "▛" => 0b1110,
        "▜" => 0b1101,
        "▙" => 0b1011,
        "▟" => 0b0111,
        "█" => 0b1111,
        _ => return None,
    };
    Some([8, 4, 2, 1].map(|bit| mask & bit != 0))
}

fn blocks(out: &mut String, (x, y): (u32, u32), parts: [bool; 4], colour: [u8; 3]) {
    let (half, upper) = (CELL.0 / 2, CELL.1 / 2);
    let lower = CELL.1 - upper;
    for (top, height, pair) in [
        (0, upper, [parts[0], parts[1]]),
        (upper, lower, [parts[2], parts[3]]),
    ] {
        match pair {
            [true, true] => rect(out, (x, y + top), (CELL.0, height), colour),
            [true, false] => rect(out, (x, y + top), (half, height), colour),
            [false, true] => rect(out, (x + half, y + top), (half, height), colour),
            [false, false] => {}
        }
    }
}

fn rect(out: &mut String, (x, y): (u32, u32), (width, height): (u32, u32), colour: [u8; 3]) {
    let fill = hex(colour);
    let _ = writeln!(
        out,
        "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{fill}\"/>"
    );
}

/// Words where they stand, each stretched to its cells whatever the font.
fn write_words(
    out: &mut String,
    (x, y): (u32, u32),
    text: &str,
    (colour, modifier): ([u8; 3], Modifier),
) {
    let trimmed = text.trim_end();
    let lead = trimmed.len() - trimmed.trim_start().len();
    let word = trimmed.trim_start();
    if word.is_empty() {
        return;
    }
    let cells = |text: &str| u32::try_from(text.width()).unwrap();
    let x = x + u32::try_from(lead).unwrap() * CELL.0;
    let length = cells(word) * CELL.0;
    let bold = if modifier.contains(Modifier::BOLD) {
        " font-weight=\"bold\""
    } else {
        ""
    };
    let escaped = word
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    let _ = writeln!(
        out,
        "<text x=\"{x}\" y=\"{}\" textLength=\"{length}\" lengthAdjust=\"spacingAndGlyphs\" \
         xml:space=\"preserve\" fill=\"{}\"{bold}>{escaped}</text>",
        y + 13,
        hex(colour),
    );
}

/// Letters and ground of a cell.
fn colours(cell: &Cell) -> ([u8; 3], [u8; 3]) {
    let mut fore = rgb(cell.fg).unwrap_or(LETTERS);
    let mut back = rgb(cell.bg).unwrap_or(GROUND);
    if cell.modifier.contains(Modifier::DIM) {
        fore = fore.map(|part| part / 2 + 40);
    }
    if cell.modifier.contains(Modifier::REVERSED) {
        std::mem::swap(&mut fore, &mut back);
    }
    (fore, back)
}

/// A colour; `None` is the terminal's own.
fn rgb(colour: Color) -> Option<[u8; 3]> {
    match colour {
        Color::Reset => None,
        Color::Rgb(red, green, blue) => Some([red, green, blue]),
        Color::Black => Some([0, 0, 0]),
        Color::Red | Color::LightRed => Some([0xe0, 0x6c, 0x6c]),
        Color::Green | Color::LightGreen => Some([0x8c, 0xc0, 0x70]),
        Color::Yellow | Color::LightYellow => Some([0xe2, 0xc0, 0x5c]),
        Color::Blue | Color::LightBlue => Some([0x6c, 0xa4, 0xe0]),
        Color::Magenta | Color::LightMagenta => Some([0xd4, 0x7c, 0xc4]),
        Color::Cyan | Color::LightCyan => Some([0x5c, 0xc4, 0xcc]),
        _ => Some(LETTERS),
    }
}

fn hex([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}
