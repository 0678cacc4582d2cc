//! Keys in, state out, without a terminal.

mod any_keys;
mod commands;
mod filing;
mod glance;
mod guide;
mod looking;
mod number_fields;
mod pinning;
mod rules;
mod shelf;
mod stale;
mod trials;
mod work_up;

use crate::effect::Effect;
use crate::fixture::{self, assess, press};
use crate::{Bay, Command, Session, Status};
use commands::every_row;
use glance::{glance, opened};
use std::collections::BTreeSet;

/// The state a line describes, the keys pressed, and a line of the state after.
/// Of what is otherwise, the nearest lines: those that begin with the same word.
fn otherwise(before: &str, keys: &str, after: &str) -> Option<String> {
    let mut session = opened(before);
    press(&mut session, keys);
    let mut lines = glance(&session);
    let is_there = lines.iter().any(|line| line == after);
    let word = after.split(' ').next();
    lines.retain(|line| line.split(' ').next() == word || line.ends_with("selected"));
    (!is_there).then(|| format!("{before} + {keys} → {after}, and not {lines:#?}"))
}

fn check(before: &str, keys: &str, after: &str) {
    assert_eq!(otherwise(before, keys, after), None);
}

#[test]
fn every_command_does_what_it_says() {
    let wrong: Vec<String> = every_row()
        .filter_map(|(_, before, keys, after)| otherwise(before, keys, after))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_command_is_tried() {
    let tried: BTreeSet<&str> = every_row().map(|(id, ..)| *id).collect();
    let all: BTreeSet<&str> = Command::all().map(|command| command.id).collect();
    assert_eq!(tried, all);
}

#[test]
fn pinning_and_unpinning_keep_the_selected_row_of_the_list() {
    let place = |session: &Session| (session.view().focus, session.listed_place());
    let mut session = opened("ranking even-wide/5x3");
    press(&mut session, "end up up");
    let before = place(&session);
    assert!(
        before.1 > Some(2),
        "far enough down that the list is scrolled"
    );
    for keys in ["p", "u", "U", "u"] {
        press(&mut session, keys);
        assert_eq!(place(&session), before, "after {keys}");
    }
    // Unpinned in its bay, the list is where it was left.
    press(&mut session, "p shift-tab delete");
    assert_eq!(place(&session).1, before.1);
}

#[test]
fn what_is_refused_changes_nothing_and_what_is_ready_is_not_refused() {
    for (_, before, ..) in every_row() {
        for command in Command::all() {
            let mut session = opened(before);
            let ready = command.ready(&session);
            let was = session.document().clone();
            session.command(command);
            match (&ready, session.status()) {
                (Err(why), Some(Status::Refused(said))) => {
                    assert_eq!(session.with_keys(&why.to_string()), *said);
                }
                (Ok(()), Some(Status::Refused(said))) => panic!("{command:?}: {said}"),
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
    assert_eq!(
        session.history().last_done(),
        Some("aortic rim 1.5 → 2.2 mm")
    );
    press(&mut session, "down up right");
    assert_eq!(session.history().len(), 2);
    press(&mut session, "u right");
    assert_eq!(session.history().len(), 2);
    press(&mut session, "left");
    assert_eq!(
        session.history().len(),
        1,
        "a row that ends where it began is no step"
    );
}

#[test]
fn what_changes_nothing_is_no_step_and_keeps_what_was_undone() {
    let mut session = opened("aortic.rim 1.5");
    press(&mut session, "right u enter enter / enter");
    assert_eq!(session.history().len(), 0);
    assert_eq!(
        session.history().last_undone(),
        Some("aortic rim 1.5 → 1.6 mm")
    );
    assert_eq!(session.status(), None);
}

#[test]
fn an_added_reading_says_how_it_is_taken_to_be() {
    let rim = "tricuspid.rim unread";
    check(
        rim,
        "a 6 enter",
        "says added: tricuspid rim 6.0 mm, transthoracic echo, end-diastole, edge to edge",
    );
}

#[test]
fn the_opened_bays_hold_the_first_of_two_shapes_and_are_no_step() {
    let session = opened("aortic.rim 1.5");
    let bays = session.document().bays();
    let first = &session.listed()[0];
    assert_eq!(bays[0], Bay::new(first.place));
    assert_ne!(
        session.document().shelf().at(bays[1].place).unwrap().0.id,
        first.shape
    );
    assert!(session.history().is_empty());
}

#[test]
fn an_edit_makes_the_result_stale_and_asks_once() {
    let mut session = opened("aortic.rim 1.5");
    assert!(!session.results().is_stale() && session.take_request().is_none());
    press(&mut session, "right");
    assert!(session.results().is_stale() && session.results().is_awaited());
    assert!(!session.shows_stale(), "not before it is said to work");
    session.model.is_said_to_work = true;
    press(&mut session, "right");
    assert!(
        session.shows_stale(),
        "and a further change does not hide it"
    );
    assert!(session.take_request().is_some() && session.take_request().is_none());
    press(&mut session, "f tab . ,");
    assert!(
        session.take_request().is_none(),
        "what is shown or ranked already asks for nothing"
    );
    press(&mut session, "u u u u");
    assess(&mut session);
    assert!(!session.results().is_stale() && !session.results().is_awaited());
    assert!(!session.shows_stale());
}

#[test]
fn the_selected_candidate_stays_selected_when_a_new_result_comes() {
    let mut session = opened("defect.long_axis 4.6");
    session.select_candidate(fixture::place("even-wide/5x3"));
    press(&mut session, "tab L L L");
    assess(&mut session);
    assert_eq!(session.candidate().unwrap().name(), "even-wide/5x3");
}

#[test]
fn the_footer_shows_five_to_seven_keys_that_work() {
    for (_, before, ..) in every_row() {
        let session = opened(before);
        let hints = session.footer();
        assert!((4..=7).contains(&hints.len()), "{before}: {hints:?}");
        assert_eq!(hints.last().unwrap().key, "?");
        for hint in &hints {
            let key = hint.key.parse().unwrap();
            let command = session.keymap().command(key, session.view().focus);
            let command = command.and_then(Command::named).unwrap();
            assert_eq!((command.name, command.ready(&session)), (hint.does, Ok(())));
        }
    }
}

#[test]
fn a_row_of_nudges_back_to_its_start_says_so() {
    let mut session = opened("aortic.rim 1.5");
    press(&mut session, "right left");
    let said = "aortic rim 1.5 → 1.5 mm".to_owned();
    assert_eq!(session.status(), Some(&Status::Done(said)));
}

#[test]
fn a_paste_goes_into_a_field_alone() {
    let mut session = opened("aortic.rim 1.5");
    session.paste("q");
    let is_end = |effect: &Effect| matches!(effect, Effect::Leave);
    assert!(!session.outbox.iter().any(is_end));
    press(&mut session, "enter ctrl-u");
    session.paste("2,2 mm\n");
    press(&mut session, "enter");
    assert!(glance(&session).contains(&"aortic.rim 2.2".to_owned()));
}

#[test]
fn an_unknown_key_says_where_the_keys_are() {
    check(
        "aortic.rim 1.5",
        "f9",
        "says f9 does nothing here; ? lists every key",
    );
}
