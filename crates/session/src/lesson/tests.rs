use crate::overlay::Overlay;
use crate::{Effect, Errand, Event, Key, KeyCode, LessonPlay, Session, fixture};
use files::{Course, Score, case_of_lesson, parse_lesson, shipped};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// A shipped lesson over the rules and sizes of the fixture.
fn play(name: &str) -> LessonPlay {
    let (name, text) = shipped::lesson(name).unwrap();
    let file = parse_lesson(name, text).unwrap();
    let case = case_of_lesson(&file, None).unwrap().into_value();
    let session = fixture::infant();
    let limits = files::parse_guidance(shipped::GUIDANCE.0, shipped::GUIDANCE.1).unwrap();
    let never = AtomicBool::new(false);
    let work = sizing::Work {
        threads: 2,
        cancel: &never,
    };
    let document = session.document();
    let rules = Arc::new(document.rules().clone());
    let sizes = document.shelf().catalogues();
    let against = (&rules, limits.value());
    let course = Course::new(&file, case, against, sizes, &work).unwrap();
    LessonPlay::new(Arc::new(course), "wide-disc")
}

fn press(session: &mut Session, codes: &[KeyCode]) -> Vec<Effect> {
    let keys = codes.iter().map(|code| Event::Key(Key::plain(*code)));
    keys.flat_map(|key| session.update(key)).collect()
}

fn shown(session: &Session) -> &LessonPlay {
    match session.overlays() {
        [Overlay::Lesson(play)] => play,
        other => panic!("{other:?}"),
    }
}

/// Nothing of the program's answer is shown before one was given, and nothing of the
/// open case is touched by any key.
#[test]
fn an_answer_is_given_before_one_is_shown_and_the_case_stays() {
    let mut session = fixture::infant().with_lesson(play("wide-disc"));
    let before = session.document().case().clone();
    press(&mut session, &[KeyCode::Enter]);
    assert!(shown(&session).is_open());
    assert_eq!(shown(&session).picture(), None);
    // Neither going on nor any key of the page leads past an open question.
    let keys = [
        KeyCode::Right,
        KeyCode::PageDown,
        KeyCode::Char('u'),
        KeyCode::Char('+'),
        KeyCode::Char('2'),
        KeyCode::Tab,
        KeyCode::Delete,
    ];
    let effects = press(&mut session, &keys);
    assert!(shown(&session).is_open(), "{:?}", shown(&session).place());
    assert_eq!(shown(&session).place().0, 2);
    let recorded = effects.iter().any(|it| matches!(it, Effect::Record(_)));
    assert!(!recorded && *session.document().case() == before);
    press(&mut session, &[KeyCode::Char('b'), KeyCode::Enter]);
    let (_, mark) = shown(&session).given().unwrap();
    assert!(mark.is_right);
    assert_eq!(shown(&session).picture(), Some("even-narrow/5x3"));
    // What was committed stands.
    press(
        &mut session,
        &[KeyCode::Char('a'), KeyCode::Left, KeyCode::Right],
    );
    assert!(shown(&session).given().unwrap().1.is_right);
    press(&mut session, &[KeyCode::Esc]);
    assert!(session.overlays().is_empty());
    assert_eq!(*session.document().case(), before);
    assert!(!session.is_unsaved());
}

#[test]
fn the_score_is_kept_once_at_the_end() {
    let mut session = fixture::infant().with_lesson(play("wide-disc"));
    let answers = [
        KeyCode::Enter,
        KeyCode::Char('a'),
        KeyCode::Enter,
        KeyCode::Enter,
        KeyCode::Char('x'),
        KeyCode::Enter,
        KeyCode::Backspace,
        KeyCode::Char('-'),
        KeyCode::Char('1'),
        KeyCode::Char(','),
        KeyCode::Char('8'),
        KeyCode::Enter,
        KeyCode::Enter,
    ];
    let kept = |effects: Vec<Effect>| {
        let scores = effects.into_iter().filter_map(|effect| match effect {
            Effect::File(Errand::KeepScore { lesson, score }) => Some((lesson, score)),
            _ => None,
        });
        scores.collect::<Vec<_>>()
    };
    assert_eq!(kept(press(&mut session, &answers)), []);
    let score = Score { right: 1, asked: 2 };
    let end = press(&mut session, &[KeyCode::Enter]);
    assert_eq!(kept(end), [("wide-disc".to_owned(), score)]);
    let again = press(&mut session, &[KeyCode::Left, KeyCode::Right]);
    assert_eq!(kept(again), []);
    press(&mut session, &[KeyCode::Enter]);
    assert!(session.overlays().is_empty());
}

#[test]
fn a_lesson_that_was_begun_alone_ends_the_program() {
    let mut session = fixture::infant().with_lesson(play("wide-disc").alone());
    let effects = press(&mut session, &[KeyCode::Esc]);
    assert!(effects.iter().any(|it| matches!(it, Effect::Leave)));
}
