use super::*;
use crate::Line;
use crate::layout::{BODY, TITLE};

fn section(topic: Topic, count: usize) -> Section {
    let lines = (0..count).map(|index| Line::plain(format!("line {index}")));
    Section::lines(topic, "Heading", lines.collect())
}

#[test]
fn what_may_go_goes_in_its_turn_and_is_counted() {
    let mut sections = [section(Topic::Warnings, 12), section(Topic::Room, 8)];
    let fits = |most: usize| {
        move |sections: &[Section]| sections.iter().map(Section::len).sum::<usize>() <= most
    };
    assert!(into_column(&mut sections, fits(14)));
    // Warnings down to eight, the room down to four, then warnings again.
    assert_eq!([sections[0].len(), sections[1].len()], [8, 6]);
    assert_eq!([sections[0].left_out, sections[1].left_out], [4, 2]);
    assert_eq!(sections[0].more().as_deref(), Some("… and 4 more"));
    assert!(
        !into_column(&mut sections, fits(0)),
        "the gravest warning stays"
    );
    assert_eq!([sections[0].len(), sections[1].len()], [1, 0]);
}

#[test]
fn what_is_kept_is_never_left_out() {
    let lines = vec![
        Line::plain("first"),
        Line::plain("AV block").kept(),
        Line::plain("third"),
    ];
    let mut sections = [Section::lines(Topic::Warnings, "Warnings", lines)];
    assert!(!into_column(&mut sections, |_| false));
    let crate::Body::Lines(left) = &sections[0].body else {
        panic!("lines")
    };
    assert!(left.iter().any(|line| line.text == "AV block"));
}

#[test]
fn a_short_line_comes_back_where_a_long_one_made_room() {
    // The note takes ten, a box one. Boxes go first, and then the note after all.
    let mut sections = [section(Topic::Room, 8), section(Topic::Notes, 1)];
    let room = |sections: &[Section]| sections[0].len() + 10 * sections[1].len() <= 9;
    assert!(into_column(&mut sections, room));
    assert_eq!([sections[0].len(), sections[1].len()], [8, 0]);
    assert_eq!([sections[0].left_out, sections[1].left_out], [0, 1]);
}

#[test]
fn a_text_that_has_room_is_left_alone() {
    assert_eq!(clamped("a short text", BODY, 90.0, 1), "a short text");
}

#[test]
fn a_cut_text_says_how_much_of_it_is_missing() {
    let whole = "one two three four five six seven eight nine ten ".repeat(8);
    let cut = clamped(&whole, TITLE, 90.0, 2);
    let (kept, rest) = cut.split_once("… (").expect("a count");
    let rest: usize = rest
        .trim_end_matches(" more characters)")
        .parse()
        .expect("a number");
    assert!(whole.starts_with(kept));
    let trimmed = whole.chars().count() - kept.chars().count() - rest;
    assert!(trimmed <= 1, "a blank at the cut");
}
