//! The drawing of one bay on the whole page, with its dimension lines.

use super::pictures::Studio;
use super::{bay, lines};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use session::Session;

/// Draws the selected bay, or what is selected in the list.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    studio: &mut Studio,
) {
    let (_, bays) = bay::window(session, 1);
    let Some(one) = bays.first() else {
        return;
    };
    let candidate = session
        .results()
        .assessed()
        .and_then(|it| it.candidate(one));
    let name = bay::name(session, one, candidate);
    studio.draw_up(session, &bays);
    let under = Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(1),
        ..area
    };
    studio.draw_alone(frame, theme, &[under]);
    let mut beside = bay::seen_from(session, studio.arrangement(), area.width);
    if let Some(legend) = studio.legend(0, area.width / 2) {
        beside = format!("{beside} · {legend}");
    }
    lines::headed(frame, &visible(&name), &beside, true, theme, area);
}
