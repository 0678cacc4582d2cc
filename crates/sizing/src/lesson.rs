//! Lessons: questions about a made-up case, asked before the program says anything.
//!
//! No answer stands in a lesson. Each question names what the program works out, so an
//! answer follows the case, the catalogue and the rules.

mod answers;
mod ask;
mod change;
mod nudge;
mod outcome;
mod point;
mod question;

pub use ask::Ask;
pub use change::Change;
pub(crate) use outcome::outcome_of;
pub use point::Point;
pub use question::{Choices, GivenAnswer, Mark, NoAnswer, Question, Right};

use crate::{Case, Ranking};
use std::sync::Arc;

/// A lesson about one case.
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// Its title.
    pub title: String,
    /// How hard it is, from 1; lessons are listed in this order.
    pub order: u32,
    /// What the case must show for the lesson to teach anything.
    pub points: Vec<Point>,
    /// What is asked, told and changed, in this order.
    pub steps: Vec<Step>,
}

/// One step of a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What it does.
    pub what: StepKind,
    /// The teacher's words: to a question, or to what has changed.
    pub words: Option<String>,
    /// The size in the picture; `None`: that of the question.
    pub show: Option<String>,
}

/// What a step of a lesson does.
#[derive(Clone, Debug, PartialEq)]
pub enum StepKind {
    /// It asks.
    Ask(Ask),
    /// It tells.
    Tell(String),
    /// It changes the case from here on.
    Change(Change),
}

impl Lesson {
    /// The case at each step: a change counts from its own step on. Steps between two
    /// changes share one case.
    pub fn cases(&self, case: Case) -> Vec<Arc<Case>> {
        let mut case = Arc::new(case);
        let steps = self.steps.iter();
        steps
            .map(|step| {
                if let StepKind::Change(change) = &step.what {
                    case = Arc::new(change.applied(&case));
                }
                Arc::clone(&case)
            })
            .collect()
    }

    /// The points that none of the cases shows any more; `rankings` holds the ranked list
    /// of each case of the lesson in its order.
    pub fn lost_points(&self, rankings: &[Arc<Ranking>]) -> Vec<&Point> {
        let points = self.points.iter();
        points.filter(|point| !point.holds(rankings)).collect()
    }

    /// How many questions it asks.
    pub fn question_count(&self) -> usize {
        let is_question = |step: &&Step| matches!(step.what, StepKind::Ask(_));
        self.steps.iter().filter(is_question).count()
    }
}
