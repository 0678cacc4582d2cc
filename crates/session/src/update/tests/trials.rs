use super::commands::Tried;
use super::glance::opened;
use crate::fixture::press;
use crate::{Command, Event, Focus, TrialRow};
use sizing::Subject;
use sizing::trial::{ObservationKind, Seen};
use std::time::Duration;

/// One size is pinned and the page of trials is shown.
const PINNED: &str = "trials even-wide/5x3";

/// The same, opened and released.
const RELEASED: &str = "released even-wide/5x3";

/// Of the commands on the page of trials.
pub(super) const TRIALS: &[Tried] = &[
    (
        "look_back",
        "file cases/a.ron",
        "5 B",
        "looks back over cases",
    ),
    ("look_back", "file a.ron", "7 tab B", "looks back over ."),
    ("look_back", "file a.ron", "5 B", "layers 1"),
    ("look_back", "file a.ron", "5 B 1 x down B", "layers 0"),
    (
        "look_back",
        "aortic.rim 1.5",
        "5 B",
        "says the case is in no file: save it in the folder of your cases first",
    ),
    ("trials_page", "aortic.rim 1.5", "7", "focus Trials"),
    ("trials_page", "aortic.rim 1.5", "7 tab tab", "focus Before"),
    ("seen_now", PINNED, "enter", "minute 0"),
    (
        "seen_now",
        PINNED,
        "enter enter",
        "deployed even-wide/5x3 at 0 open",
    ),
    (
        "seen_now",
        PINNED,
        "down enter",
        "says the minute since puncture is not known: enter on its row starts it, e says which it is",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter right enter right right enter",
        "seen edge_jet of shape 0.5 mm by transoesophageal echo",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter down enter 1 , 5 enter",
        "seen edge_jet of shape 1.5 mm",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter down enter 9 9 enter",
        "error expected a number from 0 to 10 mm",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter end up up up right enter",
        "lies no Unknown unknown",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter end enter",
        "says nothing is chosen: left and right choose, enter confirms",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter end right enter",
        "deployed even-wide/5x3 at 0 recaptured",
    ),
    (
        "seen_now",
        PINNED,
        "enter enter end left enter",
        "deployed even-wide/5x3 at 0 released",
    ),
    (
        "seen_now",
        PINNED,
        "tab tab down enter right enter",
        "was regurgitation of aortic_valve none",
    ),
    (
        "seen_now",
        PINNED,
        "tab tab down down enter 9 enter",
        "used 9 mL",
    ),
    (
        "seen_now",
        PINNED,
        "tab tab down down down down down enter",
        "room heparin given",
    ),
    (
        "seen_now",
        PINNED,
        "tab tab down down down down down enter up enter",
        "says not ticked: heparin given",
    ),
    (
        "seen_now",
        PINNED,
        "tab tab down down down down down down enter 2 5 4 enter",
        "room activated clotting time 254",
    ),
    (
        "next_seen",
        PINNED,
        "enter enter down right right right",
        "offers 1.0 mm",
    ),
    (
        "next_seen",
        PINNED,
        "enter enter down right right right down",
        "seen none",
    ),
    (
        "next_seen",
        PINNED,
        "right",
        "says this row takes only enter",
    ),
    (
        "previous_seen",
        PINNED,
        "enter enter down right right right left",
        "offers 0.5 mm",
    ),
    (
        "next_seen_far",
        PINNED,
        "enter enter down right right L L L enter",
        "seen edge_jet of shape 0.5 mm at 60",
    ),
    (
        "previous_seen_far",
        PINNED,
        "enter enter down right right H H",
        "offers 0.5 mm at 11 o'clock",
    ),
    (
        "details",
        PINNED,
        "e 4 0 enter enter",
        "deployed even-wide/5x3 at 40 open",
    ),
    ("details", PINNED, "enter enter e l a x enter", "view lax"),
    (
        "details",
        PINNED,
        "enter enter end right enter e s l i p enter",
        "because slip",
    ),
    (
        "details",
        PINNED,
        "enter enter down right enter up e 2 down . 3 down 5 enter",
        "seen edge_jet of shape 2.0 mm at 150",
    ),
    (
        "details",
        PINNED,
        "enter enter down right enter up e x enter",
        "error value: expected a number from 0 to 10",
    ),
    (
        "details",
        PINNED,
        "enter enter down e",
        "says nothing was seen on this row yet",
    ),
    (
        "write_criteria",
        PINNED,
        "F",
        "says release criteria written: even-wide/5x3",
    ),
    (
        "write_criteria",
        "bays even-wide/5x3",
        "F",
        "criterion slips of shape inside if no; beyond if yes",
    ),
    (
        "write_criteria",
        PINNED,
        "F F",
        "says the criteria of every pinned size are written",
    ),
    ("change_criterion", PINNED, "F tab tab end c", "layers 1"),
    (
        "change_criterion",
        PINNED,
        "F tab tab end c ctrl-u 9 0 enter",
        "criterion pressure of shape inside at 90 % or more; beyond under 70 %",
    ),
    (
        "change_criterion",
        PINNED,
        "F enter enter down c 2 down 3 down w h y enter",
        "criterion edge_jet of shape inside at 2.0 mm or less; beyond over 3.0 mm why",
    ),
    (
        "change_criterion",
        PINNED,
        "F enter enter down c 2 down 3 enter",
        "error because: criteria are locked from the first deployment on: say why this one changes",
    ),
    (
        "change_criterion",
        PINNED,
        "F enter enter down c 2 down 1 enter",
        "error beyond: no better than what is inside",
    ),
    (
        "change_criterion",
        PINNED,
        "F enter enter down c x enter",
        "error inside: expected a number from 0 to 10 mm, or nothing for no bound",
    ),
    (
        "do_not_count",
        PINNED,
        "enter enter down right enter up s b a d enter",
        "not counted because bad",
    ),
    (
        "do_not_count",
        PINNED,
        "enter enter down right enter up s b enter up s",
        "says restored: jet at the edge",
    ),
    (
        "do_not_count",
        PINNED,
        "enter enter down right enter up s space enter",
        "error expected a reason",
    ),
    (
        "undo",
        PINNED,
        "enter enter down right enter u",
        "seen none",
    ),
    ("undo", PINNED, "enter enter u", "deployed none"),
    (
        "redo",
        PINNED,
        "enter enter u U",
        "deployed even-wide/5x3 at 0 open",
    ),
    ("trials_page", PINNED, "7 tab", "focus FollowUp"),
    (
        "seen_now",
        RELEASED,
        "tab down right enter",
        "later day 1 rhythm of shape as before",
    ),
    (
        "seen_now",
        RELEASED,
        "tab enter 9 0 enter down right enter",
        "later day 90 rhythm of shape as before",
    ),
    (
        "seen_now",
        RELEASED,
        "tab enter 1 . 5 enter",
        "error expected a whole number of days after the procedure",
    ),
    ("seen_now", RELEASED, "tab end up enter", "day 1"),
    (
        "seen_now",
        RELEASED,
        "tab end enter 7 . 2 space 6 7 enter",
        "grown 7.2 kg 67 cm",
    ),
    (
        "seen_now",
        RELEASED,
        "tab end enter 7 enter",
        "error expected a weight in kg and a height in cm, such as 7.2 67",
    ),
    ("undo", RELEASED, "tab down right enter u", "later none"),
    (
        "do_not_count",
        RELEASED,
        "tab down right enter up s b a d enter",
        "later not counted because bad",
    ),
    ("copy", PINNED, "y", "says there is nothing to copy yet"),
];

#[test]
fn minutes_are_whole_and_count_from_puncture() {
    let mut session = opened(PINNED);
    session.update(Event::Clock(Duration::from_secs(100)));
    press(&mut session, "enter");
    session.update(Event::Clock(Duration::from_secs(100 + 44 * 60 + 59)));
    press(&mut session, "enter");
    let trial = &session.document().case().procedure.trials[0];
    assert_eq!(trial.opened_min, 44.0);
    session.update(Event::Clock(Duration::from_secs(100 + 50 * 60)));
    press(&mut session, "end right enter");
    let trial = &session.document().case().procedure.trials[0];
    assert_eq!(trial.closed_min, Some(50.0));
    // The minute is redrawn when it is another, where it is shown.
    assert_eq!(session.to_next_minute(), Some(Duration::from_mins(1)));
    press(&mut session, "1");
    assert_eq!(session.to_next_minute(), None);
    press(&mut session, "7");
    // A minute that has passed is no minute of what follows.
    press(&mut session, "tab tab home e 4 5 enter tab enter");
    let says = format!("{:?}", session.status());
    assert!(says.contains("minute 50 has passed"), "{says}");
}

/// The clock of the program is one that only goes forward; were it not, no minute
/// would be less than none, and the page would still be drawn again.
#[test]
fn a_clock_that_jumps_gives_no_minute_before_puncture() {
    let mut session = opened(PINNED);
    session.update(Event::Clock(Duration::from_hours(2)));
    press(&mut session, "enter");
    for (minutes, since) in [
        (0, 0.0),
        (119, 0.0),
        (120, 0.0),
        (100_000, 99_880.0),
        (121, 1.0),
    ] {
        session.update(Event::Clock(Duration::from_mins(minutes)));
        assert_eq!(session.minute(), Some(since), "at {minutes} min");
        let next = session.to_next_minute().unwrap();
        assert!(
            next > Duration::ZERO && next <= Duration::from_mins(1),
            "{next:?}"
        );
    }
}

#[test]
fn a_size_opened_without_criteria_gets_them_marked() {
    let mut session = opened(PINNED);
    press(&mut session, "enter enter");
    let criteria = &session.document().case().procedure.criteria;
    assert!(!criteria.is_empty() && criteria.iter().all(|one| one.after_opening));
    let mut session = opened(PINNED);
    press(&mut session, "F enter enter");
    let criteria = &session.document().case().procedure.criteria;
    assert!(!criteria.is_empty() && criteria.iter().all(|one| !one.after_opening));
}

#[test]
fn what_is_confirmed_leads_to_the_next_row_and_what_is_undone_back() {
    let mut session = opened(PINNED);
    press(&mut session, "F enter enter down right enter");
    let row = |place: usize| session.trial_rows(Focus::Trials).into_iter().nth(place);
    assert_eq!(session.trial_row(), row(2));
    let jet = row(1);
    press(&mut session, "u");
    assert_eq!(session.trial_row(), jet);
    assert!(matches!(jet, Some(TrialRow::Observation(..))));
}

#[test]
fn a_follow_up_begins_with_the_release_and_its_value_may_be_under_zero() {
    let mut session = opened(PINNED);
    press(&mut session, "tab");
    assert_eq!(session.trial_rows(Focus::FollowUp), [TrialRow::Grown]);
    let mut session = opened(RELEASED);
    press(&mut session, "tab");
    let z = TrialRow::Later(ObservationKind::LeftVentricleZ, Subject::Shape);
    let rows = session.trial_rows(Focus::FollowUp);
    let place = rows.iter().position(|row| *row == z).unwrap();
    session.select_line(Focus::FollowUp, place);
    press(&mut session, "enter - 0 . 5 enter");
    let seen = &session.document().case().procedure.follow_up[0];
    assert_eq!((seen.day, seen.seen[0].seen), (1.0, Seen::Value(-0.5)));
    // Of the day nothing more of it is due; its minute is nobody's matter.
    let visit = session.visit_of_day().unwrap();
    assert!(
        visit
            .not_done()
            .all(|due| due.what != ObservationKind::LeftVentricleZ)
    );
    session.select_line(Focus::FollowUp, place);
    press(&mut session, "e 1 enter");
    let seen = &session.document().case().procedure.follow_up[0].seen;
    assert_eq!((seen.len(), seen[0].seen), (1, Seen::Value(1.0)));
}

#[test]
fn a_change_of_a_reading_after_criteria_were_written_is_told() {
    let mut session = opened(PINNED);
    press(&mut session, "F");
    assert!(!session.changed_since_planned());
    press(&mut session, "1 tab tab right");
    session.command(Command::named("more").unwrap());
    assert!(session.changed_since_planned());
    session.command(Command::named("undo").unwrap());
    assert!(!session.changed_since_planned());
}

#[test]
fn a_refusal_names_the_key_that_the_map_has() {
    let session = opened(PINNED);
    let says = session.with_keys("[details] says which; [no_command] and [seen_now");
    assert_eq!(says, "e says which; [no_command] and [seen_now");
}
