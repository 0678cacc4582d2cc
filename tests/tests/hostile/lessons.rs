//! Lessons changed at random: refused with a place, or played.

use crate::held;
use crate::mutants::every;
use files::{Course, StepContent, case_of_lesson, parse_lesson, shipped};
use outside::sample::{shipped_limits, shipped_rules};
use sizing::Work;
use sizing::lesson::Right;
use std::cell::Cell;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Of so many sound lessons one is played: its lists are counted in full.
const PLAYED: u64 = 16;

#[test]
fn a_lesson_whatever_stands_in_it() {
    let sizes = [held::few_sizes()];
    let (rules, limits) = (Arc::new(shipped_rules()), shipped_limits());
    let files: Vec<&str> = shipped::LESSONS.iter().map(|one| one.1).collect();
    let sound = Cell::new(0_u64);
    every("lesson", &files, |text| {
        let file = match parse_lesson("mutant.ron", text) {
            Err(faults) => {
                held::faults(&faults);
                return false;
            }
            Ok(file) => file,
        };
        let case = match case_of_lesson(&file, None) {
            Err(error) => {
                held::shown(&error.to_string());
                return false;
            }
            Ok(case) => case.into_value(),
        };
        held::warnings(&file.faults_against(&case, &sizes));
        sound.set(sound.get() + 1);
        if !sound.get().is_multiple_of(PLAYED) {
            return true;
        }
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 1,
            cancel: &never,
        };
        let course = Course::new(&file, case, (&rules, &limits), &sizes, &work).unwrap();
        for step in &course.steps {
            match &step.shown {
                StepContent::Question(Ok(question)) => right(&question.right),
                StepContent::Question(Err(none)) => held::shown(&none.to_string()),
                StepContent::Told(_) | StepContent::Changed(_) => {}
            }
        }
        true
    });
}

/// What is right is a number where it is one, and a chance lies between 0 and 100 per cent.
fn right(right: &Right) {
    match *right {
        Right::Near { value, within } => assert!(value.is_finite() && within >= 0.0, "{right:?}"),
        Right::Chance { value, within } => {
            assert!((0.0..=100.0).contains(&value) && within >= 0.0, "{right:?}");
        }
        Right::OneOf(_) | Right::All(_) => {}
    }
}
