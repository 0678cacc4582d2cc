//! The shapes and sizes there are, and what is not in stock today.

use super::{List, Seen, said};
use crate::text::fitted;
use crate::tui::draw::lines;
use crate::tui::theme::Theme;
use files::visible;
use geometry::{Disc, Face};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Session};
use sizing::{Shape, Size};

/// Columns of a size's label.
const LABEL: usize = 10;
/// Columns of a figure.
const FIGURE: usize = 8;

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let shelf = session.document().shelf();
    let all = shelf.names().count();
    let aside = shelf.names().filter(|name| shelf.is_aside(name)).count();
    let beside = match aside {
        0 => format!("{all} sizes; lengths in mm"),
        _ => format!("{all} sizes, {aside} not in stock today; lengths in mm"),
    };
    let area = lines::headed(frame, "Stock", &beside, true, theme, area);
    let list = list(session, theme, area.width);
    let on = (area, Focus::Shelf);
    list.draw(
        frame,
        session.view().selected[Focus::Shelf],
        (false, theme),
        on,
        seen,
    );
}

/// What the page says, line by line.
pub(in crate::tui::draw) fn list(session: &Session, theme: Theme, width: u16) -> List {
    let mut list = List::default();
    let selected = session.view().selected[Focus::Shelf];
    let shelf = session.document().shelf();
    for (_, shape) in shelf.shapes() {
        let origin = shelf.origin(&shape.id).says();
        let head = format!("{} · {} · {origin}", shape.id, shape.name);
        list.entry(said(&head, theme.strong(), width), selected, theme);
        list.say(said(&format!("  {}", shape.about), theme.dim(), width));
        list.say(said(&format!("  {}", stuff(shape)), theme.dim(), width));
        list.say(vec![Line::styled(heads(), theme.dim())]);
        for size in &shape.sizes {
            let is_aside = shelf.is_aside(&format!("{}/{}", shape.id, size.label));
            list.entry(vec![row(size, is_aside, theme, width)], selected, theme);
        }
    }
    list
}

/// What all sizes of a shape share.
fn stuff(shape: &Shape) -> String {
    let Some(size) = shape.sizes.first() else {
        return String::new();
    };
    let occluder = &size.occluder;
    format!(
        "conformability {}, braid angle {:.0}°",
        occluder.conformability,
        occluder.braid_angle.to_degrees()
    )
}

/// What stands over the figures of sizes.
fn heads() -> String {
    let figures = ["waist", "length", "left", "right", "sheath"].map(|it| format!("{it:>FIGURE$}"));
    format!("    {:<LABEL$}{}", "", figures.concat())
}

fn row(size: &Size, is_aside: bool, theme: Theme, width: u16) -> Line<'static> {
    let occluder = &size.occluder;
    let disc = |face| {
        let disc: Option<&Disc> = occluder.disc(face);
        disc.map_or_else(|| "–".to_owned(), |disc| figure(2.0 * disc.radius))
    };
    let figures = [
        figure(occluder.waist.diameter),
        figure(occluder.waist.length),
        disc(Face::Left),
        disc(Face::Right),
        format!("{} Fr", figure(size.sheath.french)),
    ]
    .map(|figure| format!("{figure:>FIGURE$}"));
    let (mark, says, style) = if is_aside {
        ("–", "  not in stock today", theme.dim())
    } else {
        (" ", "", theme.text())
    };
    let label = fitted(&visible(&size.label), LABEL);
    let text = format!("  {mark} {label}{}{says}", figures.concat());
    Line::from(Span::styled(fitted(&text, usize::from(width)), style))
}

/// A figure without zeros that say nothing.
fn figure(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
