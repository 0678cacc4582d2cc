//! What stands on a work-up is never shown as newer than it is.

use crate::fixture::{self, assess, press};
use crate::{Focus, Row, Session};
use std::sync::Arc;

fn opened(name: &str, text: &str) -> Session {
    fixture::open(files::parse_case(name, text).unwrap().into_value())
}

/// Lines whose answer is shown as of before the last change.
fn of_before(session: &Session) -> Vec<&str> {
    let rows = session.rows().iter();
    rows.filter_map(|row| match row {
        Row::Exclusion(id) if session.exclusion_is_of_before(id) => Some(&**id),
        _ => None,
    })
    .collect()
}

#[test]
fn a_nudge_leaves_the_work_up_to_the_worker_and_shows_the_one_of_before_as_such() {
    for (name, text) in files::shipped::SCENARIOS {
        let mut session = opened(name, text);
        assess(&mut session);
        assert!(of_before(&session).is_empty(), "{name}: worked up");
        let rows: Vec<usize> = (0..session.rows().len())
            .filter(|&row| session.reading_of(&session.rows()[row]).is_some())
            .collect();
        // The defect's first axis, and something of the circulation or the body.
        for row in rows.first().into_iter().chain(rows.last()).copied() {
            session.select_line(Focus::Readings, row);
            let before = session.setting().guidance().clone();
            press(&mut session, "right");
            if !session.work_up_is_of_before() {
                // A reading at the end of its range is not nudged.
                continue;
            }
            assert_eq!(*session.setting().guidance(), before, "{name}");
            assert!(
                !of_before(&session).is_empty(),
                "{name}: it is said at once"
            );
            assess(&mut session);
            let limits = session.limits.as_deref();
            let document = session.document();
            let new = files::setting(
                Arc::clone(&document.case),
                Arc::clone(&document.rules),
                limits,
            );
            assert_eq!(session.setting().guidance(), new.guidance(), "{name}");
            assert_eq!(session.setting().not_rated(), new.not_rated(), "{name}");
            assert!(of_before(&session).is_empty(), "{name}: worked up again");
        }
    }
}

/// An answer to a request of before brings no work-up of before.
#[test]
fn a_late_answer_changes_nothing_of_the_work_up() {
    let mut session = fixture::infant();
    let mut late = session.clone();
    press(&mut session, "right");
    assess(&mut late);
    let reply = crate::Reply::Assessed(Arc::clone(late.results().assessed().unwrap()));
    session.receive(reply);
    assert!(session.work_up_is_of_before());
    assess(&mut session);
    assert!(!session.work_up_is_of_before());
}
