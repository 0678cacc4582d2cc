//! What stands over everything: the case, the caution, the headline.

use super::seen::Seen;
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use paper::CAUTION_IN_A_LINE;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Page, Session, Target};
use sizing::{Answer, Ranking, State};
use unicode_width::UnicodeWidthStr;
use workup::Indication;

/// From this height on the names of the pages have a line of their own.
const ROOMY: u16 = 22;
/// From this height on an exception is told in full.
const TALL: u16 = 30;

/// The lines of the header for the size of the page.
pub(super) fn lines(session: &Session, theme: Theme, page: Rect) -> Vec<Line<'static>> {
    let width = page.width;
    let names = names(session, theme, page);
    let mut lines = if page.height < ROOMY {
        vec![title(session, theme, width, names.spans)]
    } else {
        let place = session
            .place_in_conference()
            .filter(|(_, count)| *count > 1);
        let place = place.map_or_else(String::new, |(place, count)| {
            format!(" case {} of {count} ·", place + 1)
        });
        let program = vec![Span::styled(format!("{place}{PROGRAM}"), theme.dim())];
        vec![title(session, theme, width, program), names]
    };
    for line in wrapped(CAUTION_IN_A_LINE, usize::from(width)) {
        lines.push(Line::styled(line, theme.dim()));
    }
    // What has no room is cut from below.
    let style = if headline_excludes(session) {
        theme.strong().patch(theme.state(State::Stop))
    } else {
        theme.strong()
    };
    for line in wrapped(&visible(&headline(session)), usize::from(width)) {
        lines.push(Line::styled(line, style));
    }
    let before_any_size = BeforeAnySize::of(session);
    let style = before_any_size
        .state
        .map_or(theme.text(), |state| theme.state(state));
    for line in wrapped(&visible(&before_any_size.says), usize::from(width)) {
        lines.push(Line::styled(line, style));
    }
    for line in exceptions(session, page) {
        lines.push(Line::styled(line, theme.state(State::Caution)));
    }
    if let Some(assessed) = session.results().assessed() {
        for said in above(&assessed.ranking) {
            for line in wrapped(&visible(&said), usize::from(width)) {
                lines.push(Line::styled(line, theme.state(State::Caution)));
            }
        }
    }
    lines
}

/// The names of the pages with their keys, the shown one marked. Where they share a
/// line with the title and both do not fit, the others are told by their keys alone.
fn names(session: &Session, theme: Theme, page: Rect) -> Line<'static> {
    let shared = page.height < ROOMY;
    let full = names_of(session, theme, true);
    let title = title_text(session).width();
    if shared && title + 1 + full.width() > usize::from(page.width) {
        names_of(session, theme, false)
    } else {
        full
    }
}

fn names_of(session: &Session, theme: Theme, all: bool) -> Line<'static> {
    let shown = session.view().focus.page();
    let mut spans = Vec::new();
    for page in Page::ALL {
        let key = session.keymap().keys(page.command()).first();
        let key = key.map_or_else(String::new, |key| format!("{key} "));
        if page == shown {
            spans.push(Span::styled(
                format!("[{key}{}]", page.name()),
                theme.heading(true),
            ));
        } else if !all {
            spans.push(Span::raw(format!(" {}", key.trim_end())));
        } else {
            spans.push(Span::raw(format!(" {key}{} ", page.name())));
        }
    }
    Line::from(spans)
}

/// Notes where the names of the pages stand: at the end of the first line of the
/// page, or on the second.
pub(super) fn note_names(session: &Session, top: Rect, page: Rect, seen: &mut Seen) {
    let names = names(session, Theme::of(session.view().looks), page);
    let width: usize = names.spans.iter().map(Span::width).sum();
    let width = u16::try_from(width).unwrap_or(u16::MAX).min(top.width);
    let (mut x, y) = if page.height < ROOMY {
        (top.right() - width, top.y)
    } else {
        (top.x, top.y + 1)
    };
    for (span, page) in names.spans.iter().zip(Page::ALL) {
        let width = u16::try_from(span.width()).unwrap_or(0);
        let room = Rect {
            x,
            y,
            width,
            height: 1,
        };
        seen.note(room.intersection(top), Target::Page(page));
        x = x.saturating_add(width);
    }
}

/// What guidance says against closing, or does not say for it; nothing where it is
/// met.
pub(super) fn guidance(session: &Session) -> Option<String> {
    let banner = &session.results().worked_up()?.page.banner;
    (banner.indication != Indication::Met).then(|| format!("!! {}", banner.says))
}

/// What bears on closing at all, whichever size: exclusions, the shunt, the pulmonary
/// resistance, guidance.
struct BeforeAnySize {
    says: String,
    /// What of it is grave.
    state: Option<State>,
}

impl BeforeAnySize {
    fn of(session: &Session) -> Self {
        let (exclusions, mut state) = exclusions(session);
        let mut parts = Vec::new();
        if headline_excludes(session) {
            state = None;
        } else {
            parts.push(exclusions);
        }
        if let Some(worked_up) = session.results().worked_up() {
            let page = &worked_up.page;
            let figure = |id: &str, name: &str| {
                let mut lines = page.sections.iter().flat_map(|section| &section.lines);
                let amount = lines.find(|line| line.id == id)?.amount?;
                let (value, unit) = (amount.number(amount.value), amount.unit.symbol());
                Some(format!("{name} {value} {unit}").trim_end().to_owned())
            };
            parts.extend(figure("qp_qs", "Qp:Qs"));
            parts.extend(figure("pulmonary_resistance_indexed", "PVRi"));
            if page.banner.indication == Indication::Met {
                parts.push("guidance for closing is met".to_owned());
            } else {
                parts.push(page.banner.says.clone());
                state = state.or(Some(State::Caution));
            }
            if page.banner.indication == Indication::No {
                state = Some(State::Stop);
            }
        }
        Self {
            says: parts.join(" · "),
            state,
        }
    }
}

/// Whether the headline names the exclusions, so that no line need repeat them.
fn headline_excludes(session: &Session) -> bool {
    let results = session.results();
    let assessed = results
        .assessed()
        .filter(|_| results.failure().is_none() && !session.shows_stale());
    assessed.is_some_and(|assessed| !assessed.ranking.excluded.is_empty())
}

/// The exclusions in a few words, and how grave that is.
fn exclusions(session: &Session) -> (String, Option<State>) {
    let rules = session.setting().rules();
    let site = session.document().case().site;
    let answers = rules
        .exclusions_for(site)
        .map(|one| (one, session.exclusion(&one.id)));
    let (mut excluded, mut open) = (Vec::new(), 0);
    for (exclusion, answered) in answers {
        match answered.map(|one| one.answer) {
            Some(Answer::Yes) => excluded.push(exclusion.fact.as_str()),
            Some(Answer::No) => {}
            Some(Answer::Unknown) | None => open += 1,
        }
    }
    match (excluded.as_slice(), open) {
        ([], 0) => ("No exclusion".to_owned(), None),
        ([], 1) => ("1 exclusion not answered".to_owned(), Some(State::Caution)),
        ([], open) => (
            format!("{open} exclusions not answered"),
            Some(State::Caution),
        ),
        ([one], _) => (format!("Excluded: {one}"), Some(State::Stop)),
        ([one, more @ ..], _) => (
            format!("Excluded: {one}, and {} more", more.len()),
            Some(State::Stop),
        ),
    }
}

/// The program with its version.
const PROGRAM: &str = concat!(" rimwise ", env!("CARGO_PKG_VERSION"));

/// What stands before the title while there is something to save.
const UNSAVED: &str = "● unsaved · ";

/// The case and its site on the left, and what stands on the right.
fn title(session: &Session, theme: Theme, width: u16, right: Vec<Span<'static>>) -> Line<'static> {
    let taken: usize = right.iter().map(Span::width).sum();
    let room = usize::from(width).saturating_sub(taken + 1);
    let title = format!("{} ", fitted_title(session, room));
    let mut spans = vec![Span::styled(title, theme.strong())];
    spans.extend(right);
    Line::from(spans)
}

/// The case and its site, and whether there is something to save.
fn title_text(session: &Session) -> String {
    let [mark, title, site] = title_parts(session);
    format!("{mark}{title}{site}")
}

fn title_parts(session: &Session) -> [String; 3] {
    let case = session.document().case();
    let mark = if session.is_unsaved() { UNSAVED } else { "" };
    let title = visible(&case.title).into_owned();
    [mark.to_owned(), title, format!(" · {}", case.site.label())]
}

/// The case and its site in a room: a long title is cut before the site is.
fn fitted_title(session: &Session, room: usize) -> String {
    let [mark, title, site] = title_parts(session);
    let rest = room.saturating_sub(mark.width() + site.width());
    if title.width() <= rest || rest < LEAST_TITLE {
        return fitted(&format!("{mark}{title}{site}"), room);
    }
    format!("{mark}{}{site}", fitted(&title, rest))
}

/// The least columns of a title that is cut.
const LEAST_TITLE: usize = 12;

/// The one sentence that says where things stand.
fn headline(session: &Session) -> String {
    if let Some(failure) = session.results().failure() {
        return format!("The assessment failed: {failure}. Change a reading to try again.");
    }
    let Some(headline) = session.headline() else {
        return "Assessing the catalogue …".to_owned();
    };
    let results = session.results();
    let progress = match results.assessed() {
        Some(_) if session.shows_stale() => " (before the last change; working)",
        Some(assessed) if assessed.draws == 0 => " (as measured; chances follow)",
        Some(_) if results.is_awaited() && session.says_it_works() => " (chances still rough)",
        _ => "",
    };
    format!("{headline}{progress}")
}

/// Most exceptions that are told in full over a page.
const MOST_EXCEPTIONS: usize = 3;

/// What the case excepts from the rules of the house: in full where there is room,
/// or what counts of each on a line.
fn exceptions(session: &Session, page: Rect) -> Vec<String> {
    let width = usize::from(page.width);
    let all = session.setting().exceptions();
    let shown = all.iter().take(MOST_EXCEPTIONS);
    let mut lines: Vec<String> = shown
        .flat_map(|says| {
            let says = format!("! exception: {says}");
            let says = visible(&says);
            if page.height < TALL {
                vec![fitted(&says, width)]
            } else {
                wrapped(&says, width)
            }
        })
        .collect();
    if let Some(more @ 1..) = all.len().checked_sub(MOST_EXCEPTIONS) {
        let more = format!("! and {more} more: see the rules page");
        lines.push(fitted(&more, width));
    }
    lines
}

/// What is said above a list, the gravest first.
fn above(ranking: &Ranking) -> Vec<String> {
    let contradictions = ranking.contradictions.iter().map(|one| one.says.clone());
    let mut said: Vec<String> = contradictions
        .map(|says| format!("≠ Contradiction: {says}"))
        .collect();
    said.extend(
        ranking
            .disputes()
            .map(|(_, says)| format!("≠ In dispute: {says}")),
    );
    said
}
