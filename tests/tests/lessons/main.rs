//! Every lesson that comes with the program is played, with right and wrong answers, and
//! fails where its point is gone.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

mod point;
mod why;

use files::{Course, LessonFile, StepContent, case_of_lesson, parse_lesson, shipped};
use outside::sample::{shipped_catalogue, shipped_limits, shipped_rules};
use sizing::lesson::{Ask, Choices, GivenAnswer, Question, Right, StepKind};
use sizing::{Case, HouseRules, Work};
use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use workup::Limits;

/// The lessons that come with the program.
fn lessons() -> impl Iterator<Item = LessonFile> {
    shipped::LESSONS
        .iter()
        .map(|(name, text)| parse_lesson(name, text).expect("a sound lesson"))
}

fn case_of(file: &LessonFile) -> Case {
    case_of_lesson(file, None)
        .expect("the case of the lesson")
        .into_value()
}

fn course(file: &LessonFile, case: Case, rules: HouseRules, limits: &Limits) -> Course {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let rules = Arc::new(rules);
    let sizes = [shipped_catalogue()];
    Course::new(file, case, (&rules, limits), &sizes, &work).expect("not cancelled")
}

fn as_shipped(file: &LessonFile) -> Course {
    course(file, case_of(file), shipped_rules(), &shipped_limits())
}

/// Answers that are wrong.
fn wrong(question: &Question) -> Vec<GivenAnswer> {
    match (&question.choices, &question.right) {
        (Choices::One(choices), Right::OneOf(right)) => (0..choices.len())
            .filter(|index| !right.contains(index))
            .map(|index| GivenAnswer::Chosen(BTreeSet::from([index])))
            .collect(),
        (Choices::Any(choices), Right::All(right)) => {
            let all: BTreeSet<usize> = (0..choices.len()).collect();
            vec![GivenAnswer::Chosen(
                all.difference(right).copied().collect(),
            )]
        }
        (Choices::Number(_), Right::Near { value, within } | Right::Chance { value, within }) => {
            let off = 1.01 * within + 0.01;
            vec![
                GivenAnswer::Number(value + off),
                GivenAnswer::Number(value - off),
            ]
        }
        (choices, right) => unreachable!("{choices:?} with {right:?}"),
    }
}

#[test]
fn every_lesson_is_played_with_right_and_with_wrong_answers() {
    let mut played = 0;
    for file in lessons() {
        let title = &file.value().lesson.title;
        let case = case_of(&file);
        assert_eq!(file.faults_against(&case, &[shipped_catalogue()]), []);
        let course = as_shipped(&file);
        assert_eq!(course.faults(&file), [], "{title}");
        for step in &course.steps {
            let StepContent::Question(asked) = &step.shown else {
                continue;
            };
            let question = asked.as_ref().expect("an answer");
            let right = question.right_answer();
            assert!(question.mark(&right).is_right, "{title}: {question:?}");
            let wrong = wrong(question);
            assert!(!wrong.is_empty(), "{title}: every answer is right");
            for given in wrong {
                let mark = question.mark(&given);
                assert!(!mark.is_right, "{title}: {given:?} of {question:?}");
                if let (Some(least), Some(brier)) = (question.mark(&right).brier, mark.brier) {
                    assert!(brier > least, "{title}: {brier} after {least}");
                }
            }
            assert!(step.picture.is_some(), "{title}: no picture");
            assert!(!question.why.is_empty() && !question.answer.is_empty());
            played += 1;
        }
    }
    assert!(played >= 40, "{played} questions");
}

/// The issue asks for twenty lessons, and for questions of every kind among them.
#[test]
fn the_lessons_are_twenty_at_least_and_ask_in_every_way() {
    let mut asked = BTreeSet::new();
    let mut titles = BTreeSet::new();
    for file in lessons() {
        let lesson = &file.value().lesson;
        assert!(
            titles.insert(lesson.title.clone()),
            "{} twice",
            lesson.title
        );
        for step in &lesson.steps {
            if let StepKind::Ask(ask) = &step.what {
                asked.insert(Ask::name(ask));
            }
        }
    }
    assert!(titles.len() >= 20, "{} lessons", titles.len());
    assert_eq!(
        asked,
        BTreeSet::from([
            "decides",
            "likely",
            "nudge_until",
            "stop_or_go_on",
            "value",
            "which_first",
            "which_fit"
        ])
    );
}

/// Where nothing fits, stopping is right in either way, and going on is not.
#[test]
fn where_nothing_fits_surgery_and_waiting_are_both_right() {
    let file = lessons()
        .find(|file| file.value().lesson.title == "Nothing fits")
        .expect("the lesson");
    let course = as_shipped(&file);
    let stop = course
        .steps
        .iter()
        .rev()
        .find_map(|step| match &step.shown {
            StepContent::Question(Ok(question)) => Some(question),
            _ => None,
        });
    let stop = stop.expect("a question at the end");
    let chosen = |index| {
        stop.mark(&GivenAnswer::Chosen(BTreeSet::from([index])))
            .is_right
    };
    assert_eq!([chosen(0), chosen(1), chosen(2)], [false, true, true]);
    assert!(
        stop.answer.contains("surgery and waiting"),
        "{}",
        stop.answer
    );
}

/// What speaks against closing at all speaks against surgery too: a high resistance is
/// no reason to call a surgeon.
#[test]
fn where_guidance_speaks_against_closing_surgery_is_no_answer() {
    let file = lessons()
        .find(|file| file.value().lesson.title.contains("lungs say no"))
        .expect("the lesson");
    let course = as_shipped(&file);
    let asked = course
        .steps
        .iter()
        .rev()
        .find_map(|step| match &step.shown {
            StepContent::Question(Ok(question)) => Some(question),
            _ => None,
        });
    let asked = asked.expect("a question");
    let chosen = |index| {
        asked
            .mark(&GivenAnswer::Chosen(BTreeSet::from([index])))
            .is_right
    };
    assert_eq!([chosen(0), chosen(1), chosen(2)], [false, false, true]);
}
