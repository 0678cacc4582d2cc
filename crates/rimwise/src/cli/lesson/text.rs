//! A lesson as text, and as two pages for a room: questions first, answers last.

use crate::text::paragraph;
use files::{Course, CourseStep, StepContent, parse_lesson, shipped, visible};
use paper::{CAUTION, Line, Paper, Section, Sheet, Topic};
use sizing::lesson::{Choices, Question};
use std::fmt::Write as _;

/// How wide text for people is.
const WIDTH: usize = super::super::args::WIDTH;

/// What a lesson is, on each of its pages.
const MADE_UP: &str = "LESSON: a made-up case for teaching, and no patient's.";

/// What stands before what may be answered.
const CHOICE: &str = "   ";

/// The lessons that came with the program, in their order.
pub(super) fn list() -> String {
    let mut list = String::from("Lessons, the easiest first; play one by rimwise lesson NAME\n\n");
    for (name, text) in shipped::LESSONS {
        let title = parse_lesson(name, text).map(|file| file.into_value().lesson.title);
        let name = name.strip_suffix(".ron").unwrap_or(name);
        let _ = writeln!(list, "  {name:<26} {}", title.unwrap_or_default());
    }
    list
}

/// The whole lesson: steps with their questions, and at the end the answers.
pub(super) fn whole(course: &Course) -> String {
    let mut text = String::new();
    let mut put = |says: &str| text.push_str(&paragraph("", &visible(says), WIDTH));
    put(&course.title);
    put(MADE_UP);
    put(CAUTION);
    let mut body = String::new();
    for lines in questions(course) {
        body.push('\n');
        for line in lines {
            let lead = if line.starts_with(CHOICE) { CHOICE } else { "" };
            body.push_str(&paragraph(lead, &visible(line.trim_start()), WIDTH));
        }
    }
    body.push_str("\nAnswers\n");
    for lines in answers(course) {
        body.push('\n');
        for line in lines {
            body.push_str(&paragraph("", &visible(&line), WIDTH));
        }
    }
    text + &body
}

/// Two pages: the questions, and behind them the answers.
pub(in crate::cli) fn sheets(course: &Course, paper: Paper) -> Vec<Sheet> {
    let page = |headline: &str, parts: Vec<Vec<String>>| {
        let sections = parts.into_iter().map(|lines| {
            let lines = lines.iter().map(|line| Line::plain(visible(line)).kept());
            Section::lines(Topic::Notes, "", lines.collect())
        });
        let mut left: Vec<Section> = sections.collect();
        let right = left.split_off(left.len().div_ceil(2));
        Sheet {
            paper,
            title: visible(&course.title).into_owned(),
            site: MADE_UP.to_owned(),
            caution: CAUTION.to_owned(),
            sticker: "no patient".to_owned(),
            headline: vec![headline.to_owned()],
            alerts: Section::lines(Topic::Alerts, "", Vec::new()),
            figure: None,
            columns: [left, right],
            signatures: Vec::new(),
            provenance: vec![
                "Every answer was worked out by the program from the case as it is.".to_owned(),
            ],
        }
    };
    vec![
        page("Questions", questions(course)),
        page("Answers", answers(course)),
    ]
}

/// Each step as a room sees it first, without an answer; questions have a number. What is
/// told after the last question would give answers away, and comes with them.
fn questions(course: &Course) -> Vec<Vec<String>> {
    let mut number = 0;
    let steps = course.steps[..last_question(course)].iter();
    steps
        .map(|step| {
            let mut lines = Vec::new();
            match &step.shown {
                StepContent::Told(text) => lines.push(text.clone()),
                StepContent::Changed(what) => {
                    lines.extend(step.words.clone());
                    lines.push(format!("Changed: {}.", what.join("; ")));
                }
                StepContent::Question(asked) => {
                    number += 1;
                    match asked {
                        Ok(question) => {
                            let asked = question.asked(step.words.as_deref());
                            lines.push(format!("{number}. {}", asked.join(" ")));
                            lines.extend(choices(question));
                        }
                        Err(why) => lines.push(format!("{number}. No answer: {why}.")),
                    }
                }
            }
            lines
        })
        .collect()
}

/// The answer to each question, and what is told after the last one.
fn answers(course: &Course) -> Vec<Vec<String>> {
    let asked = course.steps.iter().filter_map(|step| match &step.shown {
        StepContent::Question(asked) => Some(asked),
        _ => None,
    });
    let mut answers: Vec<Vec<String>> = (1..)
        .zip(asked)
        .map(|(number, asked)| match asked {
            Ok(question) => vec![
                format!("{number}. {}", question.answer),
                question.why.clone(),
            ],
            Err(why) => vec![format!("{number}. No answer: {why}.")],
        })
        .collect();
    let after = course.steps[last_question(course)..].iter();
    answers.extend(after.filter_map(|step| match &step.shown {
        StepContent::Told(text) => Some(vec![text.clone()]),
        _ => None,
    }));
    answers
}

/// How many steps there are up to the last question.
fn last_question(course: &Course) -> usize {
    let is_question = |step: &CourseStep| matches!(step.shown, StepContent::Question(_));
    let last = course.steps.iter().rposition(is_question);
    last.map_or(course.steps.len(), |last| last + 1)
}

/// What may be answered, a line each; of a number its unit.
fn choices(question: &Question) -> Vec<String> {
    match &question.choices {
        Choices::One(choices) | Choices::Any(choices) => {
            let letters = ('a'..='z').zip(choices);
            letters
                .map(|(letter, choice)| format!("{CHOICE}{letter}) {choice}"))
                .collect()
        }
        Choices::Number("") => vec![format!("{CHOICE}______")],
        Choices::Number(unit) => vec![format!("{CHOICE}______ {unit}")],
    }
}
