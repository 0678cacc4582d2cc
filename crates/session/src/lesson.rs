//! A lesson as it is played: where the learner is, what was answered, the score.

use crate::editor::Editor;
use files::{Course, CourseStep, Score, StepContent};
use sizing::lesson::{Choices, GivenAnswer, Mark, Question};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A lesson that is played. Its case is its own: nothing here changes the open case or
/// its journal.
#[derive(Clone, Debug)]
pub struct LessonPlay {
    course: Arc<Course>,
    /// Under which name the score is kept.
    name: String,
    index: usize,
    /// The choice under the cursor, by index.
    pub cursor: usize,
    /// The choices that are ticked, of a question with several, by index.
    pub ticked: BTreeSet<usize>,
    /// The number that is typed.
    pub editor: Editor,
    /// Why the last key did nothing; empty: it did something.
    pub refused: String,
    given: BTreeMap<usize, (GivenAnswer, Mark)>,
    /// Whether leaving the lesson ends the program: it was begun for it.
    pub(crate) ends_program: bool,
    pub(crate) is_kept: bool,
}

impl LessonPlay {
    /// A lesson at its first step.
    pub fn new(course: Arc<Course>, name: impl Into<String>) -> Self {
        Self {
            course,
            name: name.into(),
            index: 0,
            cursor: 0,
            ticked: BTreeSet::new(),
            editor: Editor::new(""),
            refused: String::new(),
            given: BTreeMap::new(),
            ends_program: false,
            is_kept: false,
        }
    }

    /// The same, whose end is that of the program.
    #[must_use]
    pub const fn alone(mut self) -> Self {
        self.ends_program = true;
        self
    }

    /// The title of the lesson.
    pub fn title(&self) -> &str {
        &self.course.title
    }

    /// The name under which its score is kept.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The number of the step from 1, and how many there are; past the last is the score.
    pub fn place(&self) -> (usize, usize) {
        (self.index + 1, self.course.steps.len())
    }

    /// The step that is shown; `None`: the end.
    pub fn step(&self) -> Option<&CourseStep> {
        self.course.steps.get(self.index)
    }

    /// The question of the step, if it asks one that has an answer.
    pub fn question(&self) -> Option<&Question> {
        match &self.step()?.shown {
            StepContent::Question(Ok(question)) => Some(question),
            _ => None,
        }
    }

    /// What was answered to the question that is shown, and what that is worth.
    pub fn given(&self) -> Option<&(GivenAnswer, Mark)> {
        self.given.get(&self.index)
    }

    /// Whether an answer is still to be given: until then nothing of the program's own
    /// answer is shown, no picture and no chance.
    pub fn is_open(&self) -> bool {
        self.question().is_some() && self.given().is_none()
    }

    /// The size in the picture; `None` while a question is open.
    pub fn picture(&self) -> Option<&str> {
        if self.is_open() {
            return None;
        }
        self.step()?.picture.as_deref()
    }

    /// How it went so far.
    pub fn score(&self) -> Score {
        let right = self.given.values().filter(|(_, mark)| mark.is_right);
        let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        let is_question = |step: &&CourseStep| matches!(step.shown, StepContent::Question(Ok(_)));
        Score {
            right: count(right.count()),
            asked: count(self.course.steps.iter().filter(is_question).count()),
        }
    }

    /// The mean of the Brier scores; `None` where no chance was asked for.
    pub fn mean_brier(&self) -> Option<f64> {
        let scores: Vec<f64> = self
            .given
            .values()
            .filter_map(|(_, mark)| mark.brier)
            .collect();
        let count = scores.len();
        (count > 0).then(|| scores.iter().sum::<f64>() / count as f64)
    }

    /// Goes on by a step; not past an open question, nor past the end.
    pub(crate) fn next(&mut self) {
        if self.is_open() {
            "answer first: Enter commits".clone_into(&mut self.refused);
        } else if self.index < self.course.steps.len() {
            self.go_to(self.index + 1);
        }
    }

    /// Goes back by a step.
    pub(crate) fn previous(&mut self) {
        self.go_to(self.index.saturating_sub(1));
    }

    fn go_to(&mut self, index: usize) {
        self.index = index;
        self.cursor = 0;
        self.ticked.clear();
        self.editor = Editor::new("");
        self.refused.clear();
    }

    /// Whether the end was reached for the first time, and there is a score to keep.
    pub(crate) fn is_to_be_kept(&self) -> bool {
        self.step().is_none() && !self.is_kept && self.score().asked > 0
    }

    /// Commits what is marked or typed; it stands for good.
    pub(crate) fn commit(&mut self) {
        let Some(question) = self.question() else {
            return;
        };
        let given = match &question.choices {
            Choices::One(_) => GivenAnswer::Chosen(BTreeSet::from([self.cursor])),
            Choices::Any(_) => GivenAnswer::Chosen(self.ticked.clone()),
            Choices::Number(_) => {
                let Some(number) = number(&self.editor.text()) else {
                    "type a number, such as 1.5".clone_into(&mut self.refused);
                    return;
                };
                GivenAnswer::Number(number)
            }
        };
        let mark = question.mark(&given);
        self.given.insert(self.index, (given, mark));
        self.refused.clear();
    }

    /// Moves the cursor among the choices.
    pub(crate) fn move_cursor(&mut self, down: bool) {
        let last = self.choices().saturating_sub(1);
        self.cursor = if down {
            (self.cursor + 1).min(last)
        } else {
            self.cursor.saturating_sub(1)
        };
    }

    /// Puts the cursor on a choice and ticks it, where several may be ticked.
    pub(crate) fn choose(&mut self, index: usize) {
        if index >= self.choices() {
            return;
        }
        self.cursor = index;
        if self.takes_several() && !self.ticked.remove(&index) {
            self.ticked.insert(index);
        }
    }

    /// Whether a number is to be typed now.
    pub(crate) fn takes_number(&self) -> bool {
        let is_number = |it: &Question| matches!(it.choices, Choices::Number(_));
        self.is_open() && self.question().is_some_and(is_number)
    }

    /// Whether several choices may be ticked.
    pub fn takes_several(&self) -> bool {
        let is_any = |it: &Question| matches!(it.choices, Choices::Any(_));
        self.question().is_some_and(is_any)
    }

    fn choices(&self) -> usize {
        match self.question().map(|it| &it.choices) {
            Some(Choices::One(choices) | Choices::Any(choices)) => choices.len(),
            Some(Choices::Number(_)) | None => 0,
        }
    }
}

/// A number as people type it: with a comma, with a long minus.
fn number(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".").replace('−', "-");
    let text = text.trim_end_matches(['%', ' ']);
    text.parse().ok().filter(|it: &f64| it.is_finite())
}

impl PartialEq for LessonPlay {
    fn eq(&self, other: &Self) -> bool {
        // Nobody changes a course: the same allocation is the same lesson.
        Arc::ptr_eq(&self.course, &other.course)
            && self.index == other.index
            && self.cursor == other.cursor
            && self.ticked == other.ticked
            && self.editor == other.editor
            && self.refused == other.refused
            && self.given == other.given
            && self.is_kept == other.is_kept
    }
}

#[cfg(test)]
mod tests;
