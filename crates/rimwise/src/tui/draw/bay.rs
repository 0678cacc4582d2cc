//! The bays: two to four candidates side by side.

use super::lines;
use super::pictures::{Arrangement, Studio};
use super::ranking::chance;
use super::seen::Seen;
use super::{checks, has_keys};
use crate::text::{fitted_at_end, wrapped};
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use geometry::Face;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use scene::View;
use session::{Bay, Focus, Session, Target};
use sizing::{Candidate, Neighbour};

/// The least columns of a bay.
pub(super) const LEAST_WIDTH: u16 = 22;
/// Lines of a bay's name and verdict.
const HEAD: u16 = 2;
/// Lines under a picture that say what is gravest.
const FOOT: u16 = 5;

/// Draws every bay there is room for, the selected one among them; where none is
/// pinned, the candidate selected in the list.
pub(super) fn draw_all(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    (seen, studio): (&mut Seen, &mut Studio),
) {
    seen.note(area, Target::Panel(Focus::Bays));
    let focused = has_keys(session, Focus::Bays);
    let under = Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(1),
        ..area
    };
    let most = usize::from((area.width / LEAST_WIDTH).max(1));
    let (first, bays) = window(session, most);
    if bays.is_empty() {
        let beside = lines::of_before(session.shows_stale(), "");
        lines::headed(frame, "Side by side", beside, focused, theme, area);
        return wait(frame, theme, under);
    }
    studio.draw_up(session, &bays);
    let columns = Layout::horizontal(bays.iter().map(|_| Constraint::Fill(1))).spacing(1);
    let rooms = columns.split(under);
    let pictures: Vec<Rect> = rooms.iter().map(|room| picture_room(*room)).collect();
    if studio.has_section() {
        studio.draw(frame, theme, &pictures);
    } else if !studio.has_left_out() {
        for room in &pictures {
            missing(frame, session, theme, *room);
        }
    }
    let seen_from = seen_from(session, studio.arrangement(), area.width);
    let beside = lines::of_before(session.shows_stale(), &seen_from);
    lines::headed(frame, "Side by side", beside, focused, theme, area);
    let assessed = session.results().assessed();
    let beside = bays.iter().filter_map(|bay| assessed?.candidate(bay));
    let beside: Vec<&Candidate> = beside.collect();
    for (index, room) in rooms.iter().enumerate() {
        let selected = focused && first + index == session.view().selected[Focus::Bays];
        let bay = (&bays[index], selected);
        draw(frame, session, theme, bay, &beside, *room);
        note(session, &bays[index], *room, seen);
    }
}

/// Where the pictures are cut and from where they are seen, in so many columns.
pub(super) fn seen_from(session: &Session, arrangement: Arrangement, width: u16) -> String {
    /// From this many columns on it is said in whole words.
    const ROOMY: u16 = 70;
    /// From this many columns on all of it is said.
    const WIDE: u16 = 100;
    let shown = session.document().shown();
    let valve = shown.valve.label();
    let is_absent = session
        .document()
        .case()
        .is_absent(Neighbour::Valve(shown.valve));
    let left = session.view().looks.section_left;
    let mut said = match (is_absent, width >= ROOMY) {
        (true, true) => format!("{valve} out of reach"),
        (true, false) => "out of reach".to_owned(),
        (false, true) => format!("cut to the {valve}"),
        (false, false) => format!("to the {valve}"),
    };
    if arrangement.is_corner && !is_absent {
        said.push_str(", enlarged");
    }
    if width < ROOMY {
        return said;
    }
    if arrangement.has_face_on() {
        let side = match shown.face {
            Face::Left => "left",
            Face::Right => "right",
        };
        said = format!("{said} · face-on from the {side} ventricle");
        if width < WIDE {
            return said;
        }
    }
    format!("{said} · {} on the left", left.word())
}

/// The pinned bays and, while the list has the keys, before them the candidate
/// selected in it, pinned or not: the drawings follow the selection.
fn shown_bays(session: &Session) -> Vec<Bay> {
    let mut bays = session.document().bays().to_vec();
    let follows = session.view().focus == Focus::Ranking || bays.is_empty();
    if let Some(candidate) = session.candidate().filter(|_| follows) {
        let bay = Bay::new(candidate.place);
        bays.retain(|pinned| *pinned != bay);
        bays.truncate(session::MOST_BAYS - 1);
        bays.insert(0, bay);
    }
    bays
}

/// Where the first bay that is shown stands among all, and those that are shown
/// where there is room for so many: the selected one among them.
pub(super) fn window(session: &Session, most: usize) -> (usize, Vec<Bay>) {
    let bays = shown_bays(session);
    // While the bays follow the list, what is selected there stands first.
    let wanted = match session.view().focus {
        Focus::Ranking => 0,
        _ => session.view().selected[Focus::Bays],
    };
    let first = lines::first_shown(wanted, bays.len(), most);
    (first, bays.into_iter().skip(first).take(most).collect())
}

/// Says why there is no bay yet.
pub(super) fn wait(frame: &mut Frame, theme: Theme, area: Rect) {
    let waits = Line::styled("assessing the catalogue …", theme.dim());
    lines::draw(frame, vec![waits], area);
}

/// Notes where a bay is seen, if it is pinned.
pub(super) fn note(session: &Session, bay: &Bay, room: Rect, seen: &mut Seen) {
    let mut pinned = session.document().bays().iter();
    if let Some(bay) = pinned.position(|pinned| pinned == bay) {
        seen.note(room, Target::Line(Focus::Bays, bay));
    }
}

/// Name, verdict and checks of a bay; the pictures lie between.
fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    (bay, selected): (&Bay, bool),
    beside: &[&Candidate],
    area: Rect,
) {
    let results = session.results();
    let candidate = results
        .assessed()
        .and_then(|assessed| assessed.candidate(bay));
    let head = Rect {
        height: HEAD.min(area.height),
        ..area
    };
    lines::draw(
        frame,
        heading(session, theme, bay, candidate, selected, area.width),
        head,
    );
    let pictures = picture_room(area);
    let below = Rect {
        y: pictures.bottom(),
        height: area.bottom().saturating_sub(pictures.bottom()),
        ..area
    };
    let Some(candidate) = candidate else { return };
    let room = usize::from(below.height);
    let told = checks::lines(candidate, beside, theme, area.width, room);
    lines::draw(
        frame,
        lines::stale(told, session.shows_stale(), theme),
        below,
    );
}

fn heading(
    session: &Session,
    theme: Theme,
    bay: &Bay,
    candidate: Option<&Candidate>,
    selected: bool,
    width: u16,
) -> Vec<Line<'static>> {
    let name = name(session, bay, candidate);
    let style = if selected {
        theme.selected(true)
    } else {
        theme.strong()
    };
    let second = candidate.map_or_else(
        || Line::styled("assessing …", theme.dim()),
        |candidate| {
            let verdict = candidate.judged.verdict;
            let chance = format!("  {}", chance(candidate));
            let said = format!("{} {}", told::verdict_glyph(verdict), verdict.word());
            Line::from(vec![
                Span::styled(said, theme.verdict(verdict)),
                Span::raw(chance),
            ])
        },
    );
    let name = fitted_at_end(&visible(&name), usize::from(width));
    let mut lines = vec![Line::styled(name, style)];
    lines.extend(lines::stale(vec![second], session.shows_stale(), theme));
    lines
}

/// What stands in a bay, how it is turned, and whether it is in stock today.
pub(super) fn name(session: &Session, bay: &Bay, candidate: Option<&Candidate>) -> String {
    let is_offset = candidate.is_some_and(|candidate| candidate.size.occluder.is_offset());
    let turn = match (is_offset, candidate, bay.turn) {
        (true, Some(candidate), None) => format!(" @{:.0}°", candidate.turn.to_degrees()),
        (true, _, Some(turn)) => format!(" @{turn}° by hand"),
        _ => String::new(),
    };
    let aside = if candidate.is_some_and(|candidate| !candidate.is_on_shelf) {
        " – not in stock"
    } else {
        ""
    };
    format!("{}{turn}{aside}", bay.name(session.document().shelf()))
}

/// Where the pictures of a bay lie: under the heading, and at least half of what is
/// there; what the gravest checks say stands below.
fn picture_room(area: Rect) -> Rect {
    let room = area.height.saturating_sub(HEAD);
    let height = room
        .div_ceil(2)
        .max((2 * room / 3).min(room.saturating_sub(FOOT)));
    Rect {
        y: area.y + HEAD.min(area.height),
        height,
        ..area
    }
}

/// Why there is no picture.
fn missing(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    let view = View::Section(session.document().shown().valve);
    let missing: Vec<&str> = view
        .missing(session.setting())
        .into_iter()
        .map(measurement::Quantity::label)
        .collect();
    let why = format!("not drawn without {}", missing.join(", "));
    let text = wrapped(&why, usize::from(area.width));
    lines::draw(
        frame,
        text.into_iter()
            .map(|line| Line::styled(line, theme.dim()))
            .collect(),
        area,
    );
}
