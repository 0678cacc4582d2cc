//! The page: what stands where at every size of terminal.
//!
//! Three layouts were weighed. *Lanes*: each shape a horizontal strip on one
//! millimetre ruler; good for one valve, but the wall lies down. *Dial*: a clock
//! in the middle and the readings round it; fine to teach, poor to compare.
//! *Bays on one level*, taken: every shape stands upright in a bay of its own, as
//! the heart does on its long axis, left ventricle left, arteries up; all bays
//! have one scale and one level, so the eye runs along the hinge from shape to
//! shape and sees which reaches it.

mod bay;
mod checks;
mod drawing;
mod field;
mod footer;
mod form;
mod guide;
mod header;
mod key_list;
mod lines;
mod openables;
mod pages;
mod pictures;
mod present;
mod question;
mod ranking;
mod readings;
mod seen;
mod small;
mod test_card;

use super::theme::Theme;
use files::visible;
pub(super) use pictures::Studio;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::Line;
pub(super) use seen::Seen;
use session::{Focus, Guide, Overlay, Page, Session};

/// Smaller than this the page is a few lines of essentials.
const LEAST_WIDTH: u16 = 60;
/// See [`LEAST_WIDTH`].
const LEAST_HEIGHT: u16 = 15;
/// From this width on the list of readings has a column of its own.
const WIDE: u16 = 110;
/// From this width on the ranked list has one too.
const VERY_WIDE: u16 = 170;
/// Lines of the ranked list where it lies under the bays.
const LIST_HEIGHT: u16 = 9;

/// Draws the page of a session, with the pictures that are kept; says what of it is
/// seen, and where.
pub(super) fn page(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    studio: &mut Studio,
) -> Seen {
    let area = frame.area();
    let mut seen = Seen::new(session.view().visible);
    let is_small = area.width < LEAST_WIDTH || area.height < LEAST_HEIGHT;
    if let Some(guide) = led(session) {
        let draw = if is_small { guide::small } else { guide::draw };
        draw(frame, session, guide, theme, area);
    } else if is_small {
        small::draw(frame, session, theme, area);
    } else {
        full(frame, session, theme, area, (&mut seen, studio));
    }
    let over = session.overlays().last();
    if !matches!(over, Some(Overlay::Drawing) | None) {
        studio.hide_pixels();
    }
    match over {
        Some(Overlay::Drawing) | None => return seen,
        Some(Overlay::TestCard) => test_card::draw(frame, session, theme, area),
        Some(Overlay::Guide(_)) => {}
        Some(Overlay::Field(field)) => field::draw(frame, field, theme, area),
        Some(Overlay::Reading(form)) => form::reading(frame, session, form, theme, area),
        Some(Overlay::Shelf(form)) => form::shelf(frame, session, form, theme, area),
        Some(Overlay::Exception(form)) => form::exception(frame, session, form, theme, area),
        Some(Overlay::Case(form)) => form::case(frame, session, form, theme, area),
        Some(Overlay::Question(question)) => question::draw(frame, question, theme, area),
        Some(Overlay::Commands(list)) => {
            seen.visible.overlay = key_list::draw(frame, session, list, theme, area);
        }
        Some(Overlay::Open(list)) => {
            seen.visible.overlay = openables::draw(frame, session, list, theme, area);
        }
    }
    // What lies over the page is not to be pointed through.
    Seen::new(seen.visible)
}

/// The guide that lies over the page, topmost or under a form.
fn led(session: &Session) -> Option<&Guide> {
    let mut layers = session.overlays().iter();
    layers.find_map(|layer| match layer {
        Overlay::Guide(guide) => Some(guide),
        _ => None,
    })
}

fn full(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    (seen, studio): (&mut Seen, &mut Studio),
) {
    let head = header::lines(session, theme, area);
    let head_height = u16::try_from(head.len())
        .unwrap_or(u16::MAX)
        .min(area.height / 3);
    let [top, body, foot] = Layout::vertical([
        Constraint::Length(head_height),
        Constraint::Min(1),
        Constraint::Length(footer::HEIGHT),
    ])
    .areas(area);
    pages::note_names(session, top, area, seen);
    lines::draw(frame, head, top);
    footer::draw(frame, session, theme, foot);
    let is_whole = session.overlays().contains(&Overlay::Drawing);
    if is_whole {
        drawing::draw(frame, session, theme, body, studio);
        return;
    }
    match session.view().focus.page() {
        Page::Plan if session.view().is_presented() => {
            present::draw(frame, session, theme, body, (seen, studio));
        }
        Page::Plan => plan(frame, session, theme, body, (seen, studio)),
        Page::Doubt => pages::doubt::draw(frame, session, theme, body, seen),
        Page::FitMap => pages::fit_map::draw(frame, session, theme, body, seen),
        Page::WorkUp => pages::work_up::draw(frame, session, theme, body, seen),
        Page::Rules => pages::rules::draw(frame, session, theme, body, seen),
        Page::Shelf => pages::shelf::draw(frame, session, theme, body, seen),
    }
}

fn plan(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    body: Rect,
    (seen, studio): (&mut Seen, &mut Studio),
) {
    let panels = Panels::of(body);
    readings::draw(frame, session, theme, panels.readings, seen);
    bay::draw_all(frame, session, theme, panels.bays, (seen, studio));
    ranking::draw(frame, session, theme, panels.ranking, seen);
}

/// The page as lines of text, the whole of its lists.
pub(super) fn text(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    match session.view().focus.page() {
        Page::Plan => {
            let mut lines = vec![Line::raw("Readings")];
            lines.extend(readings::all(session, theme, width));
            lines.push(Line::raw(
                "Ranked: rank, group, shape/size, verdict, inside limits (geometry only), nearest limit",
            ));
            lines.extend(ranking::all(session, theme, width));
            for candidate in session.listed().into_iter().take(session::MOST_BAYS) {
                lines.push(Line::raw(visible(&candidate.name()).into_owned()));
                lines.extend(checks::lines(candidate, &[], theme, width, usize::MAX));
            }
            lines
        }
        Page::Doubt => pages::doubt::list(session, theme, width).into_lines(),
        Page::FitMap => pages::fit_map::text(session, theme, width),
        Page::WorkUp => pages::work_up::list(session, theme, width).into_lines(),
        Page::Rules => pages::rules::list(session, theme, width).into_lines(),
        Page::Shelf => pages::shelf::list(session, theme, width).into_lines(),
    }
}

/// Where the three panels lie.
struct Panels {
    readings: Rect,
    bays: Rect,
    ranking: Rect,
}

impl Panels {
    /// Three columns, two columns with the list under the bays, or two with the
    /// list under the readings.
    fn of(body: Rect) -> Self {
        let beside = |constraints: [Constraint; 2], area: Rect| -> [Rect; 2] {
            Layout::horizontal(constraints).spacing(1).areas(area)
        };
        if body.width >= VERY_WIDE {
            let [readings, bays, ranking] = Layout::horizontal([
                Constraint::Length(46),
                Constraint::Min(1),
                Constraint::Length(48),
            ])
            .spacing(2)
            .areas(body);
            return Self {
                readings,
                bays,
                ranking,
            };
        }
        if body.width >= WIDE {
            let [readings, right] = beside([Constraint::Length(42), Constraint::Min(1)], body);
            let list = LIST_HEIGHT.min(right.height / 3);
            let [bays, ranking] =
                Layout::vertical([Constraint::Min(1), Constraint::Length(list)]).areas(right);
            return Self {
                readings,
                bays,
                ranking,
            };
        }
        let [left, bays] = beside([Constraint::Percentage(42), Constraint::Min(1)], body);
        let [readings, ranking] =
            Layout::vertical([Constraint::Fill(3), Constraint::Fill(2)]).areas(left);
        Self {
            readings,
            bays,
            ranking,
        }
    }
}

/// Whether a panel takes keys: the focused one, while nothing lies over it.
fn has_keys(session: &Session, panel: Focus) -> bool {
    session.view().focus == panel && session.overlays().is_empty()
}

#[cfg(test)]
pub(super) mod tests;
#[cfg(test)]
pub(super) use tests::test_candidates;
