//! The page: what stands where at every size of terminal.
//!
//! Pictures first: two devices on one level and one scale over the width there is, the
//! ranked list under them and the readings in a narrow column, or over the left device
//! where there is no column. docs/decisions/the-plan-page.md has what else was weighed.

mod bay;
mod checks;
mod drawing;
mod field;
mod finder;
mod footer;
mod form;
mod guide;
mod header;
mod key_list;
mod lesson;
mod lines;
mod look_back;
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
mod why;

use super::theme::Theme;
use files::visible;
pub(super) use pictures::{Studio, orientation};
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::Line;
use ratatui::widgets::Clear;
pub(super) use seen::Seen;
use session::{Focus, Guide, LessonPlay, LookBackPage, Overlay, Page, Session, WhyWalk};

/// Smaller than this the page is a few lines of essentials.
const LEAST_WIDTH: u16 = 60;
/// See [`LEAST_WIDTH`].
const LEAST_HEIGHT: u16 = 15;
/// From this width on the list of readings has a column of its own.
const WIDE: u16 = 110;
/// From this width on the ranked list has one too.
const VERY_WIDE: u16 = 170;
/// Columns of the readings on such a page.
const READINGS: u16 = 38;
/// Lines of the ranked list where it lies under the bays, with its heading.
const LIST_HEIGHT: u16 = 10;
/// The least of them.
const LEAST_LIST: u16 = 4;

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
    if let Some(page) = looked_back(session) {
        seen.visible.overlay = look_back::draw(frame, session, page, theme, area);
    } else if let Some(play) = played(session) {
        lesson::draw(frame, session, play, theme, (area, studio));
    } else if let Some(walk) = walked(session) {
        why::draw(frame, session, walk, theme, (area, studio));
    } else if let Some(guide) = led(session) {
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
        Some(Overlay::Guide(_) | Overlay::Lesson(_) | Overlay::Why(_) | Overlay::LookBack(_)) => {}
        Some(Overlay::Field(field)) => field::draw(frame, field, theme, area),
        Some(Overlay::Reading(form)) => form::reading(frame, session, form, theme, area),
        Some(Overlay::Shelf(form)) => form::shelf(frame, session, form, theme, area),
        Some(Overlay::Criterion(form)) => form::criterion(frame, session, form, theme, area),
        Some(Overlay::Observation(form)) => form::observation(frame, session, form, theme, area),
        Some(Overlay::Exception(form)) => form::exception(frame, session, form, theme, area),
        Some(Overlay::Case(form)) => form::case(frame, session, form, theme, area),
        Some(Overlay::Question(question)) => question::draw(frame, question, theme, area),
        Some(Overlay::Commands(list)) => {
            seen.visible.overlay = key_list::draw(frame, session, list, theme, area);
        }
        Some(Overlay::Find(finder)) => {
            seen.visible.overlay = finder::draw(frame, session, finder, theme, area);
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

/// The lesson that lies over the page, topmost or under a question.
fn played(session: &Session) -> Option<&LessonPlay> {
    let mut layers = session.overlays().iter();
    layers.find_map(|layer| match layer {
        Overlay::Lesson(play) => Some(play),
        _ => None,
    })
}

/// The walk through the neighbours of a size that lies over the page.
fn walked(session: &Session) -> Option<&WhyWalk> {
    let mut layers = session.overlays().iter();
    layers.find_map(|layer| match layer {
        Overlay::Why(walk) => Some(walk),
        _ => None,
    })
}

/// The look-back that lies over the page, topmost or under a question.
fn looked_back(session: &Session) -> Option<&LookBackPage> {
    let mut layers = session.overlays().iter();
    layers.find_map(|layer| match layer {
        Overlay::LookBack(page) => Some(page),
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
    header::note_names(session, top, area, seen);
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
        Page::Trials => pages::trials::draw(frame, session, theme, body, seen),
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
    seen.visible.readings_lie_over = panels.readings.is_none();
    bay::draw_all(frame, session, theme, panels.bays, (seen, studio));
    if has_table(session, &panels) {
        bay::draw_checks(frame, session, theme, panels.ranking, seen);
    } else {
        ranking::draw(frame, session, theme, panels.ranking, seen);
    }
    if let Some(area) = panels.readings {
        readings::draw(frame, session, theme, area, seen);
    } else if session.view().lists_readings() {
        let area = bay::left_half(panels.bays);
        let with_gap = Rect {
            width: area.width + bay::GAP.min(panels.bays.width - area.width),
            ..area
        };
        frame.render_widget(Clear, with_gap);
        readings::draw(frame, session, theme, area, seen);
    }
}

/// Whether every check of the selected bay stands in the place of the ranked list:
/// while the bays have the keys and there is no third column.
fn has_table(session: &Session, panels: &Panels) -> bool {
    session.view().focus == Focus::Bays && panels.ranking.y > panels.bays.y
}

/// The page as lines of text, the whole of its lists.
pub(super) fn text(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    match session.view().focus.page() {
        Page::Plan => {
            let mut lines = vec![Line::raw("Readings")];
            lines.extend(readings::all(session, theme, width));
            lines.push(Line::raw(
                "Ranked: rank, device with waist × length in mm, verdict, inside limits (geometry only), nearest limit",
            ));
            lines.extend(ranking::all(session, theme, width));
            for candidate in session.listed().into_iter().take(session::MOST_BAYS) {
                lines.push(Line::raw(
                    visible(&sizing::device_name(&candidate.name())).into_owned(),
                ));
                lines.extend(checks::lines(candidate, &[], theme, width, usize::MAX));
            }
            lines
        }
        Page::Doubt => pages::doubt::list(session, theme, width).into_lines(),
        Page::FitMap => pages::fit_map::text(session, theme, width),
        Page::WorkUp => pages::work_up::list(session, theme, width).into_lines(),
        Page::Rules => pages::rules::list(session, theme, width).into_lines(),
        Page::Shelf => pages::shelf::list(session, theme, width).into_lines(),
        Page::Trials => pages::trials::text(session, theme, width),
    }
}

/// Where the three panels lie.
struct Panels {
    /// `None`: they lie over the left bay while they have the keys.
    readings: Option<Rect>,
    bays: Rect,
    ranking: Rect,
}

impl Panels {
    /// Three columns; two with the list under the bays; or the bays over the list.
    fn of(body: Rect) -> Self {
        if body.width >= VERY_WIDE {
            let [readings, bays, ranking] = Layout::horizontal([
                Constraint::Length(READINGS),
                Constraint::Min(1),
                Constraint::Length(79),
            ])
            .spacing(2)
            .areas(body);
            return Self {
                readings: Some(readings),
                bays,
                ranking,
            };
        }
        let (readings, right) = if body.width >= WIDE {
            let columns = Layout::horizontal([Constraint::Length(READINGS), Constraint::Min(1)]);
            let [readings, right] = columns.spacing(2).areas(body);
            (Some(readings), right)
        } else {
            (None, body)
        };
        let list = (right.height / 4).clamp(LEAST_LIST, LIST_HEIGHT);
        let [bays, ranking] =
            Layout::vertical([Constraint::Min(1), Constraint::Length(list)]).areas(right);
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
