//! The drawing of one bay on the whole page, with its dimension lines.

use super::pictures::Studio;
use super::{bay, lines};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use session::Session;

/// From this many columns on the heading says where it is cut; the picture does
/// too.
const ROOMY: u16 = 96;

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
    let shown = session.document().shown();
    let candidate = session
        .results()
        .assessed()
        .and_then(|it| it.candidate(one));
    let name = bay::name(session, one, candidate);
    let seen = "face-on seen from the left ventricle";
    let full = format!("cut to the {} · {seen}", shown.valve.label());
    let beside = if area.width >= ROOMY { &full } else { seen };
    let area = lines::headed(frame, &visible(&name), beside, true, theme, area);
    studio.draw_up(session, &bays);
    studio.draw(frame, theme, 0, area);
}
