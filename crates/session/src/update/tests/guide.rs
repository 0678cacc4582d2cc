//! The guide: what it asks, in what order, and what becomes of the answers.

use super::glance::{glance, opened};
use crate::Session;
use crate::fixture::{assess, press};
use crate::overlay::{Ask, Guide, Mark, Overlay};
use measurement::{Feature, Quantity, Site};
use sizing::resolve::{Basis, neighbour_of};
use sizing::{Fact, Neighbour};

/// A new case of a site, the guide over it.
fn begun(site: usize) -> Session {
    let mut session = opened("aortic.rim 1.5");
    press(&mut session, "N x enter");
    press(&mut session, &"right ".repeat(site));
    press(&mut session, "enter");
    session
}

fn guide(session: &Session) -> &Guide {
    match session.overlays().last() {
        Some(Overlay::Guide(guide)) => guide,
        other => panic!("{other:?} is no guide"),
    }
}

fn of(address: &str) -> Ask {
    Ask::Quantity(Quantity::from_address(address).unwrap())
}

#[test]
fn what_any_size_misses_is_open_and_nothing_else_of_what_is_read() {
    for (place, site) in Site::ALL.into_iter().enumerate() {
        let mut session = begun(place);
        assert_eq!(session.document().case().site, site);
        assess(&mut session);
        let candidates = &session.results().assessed().unwrap().ranking.candidates;
        let missed = |quantity: Quantity| {
            let mut outcomes = candidates.iter().flat_map(|one| &one.outcomes);
            outcomes.any(|outcome| outcome.missing.contains(&quantity))
        };
        let listed = guide(&session).listed(&session);
        let open: Vec<&str> = listed
            .iter()
            .filter(|one| one.mark == Mark::Open)
            .map(|one| one.name.as_str())
            .collect();
        for quantity in Quantity::all() {
            let is_read_for_itself = matches!(session.setting().basis(quantity), Basis::Missing(_));
            let counts = ["patient.weight", "patient.age"].contains(&quantity.address());
            // What is assumed of a wall or a rim holds every verdict at borderline.
            let is_assumed = matches!(session.setting().basis(quantity), Basis::Assumed { .. });
            let holds = matches!(quantity.info().feature, Feature::Thickness | Feature::Rim);
            let is_asked = missed(quantity) && is_read_for_itself || is_assumed && holds || counts;
            // An assumed sag will not do over a cusp that may prolapse.
            let is_sag = quantity.address() == "aortic.cusp_depth";
            assert_eq!(
                open.contains(&quantity.label()),
                is_asked || is_sag,
                "{site:?}: {quantity}"
            );
        }
    }
}

#[test]
fn each_answer_is_a_step_and_the_next_open_question_follows() {
    let mut session = begun(0);
    let steps = session.history().len();
    press(&mut session, "4 . 8 enter 4 , 1 enter");
    assert_eq!(session.history().len(), steps + 2);
    assert_eq!(*guide(&session).ask(), of("wall.thickness"));
    press(&mut session, "u");
    assert_eq!(*guide(&session).ask(), of("defect.short_axis"));
    press(&mut session, "enter");
    assert_eq!(*guide(&session).ask(), of("wall.thickness"), "left out");
    press(&mut session, "up up 5 enter");
    assert_eq!(
        session.history().last_done(),
        Some("defect, long axis 4.8 → 5.0 mm")
    );
    assert_eq!(
        *guide(&session).ask(),
        of("defect.short_axis"),
        "still open"
    );
    press(&mut session, "ctrl-z ctrl-z ctrl-z");
    assert!(session.overlays().is_empty(), "no case, no guide");
}

#[test]
fn what_is_odd_is_taken_and_said() {
    let mut session = begun(0);
    press(&mut session, "4 enter 5 enter");
    let remark = guide(&session).remark.clone().unwrap();
    assert!(
        remark.contains("is longer than its longer axis"),
        "{remark}"
    );
    press(&mut session, "down");
    assert_eq!(guide(&session).remark, None);
}

#[test]
fn a_neighbour_that_is_not_there_is_asked_no_more_until_that_is_taken_back() {
    let mut session = begun(3);
    press(&mut session, "4 enter 4 enter 4 enter n");
    let aortic = Neighbour::Valve(measurement::Valve::Aortic);
    assert!(session.document().case().is_absent(aortic));
    assert_eq!(*guide(&session).ask(), of("mitral.rim"));
    let asks =
        |session: &Session, ask: &Ask| guide(session).asked.iter().any(|one| one.ask == *ask);
    let beside = |one: &&Ask| match one {
        Ask::Quantity(quantity) => neighbour_of(quantity.info().structure) == Some(aortic),
        _ => false,
    };
    let all: Vec<&Ask> = guide(&session).asked.iter().map(|one| &one.ask).collect();
    assert_eq!(all.into_iter().filter(beside).count(), 0);
    assert!(!asks(&session, &Ask::Fact(Fact::Prolapse)));
    press(&mut session, "up");
    assert_eq!(*guide(&session).ask(), Ask::Absent(aortic));
    press(&mut session, "n");
    assert_eq!(*guide(&session).ask(), of("aortic.rim"));
    assert!(asks(&session, &Ask::Fact(Fact::Prolapse)));
}

#[test]
fn an_exclusion_that_holds_is_said_to_stop_every_shape_before_the_next() {
    let mut session = begun(0);
    while !matches!(guide(&session).ask(), Ask::Exclusion(_)) {
        press(&mut session, "enter");
    }
    let asked = guide(&session).ask().clone();
    press(&mut session, "y");
    assert_eq!(*guide(&session).ask(), asked);
    assert!(guide(&session).told(&session).grave.is_some());
    press(&mut session, "enter");
    assert_ne!(*guide(&session).ask(), asked);
}

#[test]
fn a_page_of_text_in_a_field_is_text_and_bounded() {
    let mut session = begun(0);
    let before = session.document().clone();
    session.paste(&"n u y e \u{1b}[31m 7,5\n".repeat(1000));
    assert!(guide(&session).editor.text().chars().count() <= 400);
    press(&mut session, "enter");
    assert!(glance(&session).contains(&"error expected mm, 0.5 to 40.0".to_owned()));
    assert_eq!(*session.document(), before);
    press(&mut session, "ctrl-u");
    session.paste("7,5 mm");
    press(&mut session, "enter");
    assert!(glance(&session).contains(&"defect.long_axis 7.5".to_owned()));
}

#[test]
fn the_bays_of_a_new_case_are_the_first_of_its_own_list() {
    let mut session = begun(0);
    assert!(session.document().bays().is_empty());
    press(&mut session, "6 enter");
    assess(&mut session);
    press(&mut session, "5 enter 4 enter esc");
    assess(&mut session);
    let first = session.listed()[0].place;
    assert_eq!(session.document().bays()[0].place, first);
    press(&mut session, "tab p");
    assert!(
        session
            .history()
            .last_done()
            .unwrap()
            .starts_with("unpinned")
    );
}
