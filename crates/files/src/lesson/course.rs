use super::LessonFile;
use crate::kind::LESSON_CAP;
use crate::{
    CaseFile, Diagnostic, FileError, FileKind, Source, parse_case, read_case, setting, shipped,
};
use measurement::Quantity;
use sizing::engine::{Counter, Engine, Fast};
use sizing::lesson::{Change, NoAnswer, Question, Step, StepKind};
use sizing::trial::{CaseAfterTrials, take_in};
use sizing::{Case, Catalogue, Draws, HouseRules, Ranking, Work, rank};
use std::path::Path;
use std::sync::Arc;
use workup::Limits;

/// A course: a lesson with every answer worked out, none of which is shown before the
/// learner's.
#[derive(Clone, Debug)]
pub struct Course {
    /// The title of the lesson.
    pub title: String,
    /// Its steps.
    pub steps: Vec<CourseStep>,
    /// The points of the lesson that its case does not show, by index.
    pub lost_points: Vec<usize>,
}

/// A step of a course.
#[derive(Clone, Debug)]
pub struct CourseStep {
    /// The content of the step.
    pub shown: StepContent,
    /// The teacher's words.
    pub words: Option<String>,
    /// The size in the picture; `None` where nothing is drawn.
    pub picture: Option<String>,
    /// The ranked list of the case at this step.
    pub ranking: Arc<Ranking>,
}

/// The content of a step.
#[derive(Clone, Debug)]
pub enum StepContent {
    /// A question with its answer, or why it has none.
    Question(Result<Box<Question>, NoAnswer>),
    /// The words of the teacher.
    Told(String),
    /// The changes of the case in words.
    Changed(Vec<String>),
}

/// The number of draws for every chance of a lesson.
const DRAWS: usize = 4096;

impl Course {
    /// Works out a lesson; `None` where that was cancelled.
    pub fn new(
        file: &LessonFile,
        case: Case,
        (rules, limits): (&Arc<HouseRules>, &Limits),
        catalogues: &[Catalogue],
        work: &Work,
    ) -> Option<Self> {
        let lesson = &file.value().lesson;
        let mut before = Arc::new(case.clone());
        let mut rankings: Vec<Arc<Ranking>> = Vec::new();
        let mut steps = Vec::new();
        for (step, case) in lesson.steps.iter().zip(lesson.cases(case)) {
            // Steps between two changes share their case.
            let is_new = rankings.is_empty() || matches!(step.what, StepKind::Change(_));
            if is_new {
                rankings.push(ranked(&case, (rules, limits), catalogues, work)?);
            }
            let ranking = Arc::clone(rankings.last()?);
            steps.push(CourseStep::new(step, &before, ranking));
            before = case;
        }
        let lost = lesson.lost_points(&rankings);
        let points = lesson.points.iter().enumerate();
        Some(Self {
            title: lesson.title.clone(),
            steps,
            lost_points: points
                .filter(|(_, point)| lost.contains(point))
                .map(|(index, _)| index)
                .collect(),
        })
    }

    /// The faults that a teacher must mend: questions without an answer, and points that the
    /// case does not show.
    pub fn faults(&self, file: &LessonFile) -> Vec<Diagnostic> {
        let steps = self.steps.iter().enumerate();
        let unanswered = steps.filter_map(|(index, step)| match &step.shown {
            StepContent::Question(Err(why)) => {
                let found = format!("a question without an answer ({why})");
                Some(file.step_fault(index, &found, "a question that the program can answer"))
            }
            _ => None,
        });
        let lost = self
            .lost_points
            .iter()
            .map(|&index| file.point_fault(index));
        unanswered.chain(lost).collect()
    }
}

impl CourseStep {
    fn new(step: &Step, before: &Case, ranking: Arc<Ranking>) -> Self {
        let shown = match &step.what {
            StepKind::Ask(ask) => StepContent::Question(ask.question(&ranking).map(Box::new)),
            StepKind::Tell(text) => StepContent::Told(text.clone()),
            StepKind::Change(change) => StepContent::Changed(said(change, before)),
        };
        let asked = match &shown {
            StepContent::Question(Ok(question)) => Some(question.shows.clone()),
            _ => None,
        };
        Self {
            picture: step.show.clone().or(asked),
            words: step.words.clone(),
            shown,
            ranking,
        }
    }
}

/// The case of a lesson: a file beside it, or else a scenario that came with the program.
pub fn case_of_lesson(file: &LessonFile, beside: Option<&Path>) -> Result<CaseFile, FileError> {
    let name = &file.value().case;
    let paths = beside.into_iter().flat_map(|folder| {
        let plain = folder.join(name);
        [plain.clone(), plain.with_file_name(format!("{name}.ron"))]
    });
    // A lesson may have the name of its case.
    let mut cases = paths.filter(|path| path.is_file() && !is_lesson(path));
    if let Some(path) = cases.next() {
        return read_case(&path);
    }
    if let Some((name, text)) = shipped::scenario(name) {
        return Ok(parse_case(name, text)?);
    }
    Err(FileError::Faulty(vec![file.case_fault()]))
}

/// Whether a file holds a lesson; one that cannot be read does not.
fn is_lesson(path: &Path) -> bool {
    let source = Source::read(path, LESSON_CAP);
    source.is_ok_and(|source| FileKind::of(source.text()) == FileKind::Lesson)
}

/// A case ranked, with what was seen in its trials taken in.
fn ranked(
    case: &Arc<Case>,
    (rules, limits): (&Arc<HouseRules>, &Limits),
    catalogues: &[Catalogue],
    work: &Work,
) -> Option<Arc<Ranking>> {
    let mut setting = Arc::new(setting(Arc::clone(case), Arc::clone(rules), Some(limits)));
    let mut draws = Draws::new(&setting, DRAWS, Draws::SEED).ok();
    if !case.procedure.trials.is_empty()
        && let Ok(taken_in) = take_in(&setting, catalogues, DRAWS, Draws::SEED, work)
    {
        let taken_in: CaseAfterTrials = taken_in?;
        setting = taken_in.setting;
        draws = taken_in.draws;
    }
    let counter: Option<Box<dyn Counter>> = draws.map(|draws| Fast.prepare(draws));
    rank(&setting, catalogues, counter.as_deref(), work).map(Arc::new)
}

/// The effect of a change on the case before it, in words.
fn said(change: &Change, before: &Case) -> Vec<String> {
    let of = |id: &measurement::ReadingId| before.readings.iter().find(|one| one.id == *id);
    let value = |quantity: Quantity, value: f64| format!("{value} {}", quantity.unit().symbol());
    let mut said = Vec::new();
    for (id, new) in &change.values {
        if let Some(one) = of(id) {
            let (old, new) = (value(one.quantity, one.value), value(one.quantity, *new));
            said.push(format!("{}: {new}, before {old}", one.quantity.label()));
        }
    }
    for id in &change.without {
        if let Some(one) = of(id) {
            said.push(format!("{}: not measured any more", one.quantity.label()));
        }
    }
    for one in &change.readings {
        let new = value(one.quantity, one.value);
        said.push(format!("{}: {new}, measured anew", one.quantity.label()));
    }
    said
}
