//! An answer of before never takes the place of a newer one.

use crate::Reply;
use crate::fixture::{self, press};

#[test]
fn an_answer_of_before_is_dropped_whichever_page_it_is_for() {
    for (page, is_there) in [("2", "doubt"), ("3", "map"), ("4", "work-up")] {
        let mut session = fixture::infant();
        press(&mut session, page);
        if page == "2" {
            // Doubts are of a size: there is one once there is a list.
            fixture::assess(&mut session);
        }
        fixture::answer(&mut session);
        let results = session.results();
        let doubted = results.doubted().cloned().map(Reply::Doubted);
        let mapped = results.mapped().cloned().map(Reply::Mapped);
        let worked_up = results.worked_up().cloned().map(Reply::WorkedUp);
        let old = doubted.or(mapped).or(worked_up).unwrap();
        press(&mut session, "1 right");
        press(&mut session, page);
        fixture::answer(&mut session);
        session.receive(old);
        let results = session.results();
        let generations = [
            results.doubted().map(|it| it.generation),
            results.mapped().map(|it| it.generation),
            results.worked_up().map(|it| it.generation),
        ];
        let newest = generations.into_iter().flatten().max();
        assert_eq!(newest, Some(results.generation()), "{is_there}");
    }
}

#[test]
fn a_failure_of_before_does_not_hide_a_newer_one() {
    let mut session = fixture::infant();
    let before = session.results().generation();
    press(&mut session, "right");
    let now = session.results().generation();
    for generation in [now, before] {
        let message = format!("of {generation}");
        session.receive(Reply::Failed {
            generation,
            message,
        });
    }
    assert_eq!(session.results().failure(), Some(&*format!("of {now}")));
}
