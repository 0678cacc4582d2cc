use super::History;
use crate::{Document, Edit, Refused, fixture};
use measurement::{Answer, Finding, Quantity, Reading};

const FINDING: Finding = Finding::HeartFailure;

/// The demonstration, with nothing said of the finding.
fn document() -> Document {
    let mut document = fixture::infant().document().clone();
    Edit::Finding(FINDING, None).apply(&mut document).unwrap();
    document
}

/// The first reading of the long axis with another value.
fn axis(document: &Document, value: f64) -> Edit {
    let mut readings = document.case().readings.iter();
    let of = |one: &&Reading| one.quantity == Quantity::DEFECT_LONG_AXIS;
    let reading = readings.find(of).unwrap();
    Edit::Replace(Reading {
        value,
        ..reading.clone()
    })
}

fn answer(answer: Answer) -> Edit {
    Edit::Finding(FINDING, Some(answer))
}

fn answered(document: &Document) -> Answer {
    document.case().finding(FINDING)
}

fn value(document: &Document) -> f64 {
    let mut readings = document.case().readings.iter();
    let of = |one: &&Reading| one.quantity == Quantity::DEFECT_LONG_AXIS;
    readings.find(of).unwrap().value
}

#[test]
fn steps_are_taken_back_from_the_last_and_done_again_from_the_first() {
    let (mut history, mut document) = (History::default(), document());
    let before = document.clone();
    assert!(history.is_empty());
    for one in [Answer::Yes, Answer::No] {
        assert!(history.edit(&answer(one), &mut document).unwrap().is_some());
    }
    assert_eq!((history.len(), history.is_empty()), (2, false));
    assert_eq!(
        (history.last_done().is_some(), history.last_undone()),
        (true, None)
    );
    let (label, _) = history.undo(&mut document).unwrap();
    assert_eq!(history.last_undone(), Some(label.as_str()));
    assert_eq!((answered(&document), history.len()), (Answer::Yes, 1));
    history.undo(&mut document).unwrap();
    assert_eq!(document, before);
    assert_eq!(history.last_done(), None);
    for one in [Answer::Yes, Answer::No] {
        history.redo(&mut document).unwrap();
        assert_eq!(answered(&document), one);
    }
    assert_eq!((history.len(), history.last_undone()), (2, None));
}

#[test]
fn at_either_end_nothing_changes_and_it_says_so() {
    let (mut history, mut document) = (History::default(), document());
    let before = document.clone();
    let undone = history.undo(&mut document).unwrap_err();
    assert!(matches!(undone, Refused::NothingToUndo), "{undone:?}");
    let redone = history.redo(&mut document).unwrap_err();
    assert!(matches!(redone, Refused::NothingToRedo), "{redone:?}");
    assert_eq!(document, before);
}

#[test]
fn what_changes_nothing_is_no_step_and_keeps_what_was_undone() {
    let (mut history, mut document) = (History::default(), document());
    history.edit(&answer(Answer::Yes), &mut document).unwrap();
    history.undo(&mut document).unwrap();
    let same = axis(&document, value(&document));
    assert_eq!(history.edit(&same, &mut document).unwrap(), None);
    assert_eq!(history.len(), 0);
    assert!(history.last_undone().is_some());
    // What changes something is done in its place.
    history.edit(&answer(Answer::No), &mut document).unwrap();
    assert_eq!(history.last_undone(), None);
}

#[test]
fn nudges_of_one_reading_in_a_row_are_one_step() {
    let (mut history, mut document) = (History::default(), document());
    let first = value(&document);
    for by in [0.1, 0.2, 0.3] {
        let edit = axis(&document, first + by);
        history.nudge(&edit, &mut document).unwrap();
        assert!(history.is_open());
    }
    assert_eq!(history.len(), 1);
    history.undo(&mut document).unwrap();
    assert_eq!((value(&document), history.is_open()), (first, false));
    history.redo(&mut document).unwrap();
    assert_eq!(value(&document), first + 0.3);
    // The next one is a step of its own, after what was done again and after a close.
    let edit = axis(&document, first + 0.4);
    history.nudge(&edit, &mut document).unwrap();
    assert_eq!(history.len(), 2);
    history.close();
    assert!(!history.is_open());
    let edit = axis(&document, first + 0.5);
    history.nudge(&edit, &mut document).unwrap();
    assert_eq!(history.len(), 3);
}

#[test]
fn nudges_that_end_where_they_began_leave_no_step() {
    let (mut history, mut document) = (History::default(), document());
    let first = value(&document);
    for by in [0.1, 0.0] {
        let edit = axis(&document, first + by);
        history.nudge(&edit, &mut document).unwrap();
    }
    assert_eq!((history.len(), history.is_open()), (0, false));
    // The next nudge begins a step from here.
    let edit = axis(&document, first + 0.1);
    history.nudge(&edit, &mut document).unwrap();
    history.undo(&mut document).unwrap();
    assert_eq!(value(&document), first);
}

#[test]
fn a_nudge_does_not_go_on_with_another_readings_step_or_with_a_typed_value() {
    let (mut history, mut document) = (History::default(), document());
    let first = value(&document);
    history
        .edit(&axis(&document, first + 1.0), &mut document)
        .unwrap();
    assert!(!history.is_open(), "a typed value takes no nudges in");
    history
        .nudge(&axis(&document, first + 1.1), &mut document)
        .unwrap();
    let other = document.case().readings.iter();
    let other = other.filter(|one| one.quantity == Quantity::WALL_THICKNESS);
    let other: Vec<Reading> = other.cloned().collect();
    let nudged = Edit::Replace(Reading {
        value: other[0].value + 0.1,
        ..other[0].clone()
    });
    history.nudge(&nudged, &mut document).unwrap();
    assert_eq!(history.len(), 3);
    for expected in [first + 1.1, first + 1.0, first] {
        history.undo(&mut document).unwrap();
        assert_eq!(value(&document), expected);
    }
}

#[test]
fn what_is_refused_is_no_step() {
    let (mut history, mut document) = (History::default(), document());
    let before = document.clone();
    let mut gone = before.case().readings[0].clone();
    gone.id.0 = "nobody".into();
    assert!(
        history
            .edit(&Edit::Remove(gone.id.clone()), &mut document)
            .is_err()
    );
    assert!(history.nudge(&Edit::Replace(gone), &mut document).is_err());
    assert_eq!((history.len(), document), (0, before));
}
