//! A lesson, played by keys.

use crate::desk::Desk;
use crate::from_nothing::play;
use crate::played::Played;
use std::fs;

/// A lesson with every answer right.
const LESSON: &str = include_str!("lesson.keys");

#[test]
fn a_lesson_is_played_by_keys_and_its_score_is_kept() {
    let home = Desk::new("lesson");
    let state = home.path("");
    let variables = [("XDG_STATE_HOME", &*state)];
    let mut played = Played::start(&["lesson", "wide-disc"], &variables, (80, 24));
    played.wait_for_row(&["LESSON", "What a wide disc costs"]);
    played.wait_for("no patient's");
    play(&mut played, LESSON);
    played.wait_for("score kept in");
    // The end of the lesson is the end of the program.
    played.send("\r");
    assert_eq!(played.exit(), 0);
    let kept = fs::read_to_string(home.path("rimwise/lessons.ron"));
    let kept = kept.expect("the score");
    assert!(
        kept.contains("\"wide-disc\": (right: 2, asked: 2)"),
        "{kept}"
    );
    let folder = home.path("rimwise");
    let others = fs::read_dir(folder).expect("a folder").count();
    assert_eq!(others, 1, "a lesson leaves its score and nothing else");
}

/// From a plan to a lesson and back, and from a size to the walk round its neighbours
/// and on to the fit map: the plan is as it was.
#[test]
fn a_lesson_and_why_are_reached_from_the_plan_and_lead_back() {
    let home = Desk::new("from-the-plan");
    let state = home.path("");
    let variables = [("XDG_STATE_HOME", &*state)];
    let mut played = Played::start(&["outlet-infant"], &variables, (120, 40));
    played.wait_for("% ");
    played.wait_for_quiet();
    played.send("O");
    played.wait_for("LESSON");
    played.send("wide-disc");
    played.wait_for("What a wide disc costs");
    played.send("\r");
    played.wait_for_row(&["LESSON", "What a wide disc costs", "step 1 of"]);
    played.send("\u{1b}");
    played.wait_for("[1 plan]");
    played.wait_for_row(&["Muscular outlet defect", "muscular outlet"]);
    played.send("i");
    played.wait_for_row(&["Why", "step 1 of 7"]);
    played.send("\u{1b}[B");
    played.wait_for_row(&["Why", "step 2 of 7"]);
    played.send("\r");
    played.wait_for("[3 fit map]");
    played.send("q");
    assert_eq!(played.exit(), 0);
}
