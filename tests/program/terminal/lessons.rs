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
