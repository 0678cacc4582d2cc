//! The rules of the house with their sources.

use super::{List, Seen, said};
use crate::tui::draw::lines;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use session::{Focus, Session};

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let title = visible(&session.document().rules().title).into_owned();
    let area = lines::headed(frame, "House rules", &title, true, theme, area);
    let list = list(session, theme, area.width);
    let on = (area, Focus::Rules);
    seen.rooms.rules = list.draw(frame, session.view().rule, (false, theme), on, seen);
}

/// What the page says, line by line.
pub(in crate::tui::draw) fn list(session: &Session, theme: Theme, width: u16) -> List {
    let mut list = List::default();
    let selected = session.view().rule;
    let mut kind = "";
    for rule in session.house_rules() {
        if rule.kind != kind {
            list.say(vec![Line::styled(rule.kind, theme.strong())]);
            kind = rule.kind;
        }
        let says = if rule.says.is_empty() {
            rule.about.clone()
        } else {
            format!("{}: {}", rule.about, rule.says)
        };
        let text = format!("  {says} · {}", rule.source);
        list.entry(said(&text, theme.text(), width), selected, theme);
    }
    list
}
