//! The bays: two to four candidates side by side.

use super::lines;
use super::pictures::{Arrangement, Studio};
use super::ranking::chance;
use super::seen::Seen;
use super::{checks, has_keys};
use crate::text::{fitted, wrapped};
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
use unicode_width::UnicodeWidthStr;

/// The least columns of a bay.
pub(super) const LEAST_WIDTH: u16 = 22;
/// Columns between two bays.
pub(super) const GAP: u16 = 2;
/// The line of a bay's name, verdict and chance.
const HEAD: u16 = 1;
/// The line between picture and warnings: where the pictures are cut, and how large.
const CAPTION: u16 = 1;
/// Lines under a picture that say what is gravest: in how many lines of a bay one.
const LINES_A_WARNING: u16 = 6;
/// The least of them.
const LEAST_WARNINGS: u16 = 2;

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
    let most = usize::from((area.width / LEAST_WIDTH).max(1));
    let (first, bays) = window(session, most);
    if bays.is_empty() {
        return wait(frame, theme, area);
    }
    studio.draw_up(session, &bays);
    let columns = Layout::horizontal(bays.iter().map(|_| Constraint::Fill(1))).spacing(GAP);
    let rooms = columns.split(area);
    let pictures: Vec<Rect> = rooms.iter().map(|room| picture_room(*room)).collect();
    if studio.has_section() {
        studio.draw(frame, theme, &pictures);
    } else if !studio.has_left_out() {
        for room in &pictures {
            missing(frame, session, theme, *room);
        }
    }
    caption(frame, session, theme, (area, studio.arrangement()));
    let assessed = session.results().assessed();
    let beside = bays.iter().filter_map(|bay| assessed?.candidate(bay));
    let beside: Vec<&Candidate> = beside.collect();
    for (index, room) in rooms.iter().enumerate() {
        let selected = focused && first + index == session.view().selected[Focus::Bays];
        let bay = (&bays[index], selected);
        let legend = studio.legend(index, room.width);
        draw(frame, session, theme, bay, (&beside, legend), *room);
        note(session, &bays[index], *room, seen);
    }
}

/// Under the pictures: where they are cut, and a length to scale.
fn caption(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    (area, arrangement): (Rect, Arrangement),
) {
    let pictures = picture_room(area);
    let line = Rect {
        y: pictures.bottom(),
        height: CAPTION.min(area.bottom().saturating_sub(pictures.bottom())),
        ..area
    };
    let width = usize::from(area.width);
    let seen_from = seen_from(session, arrangement, area.width);
    let said = lines::of_before(session.shows_stale(), &seen_from);
    // Which side is left is said whole, or a picture is taken for its mirror image: the
    // bar takes what is over.
    let over = width.saturating_sub(said.width() + LENGTH_SAID + 2);
    let scale = scale_bar(arrangement.scale(), over.min(width / 4));
    let room = width.saturating_sub(scale.width() + 2);
    let said = format!("{}  {scale}", fitted(said, room));
    lines::draw(frame, vec![Line::styled(said, theme.dim())], line);
}

/// Columns of the length behind a bar, at most.
const LENGTH_SAID: usize = " 10 mm".len();

/// A line as long as some whole millimetres at a scale of columns a millimetre, and
/// how many; nothing where there is no room or no scale.
fn scale_bar(scale: f64, most: usize) -> String {
    let lengths = [10, 5, 2, 1];
    let drawn = lengths.into_iter().find_map(|length| {
        let columns = (f64::from(length) * scale).round();
        let fits = columns >= 2.0 && columns <= most as f64;
        fits.then_some((length, columns))
    });
    let Some((length, columns)) = drawn else {
        return String::new();
    };
    let count = (0..most).take_while(|&at| (at as f64) < columns).count();
    format!("{} {length} mm", "━".repeat(count))
}

/// The left half of the bays, over which the readings lie where they have no column.
pub(super) fn left_half(area: Rect) -> Rect {
    let [left, _] = Layout::horizontal([Constraint::Fill(1), Constraint::Fill(1)])
        .spacing(GAP)
        .areas(area);
    left
}

/// Every check of the selected bay, with margins, chances and sentences.
pub(super) fn draw_checks(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    seen.note(area, Target::Panel(Focus::Bays));
    let (_, bays) = window(session, 1);
    let Some(bay) = bays.first() else { return };
    let assessed = session.results().assessed();
    let candidate = assessed.and_then(|assessed| assessed.candidate(bay));
    let name = format!("Checks of {}", name(session, bay, candidate));
    let beside = lines::of_before(session.shows_stale(), "margin and chance");
    let under = lines::headed(frame, &visible(&name), beside, true, theme, area);
    let Some(candidate) = candidate else { return };
    let told = checks::lines(
        candidate,
        &[],
        theme,
        under.width,
        usize::from(under.height),
    );
    lines::draw(
        frame,
        lines::stale(told, session.shows_stale(), theme),
        under,
    );
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
    (beside, legend): (&[&Candidate], Option<String>),
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
    let top = pictures.bottom() + CAPTION;
    let below = Rect {
        y: top,
        height: area.bottom().saturating_sub(top),
        ..area
    };
    let Some(candidate) = candidate else { return };
    let mut told: Vec<Line> = legend
        .map(|says| Line::styled(says, theme.dim()))
        .into_iter()
        .collect();
    let room = usize::from(below.height).saturating_sub(told.len());
    told.extend(checks::gravest(candidate, beside, theme, area.width, room));
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
    let width = usize::from(width);
    let Some(candidate) = candidate else {
        let name = fitted(&visible(&name), width);
        return vec![Line::styled(name, style)];
    };
    let verdict = candidate.judged.verdict;
    let said = format!("{} {}", told::verdict_glyph(verdict), verdict.word());
    let chance = format!("  {}", chance(candidate));
    let room = width.saturating_sub(said.width() + chance.width() + 1);
    // Where the short side points is said where it has room; the pictures show it.
    let short = name.split(", ").next().unwrap_or_default();
    let name = if visible(&name).width() <= room {
        &name
    } else {
        short
    };
    let name = fitted(&visible(name), room.min(visible(name).width()));
    let gap = " ".repeat(width.saturating_sub(name.width() + said.width() + chance.width()));
    let (verdict, chance_style) = if session.shows_stale() {
        (theme.stale(), theme.stale())
    } else {
        (theme.verdict(verdict), theme.text())
    };
    vec![Line::from(vec![
        Span::styled(name, style),
        Span::raw(gap),
        Span::styled(said, verdict),
        Span::styled(chance, chance_style),
    ])]
}

/// What stands in a bay, how it is turned, and whether it is in stock today.
pub(super) fn name(session: &Session, bay: &Bay, candidate: Option<&Candidate>) -> String {
    let short_side = candidate.and_then(told::short_side);
    let turn = match (short_side, bay.turn) {
        (Some(side), None) => format!(", {side}"),
        (Some(side), Some(_)) => format!(", {side}, by hand"),
        (None, Some(turn)) => format!(" turned {turn}° by hand"),
        (None, None) => String::new(),
    };
    let aside = if candidate.is_some_and(|candidate| !candidate.is_on_shelf) {
        " – not in stock"
    } else {
        ""
    };
    let name = sizing::device_name(&bay.name(session.document().shelf()));
    format!("{name}{aside}{turn}")
}

/// Where the pictures of a bay lie: under the heading; what the gravest checks say
/// stands below the caption.
fn picture_room(area: Rect) -> Rect {
    let room = area.height.saturating_sub(HEAD);
    let warnings = (area.height / LINES_A_WARNING).max(LEAST_WARNINGS);
    let height = room
        .saturating_sub(CAPTION + warnings)
        .max(room.div_ceil(2));
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
