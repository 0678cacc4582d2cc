//! Number fields: what is typed belongs to the field, and typed and pasted are one.

use super::glance::opened;
use crate::fixture::press;
use crate::overlay::{Ask, Guide, Overlay};
use crate::{Focus, Row, Session, amount};
use measurement::{Quantity, Unit, Valve};
use sizing::{Answer, Neighbour};

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

/// Goes to the question of a quantity.
fn go_to(session: &mut Session, address: &str) {
    let quantity = Quantity::from_address(address).unwrap();
    press(session, "page-up page-up page-up page-up page-up page-up");
    for _ in 0..200 {
        if *guide(session).ask() == Ask::Quantity(quantity) {
            return;
        }
        press(session, "down");
    }
    panic!("{address} is not asked");
}

/// Presses a key for each letter of a text.
fn type_in(session: &mut Session, text: &str) {
    for letter in text.chars() {
        let key = if letter == ' ' {
            "space".to_owned()
        } else {
            letter.to_string()
        };
        press(session, &key);
    }
}

/// The value of a quantity in the case.
fn value(session: &Session, address: &str) -> Option<f64> {
    let quantity = Quantity::from_address(address).unwrap();
    let readings = &session.document().case().readings;
    let reading = readings.iter().find(|one| one.quantity == quantity)?;
    Some(reading.value)
}

#[test]
fn while_a_field_is_not_empty_every_printable_key_belongs_to_it() {
    let mut session = begun(3);
    press(&mut session, "4 enter 4 enter 4 enter");
    assert_eq!(
        *guide(&session).ask(),
        Ask::Quantity(Quantity::from_address("aortic.rim").unwrap())
    );
    let before = session.document().clone();
    for letter in ' '..='~' {
        type_in(&mut session, "3");
        type_in(&mut session, &letter.to_string());
        assert_eq!(guide(&session).editor.text(), format!("3{letter}"));
        assert_eq!(*session.document(), before, "3{letter}");
        press(&mut session, "ctrl-u");
    }
    assert!(
        !session
            .document()
            .case()
            .is_absent(Neighbour::Valve(Valve::Aortic))
    );
    // What is no number is refused, and not taken for another.
    for text in ["3n", "3u", "3e", "3e1", "3 4", "--3", "3-"] {
        type_in(&mut session, text);
        press(&mut session, "enter");
        assert_eq!(*session.document(), before, "{text}");
        assert!(guide(&session).error.is_some(), "{text}");
        assert_eq!(
            guide(&session).editor.text(),
            text,
            "it stays to be corrected"
        );
        press(&mut session, "ctrl-u");
    }
}

#[test]
fn eleven_months_are_eleven_months_typed_or_pasted() {
    for text in ["11 mo", "11mo", "11 months", "11 MO", "0 years 11 months"] {
        for is_pasted in [false, true] {
            let mut session = begun(3);
            go_to(&mut session, "patient.age");
            if is_pasted {
                session.paste(text);
            } else {
                type_in(&mut session, text);
            }
            press(&mut session, "enter");
            assert_eq!(value(&session, "patient.age"), Some(0.9167), "{text}");
        }
    }
}

#[test]
fn what_the_prompt_offers_can_be_typed_key_by_key() {
    let session = begun(0);
    let asked: Vec<Quantity> = guide(&session)
        .asked
        .iter()
        .filter_map(|one| match one.ask {
            Ask::Quantity(quantity) => Some(quantity),
            _ => None,
        })
        .collect();
    assert!(asked.len() > 40);
    for quantity in asked {
        let info = quantity.info();
        let value = info.least.midpoint(info.most);
        let symbol = quantity.unit().symbol();
        let bare = amount::number(quantity, value);
        for text in [format!("{bare} {symbol}"), format!("{bare}{symbol}")] {
            let mut fields = [begun(0), begun(0)];
            for field in &mut fields {
                go_to(field, quantity.address());
            }
            type_in(&mut fields[0], &text);
            fields[1].paste(&text);
            assert_eq!(guide(&fields[0]).editor, guide(&fields[1]).editor, "{text}");
            assert_eq!(
                amount::typed(quantity, &text),
                Some(value),
                "{quantity}: {text}"
            );
        }
    }
    for (text, unit) in [
        ("3 weeks", Unit::Years),
        ("5 months", Unit::Years),
        ("3600 g", Unit::Kg),
    ] {
        let quantity = Quantity::all().find(|one| one.unit() == unit).unwrap();
        assert!(amount::also(quantity).contains(text), "{text} is offered");
        assert!(amount::typed(quantity, text).is_some(), "{text}");
    }
}

#[test]
fn u_undoes_on_every_question_and_nowhere_else_does_it_answer() {
    let mut session = begun(0);
    while !matches!(guide(&session).ask(), Ask::Exclusion(_)) {
        press(&mut session, "enter");
    }
    let Ask::Exclusion(id) = guide(&session).ask().clone() else {
        unreachable!()
    };
    press(&mut session, "n");
    let answer = |session: &Session| {
        let answers = &session.document().case().exclusions;
        answers.get(&id).copied().unwrap_or_default()
    };
    assert_eq!(answer(&session), Answer::No);
    // On the next question, which is one of fact as well, u takes the step back.
    press(&mut session, "u");
    assert_eq!(answer(&session), Answer::Unknown);
    assert_eq!(*guide(&session).ask(), Ask::Exclusion(id.clone()));
    press(&mut session, "n up ?");
    assert_eq!(answer(&session), Answer::Unknown, "? is not known");
    press(&mut session, "up n");
    assert_eq!(answer(&session), Answer::No);
}

#[test]
fn what_was_typed_is_not_lost_on_the_way_to_another_question() {
    let mut session = begun(0);
    press(&mut session, "6 enter");
    let before = session.document().clone();
    let asked = guide(&session).ask().clone();
    for key in [
        "up",
        "down",
        "tab",
        "shift-tab",
        "page-up",
        "page-down",
        "ctrl-z",
        "ctrl-y",
    ] {
        press(&mut session, "5 . 2");
        press(&mut session, key);
        assert_eq!(*guide(&session).ask(), asked, "{key}");
        assert_eq!(guide(&session).editor.text(), "5.2", "{key}");
        assert!(guide(&session).error.is_some(), "{key}");
        assert_eq!(*session.document(), before, "{key}");
        press(&mut session, "ctrl-u");
    }
    press(&mut session, "5 esc");
    assert!(
        guide(&session).editor.is_empty(),
        "the first esc drops what was typed"
    );
    assert!(
        guide(&session).error.as_ref().unwrap().contains('5'),
        "and says so"
    );
    press(&mut session, "esc");
    assert!(session.overlays().is_empty());
}

/// What the topmost layer asks back.
fn asks(session: &Session) -> Option<&str> {
    let asks = match session.overlays().last() {
        Some(Overlay::Guide(guide)) => &guide.asks,
        Some(Overlay::Reading(form)) => &form.asks,
        Some(Overlay::Field(field)) => &field.asks,
        _ => &None,
    };
    asks.as_ref().map(|asked| asked.asks.as_str())
}

#[test]
fn a_slip_by_ten_is_asked_about_before_it_is_taken() {
    let mut session = begun(0);
    go_to(&mut session, "patient.weight");
    type_in(&mut session, "6.4 kg");
    press(&mut session, "enter");
    let before = session.document().clone();
    // An age in months taken for years.
    type_in(&mut session, "11");
    press(&mut session, "enter");
    let question = asks(&session).expect("a question");
    assert!(question.starts_with("Is 11 years right for the age? At 6.4 kg the wide bounds are"));
    assert_eq!(*session.document(), before, "nothing is taken yet");
    // Only an answer goes on: no key that could mean something else.
    for key in ["enter", "u", "e", "down", "ctrl-z", "x", "page-up", "?"] {
        press(&mut session, key);
        assert!(asks(&session).is_some(), "{key}");
        assert_eq!(*session.document(), before, "{key}");
    }
    // No: it is not taken, and n is not "not there".
    press(&mut session, "n");
    assert_eq!(*session.document(), before);
    assert!(guide(&session).editor.is_empty() && asks(&session).is_none());
    // A corrected value.
    type_in(&mut session, "11");
    press(&mut session, "enter");
    type_in(&mut session, "11 mo");
    assert!(asks(&session).is_none());
    press(&mut session, "enter");
    assert_eq!(value(&session, "patient.age"), Some(0.9167));
    // Yes: it is taken, stands under what does not add up, and is asked no more.
    go_to(&mut session, "patient.age");
    type_in(&mut session, "11");
    press(&mut session, "enter y");
    assert_eq!(value(&session, "patient.age"), Some(11.0));
    let found = sizing::contradictions(session.setting());
    assert!(found.iter().any(|one| one.id == "outside_wide_bounds"));
    go_to(&mut session, "wall.thickness");
    type_in(&mut session, "4.2");
    press(&mut session, "enter");
    assert_eq!(value(&session, "wall.thickness"), Some(4.2));
}

#[test]
fn a_weight_that_does_not_go_with_what_was_given_is_asked_about() {
    let mut session = begun(0);
    for (address, typed) in [("patient.age", "5 months"), ("aortic.rim", "1.5")] {
        go_to(&mut session, address);
        type_in(&mut session, typed);
        press(&mut session, "enter");
    }
    go_to(&mut session, "patient.weight");
    type_in(&mut session, "64");
    press(&mut session, "enter");
    let question = asks(&session).expect("a question");
    assert!(
        question.starts_with("Is 64.0 kg right for the weight? 5 months was given"),
        "{question}"
    );
    session.paste("6.4");
    press(&mut session, "enter");
    assert_eq!(value(&session, "patient.weight"), Some(6.4));
}

#[test]
fn the_form_and_the_field_of_a_reading_ask_back_as_well() {
    let mut session = opened("aortic.rim 1.5");
    let row = |session: &Session| {
        let mut rows = session.rows().iter();
        rows.position(|row| matches!(row, Row::Quantity(of) if of.address() == "aortic.rim"))
    };
    session.select_line(Focus::Readings, row(&session).unwrap());
    let before = session.document().clone();
    for opening in ["enter", "e"] {
        press(&mut session, opening);
        type_in(&mut session, "15");
        press(&mut session, "enter");
        assert!(
            asks(&session)
                .expect("a question")
                .contains("15.0 mm right for the aortic rim")
        );
        press(&mut session, "x enter");
        assert!(asks(&session).is_some());
        assert_eq!(*session.document(), before, "{opening}");
        type_in(&mut session, "1.6");
        press(&mut session, "enter");
        assert_eq!(value(&session, "aortic.rim"), Some(1.6), "{opening}");
        press(&mut session, opening);
        type_in(&mut session, "15");
        press(&mut session, "enter y");
        assert_eq!(value(&session, "aortic.rim"), Some(15.0), "{opening}");
        press(&mut session, "u u");
        assert_eq!(value(&session, "aortic.rim"), Some(1.5));
    }
}

#[test]
fn the_same_reading_typed_twice_is_asked_about() {
    let mut session = opened("aortic.rim 1.5");
    let mut rows = session.rows().iter();
    let row = rows.position(|row| matches!(row, Row::Quantity(of) if of.address() == "aortic.rim"));
    session.select_line(Focus::Readings, row.unwrap());
    let count = session.document().case().readings.len();
    // The form of another reading begins as the one before was taken.
    press(&mut session, "a");
    type_in(&mut session, "1.5");
    press(&mut session, "enter");
    let question = asks(&session).expect("a question");
    assert!(
        question.starts_with("Was the aortic rim measured twice?"),
        "{question}"
    );
    assert_eq!(session.document().case().readings.len(), count);
    press(&mut session, "y");
    assert_eq!(session.document().case().readings.len(), count + 1);
    let found = sizing::contradictions(session.setting());
    assert!(found.iter().any(|one| one.id == "typed_twice"));
}

#[test]
fn a_form_takes_no_power_of_ten_and_every_unit_it_shows() {
    let mut session = opened("aortic.rim 1.5");
    let row = session
        .rows()
        .iter()
        .position(|row| matches!(row, Row::Quantity(of) if of.address() == "aortic.rim"));
    session.select_line(Focus::Readings, row.unwrap());
    press(&mut session, "enter 2 e 1 enter");
    assert!(
        matches!(session.overlays().last(), Some(Overlay::Field(field)) if field.error.is_some())
    );
    press(&mut session, "ctrl-u");
    type_in(&mut session, "2.1 mm");
    press(&mut session, "enter");
    assert_eq!(value(&session, "aortic.rim"), Some(2.1));
    press(&mut session, "d");
    type_in(&mut session, "0.4 mm");
    press(&mut session, "enter e");
    assert!(matches!(
        session.overlays().last(),
        Some(Overlay::Reading(_))
    ));
    type_in(&mut session, "2.2 MM");
    press(&mut session, "enter");
    assert_eq!(value(&session, "aortic.rim"), Some(2.2));
}
