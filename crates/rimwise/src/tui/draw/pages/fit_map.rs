//! What would fit, whether anyone makes it or not.

use super::{Seen, said};
use crate::text::fitted;
use crate::tui::draw::lines;
use crate::tui::draw::seen::cell_at;
use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::{Color, Modifier, Style};
use ratatui::text::Line;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Line as Stroke};
use session::{FitMapResult, Session};
use sizing::fit_map::{Axis, FitMap};
use sizing::house_rules::Parameter;

/// The chances whose lines are drawn and between which the field changes its glyph:
/// those of the rules under which a size does not fit and from which on it may fit.
fn limits(session: &Session) -> [f64; 2] {
    [Parameter::ChanceDoesNotFit, Parameter::ChanceFits]
        .map(|limit| session.setting().parameter(limit))
}

/// Lines in which a cell is told.
const CELL_LINES: usize = 2;
/// Columns of the scale of overhangs with its ticks.
const SCALE: u16 = 6;
/// Lines under the field: the scale of waists with its name, and what marks and colours
/// mean.
const LEGEND: u16 = 3;
/// The line over the field: the name of the scale of overhangs.
const AXIS: u16 = 1;

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let mapped = session.results().mapped();
    let Some(mapped) = mapped.filter(|_| session.setting().not_rated().is_none()) else {
        let area = lines::headed(frame, "Fit map", "", true, theme, area);
        lines::draw(
            frame,
            said(&without_map(session), theme.dim(), area.width),
            area,
        );
        return;
    };
    let is_stale = session.shows_as_before(mapped.generation) || session.work_up_is_of_before();
    let beside = if mapped.is_last {
        "share of simulated variations inside every limit"
    } else {
        "still coarse"
    };
    let beside = lines::of_before(is_stale, beside);
    let area = lines::headed(frame, "Fit map", beside, true, theme, area);
    let mut told = answer(mapped, theme, area.width);
    told.extend(at_cursor(session, mapped, theme, area.width));
    let told = lines::stale(told, is_stale, theme);
    let height = u16::try_from(told.len())
        .unwrap_or(u16::MAX)
        .min(area.height / 2);
    let [top, body] =
        Layout::vertical([Constraint::Length(height), Constraint::Min(1)]).areas(area);
    lines::draw(frame, told, top);
    let field = Rect {
        x: body.x + SCALE.min(body.width),
        y: body.y + AXIS,
        width: body.width.saturating_sub(SCALE),
        height: body.height.saturating_sub(LEGEND + AXIS),
    };
    if field.is_empty() {
        return;
    }
    seen.note_map(field, cells(&mapped.map));
    draw_field(session, mapped, is_stale, theme, field, frame.buffer_mut());
    scales(
        mapped,
        limits(session),
        theme,
        body,
        field,
        frame.buffer_mut(),
    );
}

/// Why there is no map, or not yet.
fn without_map(session: &Session) -> String {
    let not_rated = session.setting().not_rated();
    not_rated.map_or_else(
        || "working out what would fit …".to_owned(),
        |not_rated| {
            format!(
                "There is no map, because the case is not rated. {}",
                not_rated.sentences()
            )
        },
    )
}

/// The page in words: what would fit, and the sizes of the catalogue where the
/// chance is highest.
pub(in crate::tui::draw) fn text(
    session: &Session,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let mapped = session.results().mapped();
    let Some(mapped) = mapped.filter(|_| session.setting().not_rated().is_none()) else {
        return said(&without_map(session), theme.dim(), width);
    };
    let mut lines = answer(mapped, theme, width);
    lines.extend(at_cursor(session, mapped, theme, width));
    lines.push(Line::raw(
        "chance in per cent; across: waist, mm; down: overhang, mm",
    ));
    let columns: Vec<usize> = (0..mapped.map.waists.count).step_by(STEP).collect();
    let cells = |first: String, cell: &dyn Fn(usize) -> String| {
        let cells: Vec<String> = columns.iter().map(|&column| cell(column)).collect();
        Line::raw(format!("{first:>9}{}", cells.concat()))
    };
    let map = &mapped.map;
    lines.push(cells(String::new(), &|column| {
        format!("{:>5.1}", map.waists.value(column))
    }));
    for row in (0..map.overhangs.count).rev().step_by(STEP) {
        lines.push(cells(
            format!("{:.1}", map.overhangs.value(row)),
            &|column| format!("{:>5.0}", 100.0 * map.chance(column, row).unwrap_or(0.0)),
        ));
    }
    lines
}

/// Columns and rows from one that is written to the next.
const STEP: usize = 5;

/// What would fit, in one sentence; and of what shape the map is.
fn answer(mapped: &FitMapResult, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let form = &mapped.map.form;
    let of = format!(
        "Of two equal discs {:.1} mm thick on a waist {:.1} mm long, conformability {:.2}.",
        form.thickness, form.length, form.conformability
    );
    let mut lines = match &mapped.says {
        Some(says) => said(says, theme.strong(), width),
        None => said(
            "What would fit is still being worked out …",
            theme.dim(),
            width,
        ),
    };
    lines.extend(said(&of, theme.dim(), width));
    lines
}

/// The cell that is read, in words.
fn at_cursor(
    session: &Session,
    mapped: &FitMapResult,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let Ok((column, row)) = session.cell() else {
        return Vec::new();
    };
    let map = &mapped.map;
    let at_most = if mapped.missing.is_empty() {
        ""
    } else {
        "at most "
    };
    let chance = map.cell(column, row).map_or_else(String::new, |cell| {
        let stop = map
            .stopped_by(cell)
            .map_or_else(String::new, |(stop, share)| {
                format!(
                    "; most often beyond the limit: {} in {:.0} %",
                    stop.name(),
                    100.0 * share
                )
            });
        format!(": {at_most}{:.0} %{stop}", 100.0 * cell.chance.value)
    });
    let sizes: Vec<&str> = mapped
        .marks
        .iter()
        .filter(|mark| mark.cell(map) == Some((column, row)))
        .map(|mark| mark.name.as_str())
        .collect();
    let sizes = if sizes.is_empty() {
        String::new()
    } else {
        format!("; catalogue size here: {}", sizes.join(", "))
    };
    let overhang = map.overhangs.value(row);
    let text = format!(
        "at waist {:.1} mm, discs waist + {:.1} mm (overhang {overhang:.1} mm){chance}{sizes}",
        map.waists.value(column),
        2.0 * overhang,
    );
    let lines = said(&text, theme.text(), width);
    // The field does not jump as the cursor moves: always so many lines.
    let mut lines: Vec<Line> = lines.into_iter().take(CELL_LINES).collect();
    lines.resize(CELL_LINES, Line::raw(""));
    lines
}

/// The glyph of a chance.
fn glyph(chance: f64, [least, most]: [f64; 2], theme: Theme) -> &'static str {
    let [none, low, even, high, ..] = theme.map_glyphs();
    match chance {
        _ if chance >= most => high,
        _ if chance >= least => even,
        _ if chance > 0.0 => low,
        _ => none,
    }
}

fn draw_field(
    session: &Session,
    mapped: &FitMapResult,
    is_stale: bool,
    theme: Theme,
    field: Rect,
    buffer: &mut Buffer,
) {
    let map = &mapped.map;
    let limits = limits(session);
    let shade = |chance: f64| {
        if is_stale {
            theme.dim()
        } else {
            theme.chance(chance, limits)
        }
    };
    for at in field.rows().flat_map(Rect::columns) {
        if let Some([over, under]) = halves(map, theme, field, (at.x, at.y)) {
            let style = Style::new().fg(over).bg(under);
            buffer.set_string(at.x, at.y, UPPER_HALF, style);
            continue;
        }
        let chance = cell_at(cells(map), field, at.x, at.y)
            .and_then(|(column, row)| map.chance(column, row));
        let chance = chance.unwrap_or(0.0);
        buffer.set_string(at.x, at.y, glyph(chance, limits, theme), shade(chance));
    }
    lines_of_chance(map, limits, theme, field, buffer);
    let [.., like, other, cursor] = theme.map_glyphs();
    for mark in mapped.marks.iter() {
        if let Some(cell) = mark.cell(map) {
            let (x, y) = place(map, field, cell);
            let glyph = if mark.is_near { like } else { other };
            let style = over_field(theme, &buffer[(x, y)]);
            buffer.set_string(x, y, glyph, style);
        }
    }
    if let Ok(cell) = session.cell() {
        let (x, y) = place(map, field, cell);
        let style = over_field(theme, &buffer[(x, y)]).add_modifier(Modifier::REVERSED);
        buffer.set_string(x, y, cursor, style);
    }
}

/// A cell of which the upper half has the colour of letters, the lower that behind
/// them.
const UPPER_HALF: &str = "▀";

/// The colours of the two halves of a cell of the field; `None` where the theme fills
/// nothing.
fn halves(map: &FitMap, theme: Theme, field: Rect, (x, y): (u16, u16)) -> Option<[Color; 2]> {
    // Twice the rows: the halves are rows of their own.
    let tall = Rect {
        y: 0,
        height: 2 * field.height,
        ..field
    };
    let half = |lower: u16| {
        let row = 2 * (y - field.y) + lower;
        let cell = cell_at(cells(map), tall, x, row);
        let chance = cell.and_then(|(column, row)| map.chance(column, row));
        theme.filled_chance(chance.unwrap_or(0.0))
    };
    Some([half(0)?, half(1)?])
}

/// A mark over the field, on the colour that lies there.
fn over_field(theme: Theme, cell: &ratatui::buffer::Cell) -> Style {
    match cell.bg {
        Color::Reset => theme.strong(),
        ground => theme.strong().fg(theme.on_filled(ground)).bg(ground),
    }
}

/// The lines of the limits, each cell of them with dots over the field.
fn lines_of_chance(map: &FitMap, limits: [f64; 2], theme: Theme, field: Rect, buffer: &mut Buffer) {
    let half = |axis: &Axis| 0.5 * axis.step;
    let mut over = Buffer::empty(field);
    Canvas::default()
        .marker(theme.line_marker())
        .x_bounds([
            map.waists.first - half(&map.waists),
            map.waists.last() + half(&map.waists),
        ])
        .y_bounds([
            map.overhangs.first - half(&map.overhangs),
            map.overhangs.last() + half(&map.overhangs),
        ])
        .paint(|context| {
            for line in limits.iter().flat_map(|chance| map.lines(*chance)) {
                for pair in line.windows(2) {
                    let (from, to) = (pair[0], pair[1]);
                    let colour = theme.strong().fg.unwrap_or_default();
                    context.draw(&Stroke::new(from.0, from.1, to.0, to.1, colour));
                }
            }
        })
        .render(field, &mut over);
    for at in field.rows().flat_map(Rect::columns) {
        let symbol = over[(at.x, at.y)].symbol();
        if !symbol.trim().is_empty() && symbol != "⠀" {
            let style = over_field(theme, &buffer[(at.x, at.y)]);
            buffer.set_string(at.x, at.y, symbol, style);
        }
    }
}

/// How many columns and rows a map has.
const fn cells(map: &FitMap) -> (usize, usize) {
    (map.waists.count, map.overhangs.count)
}

/// The place of a cell's middle on the field.
fn place(map: &FitMap, field: Rect, (column, row): (usize, usize)) -> (u16, u16) {
    let share = |at: usize, count: usize, of: u16| {
        let at = (2 * at + 1) * usize::from(of) / (2 * count.max(1));
        u16::try_from(at).unwrap_or(0).min(of.saturating_sub(1))
    };
    let x = field.x + share(column, map.waists.count, field.width);
    let up = share(row, map.overhangs.count, field.height);
    (x, field.bottom() - 1 - up)
}

/// The axes with their names and millimetres, and what colours and marks mean.
fn scales(
    mapped: &FitMapResult,
    limits: [f64; 2],
    theme: Theme,
    body: Rect,
    field: Rect,
    buffer: &mut Buffer,
) {
    let map = &mapped.map;
    let width = usize::from(body.width);
    let mut put = |x: u16, y: u16, text: &str| {
        let room = usize::from(body.right().saturating_sub(x));
        if y < body.bottom() {
            buffer.set_stringn(x, y, text, room, theme.dim());
        }
    };
    put(body.x, body.y, "overhang of the discs, mm, upward");
    for overhang in whole(&map.overhangs) {
        if let Some(row) = map.overhangs.index_of(overhang) {
            let (_, y) = place(map, field, (0, row));
            put(body.x, y, &format!("{overhang:>4.1} ┤"));
        }
    }
    let below = field.bottom();
    let name = "waist, mm";
    put(body.x, below, name);
    let behind_name = body.x + u16::try_from(name.len()).unwrap_or(0);
    for waist in whole(&map.waists) {
        if let Some(column) = map.waists.index_of(waist) {
            let (x, _) = place(map, field, (column, 0));
            // The name takes the room of a number that lies under it.
            if x > behind_name {
                put(x, below, &format!("{waist:.0}"));
            }
        }
    }
    let [_, low, even, high, like, other, cursor] = theme.map_glyphs();
    let [least, most] = limits.map(|limit| format!("{:.0} %", 100.0 * limit));
    let marks = format!(
        "{like} size like it   {other} other size   {cursor} read here   lines: {least} and {most}"
    );
    put(body.x, below + 1, &fitted(&marks, width));
    let filled = CHANCES.map(|chance| theme.filled_chance(chance));
    if filled.iter().all(Option::is_none) {
        let shades = format!(
            "inside limits (geometry only): {low} under {least}   {even} from {least}   {high} from \
             {most}"
        );
        put(body.x, below + 2, &fitted(&shades, width));
        return;
    }
    let head = "inside limits (geometry only): ";
    put(body.x, below + 2, head);
    let mut x = body.x + u16::try_from(head.len()).unwrap_or(0);
    for (chance, colour) in CHANCES.into_iter().zip(filled) {
        let text = format!(" {:.0} %  ", 100.0 * chance);
        let needed = u16::try_from(text.len()).unwrap_or(0) + 2;
        if x + needed > body.right() || below + 2 >= body.bottom() {
            return;
        }
        let style = Style::new().bg(colour.unwrap_or_default());
        buffer.set_string(x, below + 2, "  ", style);
        buffer.set_string(x + 2, below + 2, text, theme.dim());
        x += needed;
    }
}

/// Chances whose colours the legend names.
const CHANCES: [f64; 5] = [0.05, 0.25, 0.5, 0.75, 0.95];

/// The whole millimetres of an axis.
fn whole(axis: &Axis) -> impl Iterator<Item = f64> {
    let (first, last) = (axis.first.ceil(), axis.last());
    std::iter::successors(Some(first), |value| Some(value + 1.0)).take_while(move |it| *it <= last)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_told_by_its_glyph() {
        assert_eq!(
            [0.0, 0.2, 0.5, 0.89, 0.9].map(|chance| glyph(chance, [0.5, 0.9], Theme::COLOUR)),
            [" ", "░", "▒", "▒", "▓"]
        );
        // Another centre's limits.
        let own = |chance| glyph(chance, [0.3, 0.8], Theme::COLOUR);
        assert_eq!([0.2, 0.4, 0.85].map(own), ["░", "▒", "▓"]);
    }

    #[test]
    fn a_scale_bears_whole_millimetres() {
        let axis = Axis {
            first: 3.4,
            step: 0.1,
            count: 30,
        };
        assert_eq!(whole(&axis).collect::<Vec<_>>(), [4.0, 5.0, 6.0]);
    }
}
