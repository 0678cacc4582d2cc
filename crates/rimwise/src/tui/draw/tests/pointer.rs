//! What is pointed at is what is seen there.

use super::stage::{self, FEW, after, assessed, drawn, on_page, seen};
use crate::tui::drag::Drag;
use crate::tui::theme::Theme;
use ratatui::layout::Position;
use session::{Event, Focus, Page, Session, Target};

const SIZE: (u16, u16) = (120, 40);

/// The target on the first row of the page that holds a text, where it begins.
fn at(session: &Session, word: &str) -> Option<Target> {
    seen(session, SIZE).at(place(session, word))
}

/// The first line of the ranked list, as far as its name goes.
fn first_ranked(session: &Session) -> String {
    format!("  1 {}", sizing::device_name(&session.listed()[0].name()))
}

fn take(session: &mut Session, event: Option<Event>) {
    if let Some(event) = event {
        session.update(event);
    }
}

#[test]
fn readings_bays_candidates_and_pages_can_be_pointed_at() {
    let session = assessed("outlet-infant", FEW);
    let row = session.rows().iter().position(|row| {
        row.quantity()
            .is_some_and(|one| one.address() == "defect.short_axis")
    });
    assert_eq!(
        at(&session, "short axis"),
        row.map(|row| Target::Line(Focus::Readings, row))
    );
    assert_eq!(
        at(&session, "offset left 5 × 3"),
        Some(Target::Line(Focus::Bays, 1))
    );
    let second = session.listed()[1].place;
    let first = place(&session, &first_ranked(&session));
    let under = Position::new(first.x, first.y + 1);
    let target = seen(&session, SIZE).at(under);
    assert_eq!(target, Some(Target::Candidate(second)));
    assert_eq!(at(&session, "3 fit map"), Some(Target::Page(Page::FitMap)));
    assert_eq!(at(&session, "Ranked"), Some(Target::Panel(Focus::Ranking)));
    let doubt = on_page(&session, "2");
    assert_eq!(
        at(&doubt, "~0.0 ± 0.5 mm"),
        Some(Target::Line(Focus::Doubt, 0))
    );
}

#[test]
fn in_a_room_each_pinned_bay_can_be_pointed_at_and_reached() {
    let session = after(&assessed("outlet-infant", FEW), "tab tab end p P tab");
    assert_eq!(session.view().focus, Focus::Bays);
    let pinned = session.document().bays();
    let name = |bay: usize| sizing::device_name(&pinned[bay].name(session.document().shelf()));
    let last = pinned.len() - 1;
    assert!(last >= 2);
    assert_eq!(at(&session, &name(1)), Some(Target::Line(Focus::Bays, 1)));
    let moved = after(&session, &"right ".repeat(last));
    assert_eq!(moved.view().selected[Focus::Bays], last);
    assert_eq!(
        at(&moved, &name(last)),
        Some(Target::Line(Focus::Bays, last))
    );
}

#[test]
fn nothing_is_pointed_at_through_what_lies_over_the_page() {
    let session = after(&assessed("outlet-infant", FEW), "enter");
    assert_eq!(at(&session, "short axis"), None);
}

/// Where a text begins on the page.
fn place(session: &Session, word: &str) -> Position {
    stage::place(&drawn(session, Theme::COLOUR, SIZE), word)
}

#[test]
fn a_drag_along_a_reading_nudges_it_in_one_step_and_back_in_none() {
    let mut session = assessed("outlet-infant", FEW);
    let seen = seen(&session, SIZE);
    let mut at = place(&session, "short axis");
    let before = session.document().case().clone();
    let mut drag = Drag::default();
    take(&mut session, drag.press(&seen, at));
    for x in [at.x + 1, at.x + 3, at.x + 2] {
        take(&mut session, drag.drag(&seen, Position::new(x, at.y)));
    }
    assert_eq!(
        session.history().last_done(),
        Some("defect, short axis 3.9 → 4.1 mm")
    );
    assert_eq!(session.history().len(), 1);
    // The line is held, wherever the mouse goes.
    at.y += 5;
    take(&mut session, drag.drag(&seen, at));
    drag.release();
    assert_eq!(*session.document().case(), before);
    assert!(session.history().is_empty());
    take(
        &mut session,
        drag.drag(&seen, Position::new(at.x + 9, at.y)),
    );
    assert_eq!(
        *session.document().case(),
        before,
        "nothing is held any more"
    );
}

#[test]
fn a_drag_down_a_list_takes_the_selection_along() {
    let mut session = assessed("outlet-infant", FEW);
    let seen = seen(&session, SIZE);
    let mut at = place(&session, &first_ranked(&session));
    let mut drag = Drag::default();
    take(&mut session, drag.press(&seen, at));
    assert_eq!(session.listed_place(), Some(0));
    at.y += 2;
    take(&mut session, drag.drag(&seen, at));
    assert_eq!(session.listed_place(), Some(2));
    take(&mut session, drag.drag(&seen, Position::new(0, 8)));
    assert_eq!(session.view().focus, Focus::Ranking, "it stays in its list");
}

#[test]
fn the_fit_map_is_read_where_it_is_pressed_and_dragged() {
    let mut session = on_page(&assessed("outlet-infant", FEW), "3");
    let seen = seen(&session, SIZE);
    let mut drag = Drag::default();
    let mut cells = Vec::new();
    for x in [40, 60, 80] {
        let at = Position::new(x, 20);
        if x == 40 {
            take(&mut session, drag.press(&seen, at));
        } else {
            take(&mut session, drag.drag(&seen, at));
        }
        cells.push(session.cell().unwrap());
    }
    assert!(
        cells[0].0 < cells[1].0 && cells[1].0 < cells[2].0,
        "{cells:?}"
    );
    assert_eq!(cells[0].1, cells[2].1);
}
