//! Keys in, state out, without a terminal.

mod glance;
mod any_keys;

use crate::fixture::{self, assess, press};
use crate::{Bay, Command, Session};
use glance::{glance, opened};
use std::collections::BTreeSet;

/// The state a line describes, the keys pressed, and a line of the state after.
fn check(before: &str, keys: &str, after: &str) {
    let mut session = opened(before);
    press(&mut session, keys);
    let lines = glance(&session);
    assert!(lines.iter().any(|line| line == after), "{before} + {keys}: {lines:#?}");
}

/// For each command: before, keys, after.
const COMMANDS: &[(&str, &str, &str, &str)] = &[
    ("more", "aortic.rim 1.5", "right right", "aortic.rim 1.7"),
    ("more", "aortic.rim 1.5", "+ =", "aortic.rim 1.7"),
    ("more", "aortic.rim 60.0", "right", "says 60.0 mm is the most that is accepted"),
    ("less", "aortic.rim 1.5", "left - h", "aortic.rim 1.2"),
    ("less", "aortic.rim 0.0", "left", "says 0.0 mm is the least that is accepted"),
    ("much_more", "aortic.rim 1.5", "shift-right L", "aortic.rim 2.5"),
    ("much_less", "aortic.rim 1.5", "shift-left H", "aortic.rim 0.5"),
    ("type_value", "aortic.rim 1.5", "2 . 4 enter", "aortic.rim 2.4"),
    ("type_value", "aortic.rim 1.5", "enter backspace 8 enter", "aortic.rim 1.8"),
    ("type_value", "aortic.rim 1.5", "7 0 enter", "error expected mm, 0.0 to 60.0"),
    ("type_value", "aortic.rim 1.5", "7 x enter", "error expected mm, 0.0 to 60.0"),
    ("type_value", "aortic.rim 1.5", "7 esc", "aortic.rim 1.5"),
    ("type_doubt", "aortic.rim 1.5", "d ctrl-u 0 , 8 enter", "aortic.rim sd 0.8"),
    ("type_doubt", "aortic.rim 1.5", "d ctrl-u enter", "aortic.rim sd house"),
    ("type_doubt", "aortic.rim 1.5", "d ctrl-u 0 enter", "error expected mm, above 0, at most 60.0"),
    ("set_aside", "aortic.rim 1.5", "s o b l i q u e enter", "aortic.rim aside oblique"),
    ("set_aside", "aortic.rim 1.5", "s o enter s", "says restored: aortic valve rim 1.5 mm"),
    ("set_aside", "aortic.rim 1.5", "s space enter", "error expected a reason"),
    ("add_reading", "vein.diameter unread", "a 4 . 5 enter", "vein.diameter 4.5"),
    ("add_reading", "vein.diameter unread", "4 enter", "vein.diameter 4"),
    ("add_reading", "aortic.sag 1", "right", "aortic.sag 1.1"),
    ("answer", "exclusion cusp_in_defect", "space", "exclusion cusp_in_defect unknown"),
    ("answer", "exclusion cusp_in_defect", "space space", "exclusion cusp_in_defect yes"),
    ("answer", "fact Prolapse", "space space space", "fact Prolapse no"),
    ("answer", "aortic.rim 1.5", "space", "says no question is selected"),
    ("no_such_neighbour", "absent mitral_valve", "n", "says there may be a mitral valve beside it"),
    ("no_such_neighbour", "absent mitral_valve", "n n", "absent mitral_valve"),
    (
        "no_such_neighbour",
        "aortic.rim 1.5",
        "n",
        "says 4 readings of the aortic valve in use: set aside what is wrong first",
    ),
    ("no_such_neighbour", "vein.diameter 4", "n", "says no neighbour is selected that could be missing"),
    ("pin", "ranking even-wide/5x3", "p", "bays even-wide/5x3"),
    ("pin", "ranking even-wide/5x3", "p p", "says it is pinned already"),
    ("unpin", "bays even-wide/5x3 offset-left/5x3", "p", "bays offset-left/5x3"),
    ("next_size", "bays even-wide/5x3", ".", "bays even-wide/5x4"),
    ("next_size", "bays even-wide/12x4", ".", "says it is the last size of its shape"),
    ("previous_size", "bays even-wide/5x4", ",", "bays even-wide/5x3"),
    ("next_shape", "bays even-wide/5x3", ">", "bays even-medium/5x3"),
    ("previous_shape", "bays even-medium/5x3", "<", "bays even-wide/5x3"),
    ("previous_shape", "bays even-wide/5x3", "shift-up", "says it is the first shape"),
    ("turn", "bays offset-left/5x3 at 30", "t t", "bays offset-left/5x3 at 60"),
    ("turn", "bays even-wide/5x3", "t", "says its discs are on the axis: a turn changes nothing"),
    ("turn_back", "bays offset-left/5x3 at 0", "T", "bays offset-left/5x3 at 345"),
    ("best_turn", "bays offset-left/5x3 at 30", "b", "bays offset-left/5x3"),
    ("best_turn", "bays offset-left/5x3", "b", "says it is at its best turn"),
    ("swap_discs", "bays larger-left/5x3", "x", "bays larger-left/5x3 swapped"),
    ("swap_discs", "bays larger-left/5x3", "x x", "bays larger-left/5x3"),
    ("swap_discs", "bays even-wide/5x3", "x", "says its two sides are alike"),
    ("next_bay", "bays even-wide/5x3 offset-left/5x3", "right right", "bay 1"),
    ("previous_bay", "bays even-wide/5x3 offset-left/5x3", "right left left", "bay 0"),
    ("filter", "ranking even-wide/5x3", "/ p l u g enter", "filter plug"),
    ("only_verdict", "ranking even-wide/5x3", "o o", "filter tight"),
    ("only_verdict", "ranking even-wide/5x3", "o o o o", "filter "),
    ("show_all", "ranking even-wide/5x3", "o / x enter c", "filter "),
    ("undo", "aortic.rim 1.5", "right right u", "aortic.rim 1.5"),
    ("undo", "aortic.rim 1.5", "right ctrl-z", "says undone: aortic valve rim 1.5 → 1.6 mm"),
    ("undo", "aortic.rim 1.5", "u", "says nothing to undo"),
    ("redo", "aortic.rim 1.5", "right right u U", "aortic.rim 1.7"),
    ("redo", "aortic.rim 1.5", "ctrl-y", "says nothing to redo"),
    ("close", "aortic.rim 1.5", "z esc", "layers 0"),
    ("close", "aortic.rim 1.5", "? x esc", "layers 1"),
    ("close", "aortic.rim 1.5", "? x esc esc", "layers 0"),
    ("commands", "aortic.rim 1.5", "? r e d o", "layers 1"),
    ("commands", "aortic.rim 1.5", "right u : a g a i n space t a k e n enter", "aortic.rim 1.6"),
    ("leave", "aortic.rim 1.5", "q", "leaving"),
    ("leave", "aortic.rim 1.5", "7 ctrl-c", "leaving"),
    ("face", "bays even-wide/5x3", "f", "shown Right Aortic"),
    ("valve", "bays even-wide/5x3", "v", "shown Left Tricuspid"),
    ("full_drawing", "aortic.rim 1.5", "z", "layers 1"),
    ("full_drawing", "aortic.rim 1.5", "z right", "aortic.rim 1.6"),
    ("next_open", "patient.weight 3.6", "m", "fact TricuspidChordae selected"),
    ("next_open", "patient.weight 3.6", "m m", "exclusion common_atrioventricular_junction selected"),
    ("next_panel", "aortic.rim 1.5", "tab tab", "focus Ranking"),
    ("previous_panel", "aortic.rim 1.5", "shift-tab", "focus Ranking"),
    ("down", "aortic.rim 1.5", "down j", "aortic.azimuth selected"),
    ("down", "bays even-wide/5x3", "down", "bays even-wide/5x4"),
    ("up", "aortic.azimuth 0", "up up up", "wall.thickness selected"),
    ("up", "bays even-wide/5x4", "up", "bays even-wide/5x3"),
    ("page_down", "aortic.rim 1.5", "page-up page-down", "aortic.rim selected"),
    ("page_up", "aortic.rim 1.5", "page-up", "left_opening.shift_u selected"),
    ("first", "aortic.rim 1.5", "home", "throat.major selected"),
    ("last", "aortic.rim 1.5", "end", "exclusion bypass_needed_anyway selected"),
];

#[test]
fn every_command_does_what_it_says() {
    for (_, before, keys, after) in COMMANDS {
        check(before, keys, after);
    }
}

#[test]
fn every_command_is_tried() {
    let tried: BTreeSet<&str> = COMMANDS.iter().map(|(id, ..)| *id).collect();
    let all: BTreeSet<&str> = Command::all().map(|command| command.id).collect();
    assert_eq!(tried, all);
}

#[test]
fn what_is_refused_changes_nothing_and_what_is_ready_is_not_refused() {
    for (_, before, ..) in COMMANDS {
        for command in Command::all() {
            let mut session = opened(before);
            let ready = command.ready(&session);
            let was = session.document().clone();
            session.command(command);
            match (&ready, session.status()) {
                (Err(why), Some(crate::Status::Refused(said))) => assert_eq!(why, said),
                (Ok(()), Some(crate::Status::Refused(said))) => panic!("{command:?}: {said}"),
                (Err(why), said) => panic!("{command:?}: {why}, and then {said:?}"),
                (Ok(()), _) => continue,
            }
            assert_eq!(*session.document(), was);
        }
    }
}

#[test]
fn nudges_in_a_row_are_one_step_until_anything_comes_between() {
    let mut session = opened("aortic.rim 1.5");
    press(&mut session, "right right shift-right");
    assert_eq!(session.history().len(), 1);
    assert_eq!(session.history().last_done(), Some("aortic valve rim 1.5 → 2.2 mm"));
    press(&mut session, "down up right");
    assert_eq!(session.history().len(), 2);
    press(&mut session, "u right");
    assert_eq!(session.history().len(), 2);
    press(&mut session, "left");
    assert_eq!(session.history().len(), 1, "a row that ends where it began is no step");
}

#[test]
fn the_opened_bays_hold_the_first_of_two_shapes_and_are_no_step() {
    let session = opened("aortic.rim 1.5");
    let bays = session.document().bays();
    let first = &session.listed()[0];
    assert_eq!(bays[0], Bay::new(first.place));
    assert_ne!(session.document().shelf().at(bays[1].place).unwrap().0.id, first.shape);
    assert!(session.history().is_empty());
}

#[test]
fn an_edit_makes_the_result_stale_and_asks_once() {
    let mut session = opened("aortic.rim 1.5");
    assert!(!session.results().is_stale() && session.take_request().is_none());
    press(&mut session, "right");
    assert!(session.results().is_stale() && session.results().is_awaited());
    assert!(session.take_request().is_some() && session.take_request().is_none());
    press(&mut session, "f tab . ,");
    assert!(session.take_request().is_none(), "what is shown or ranked already asks for nothing");
    press(&mut session, "u u u u");
    assess(&mut session);
    assert!(!session.results().is_stale() && !session.results().is_awaited());
}

#[test]
fn the_selected_candidate_stays_selected_when_the_order_changes() {
    let mut session = opened("ranking even-wide/5x3");
    press(&mut session, "home tab home shift-right shift-right shift-right");
    session.select_candidate(fixture::place("even-wide/5x3"));
    assess(&mut session);
    assert_eq!(session.candidate().unwrap().name(), "even-wide/5x3");
}

#[test]
fn the_footer_shows_five_to_seven_keys_that_work() {
    for (_, before, ..) in COMMANDS {
        let session = opened(before);
        let hints = session.footer();
        assert!((4..=7).contains(&hints.len()), "{before}: {hints:?}");
        assert_eq!(hints.last().unwrap().key, "?");
        for hint in &hints {
            let key = hint.key.parse().unwrap();
            let command = session.keymap().command(key, session.view().focus).unwrap();
            assert_eq!((command.name, command.ready(&session)), (hint.does, Ok(())));
        }
    }
}

#[test]
fn a_paste_goes_into_a_field_alone() {
    let mut session = opened("aortic.rim 1.5");
    session.paste("q");
    assert!(!session.is_leaving());
    press(&mut session, "enter ctrl-u");
    session.paste("2,2 mm\n");
    press(&mut session, "enter");
    assert!(glance(&session).contains(&"aortic.rim 2.2".to_owned()));
}

#[test]
fn an_unknown_key_says_where_the_keys_are() {
    check("aortic.rim 1.5", "f9", "says f9 does nothing here; ? lists every key");
}

fn documents_equal(one: &Session, other: &Session) -> bool {
    one.document() == other.document()
}
