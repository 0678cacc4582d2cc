//! The rules of the house with their sources.

use super::{List, Seen, said};
use crate::tui::draw::lines;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Session, SourceKind};
use sizing::State;

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let title = match session.document().case().exceptions.len() {
        0 => session.document().rules().title.clone(),
        1 => format!("{}, 1 exception", session.document().rules().title),
        count => format!("{}, {count} exceptions", session.document().rules().title),
    };
    let title = visible(&title).into_owned();
    let area = lines::headed(frame, "Your centre's rules", &title, true, theme, area);
    let list = list(session, theme, area.width);
    let on = (area, Focus::Rules);
    list.draw(
        frame,
        session.view().selected[Focus::Rules],
        (false, theme),
        on,
        seen,
    );
}

/// The head over rules of one kind whose sources are alike.
fn head(kind: &'static str, source_kind: SourceKind, theme: Theme) -> Line<'static> {
    let source = match source_kind {
        SourceKind::Sourced => "",
        SourceKind::CommonPractice => ": common practice, no source",
        SourceKind::Assumption => ": assumption",
    };
    Line::from(vec![
        Span::styled(kind, theme.strong()),
        Span::styled(source, theme.dim()),
    ])
}

/// What the page says, line by line.
pub(in crate::tui::draw) fn list(session: &Session, theme: Theme, width: u16) -> List {
    let mut list = List::default();
    let selected = session.view().selected[Focus::Rules];
    let mut over = None;
    for rule in session.house_rules() {
        let source_kind = rule.source_kind();
        if over != Some((rule.kind, source_kind)) {
            list.say(vec![head(rule.kind, source_kind, theme)]);
            over = Some((rule.kind, source_kind));
        }
        let says = if rule.says.is_empty() {
            rule.about.clone()
        } else {
            format!("{}: {}", rule.about, rule.says)
        };
        let (text, style) = match (&rule.exception, &rule.rule) {
            (Some(exception), Some(house)) => (
                format!(
                    "! exception: {says} · because: {} · your centre: {} · {}",
                    exception.because,
                    house.stated.says(house.unit),
                    house.source
                ),
                theme.state(State::Caution),
            ),
            _ if source_kind == SourceKind::Sourced => {
                (format!("  {says} · {}", rule.source), theme.text())
            }
            _ => (format!("  {says}"), theme.text()),
        };
        list.entry(said(&text, style, width), selected, theme);
    }
    list
}
