use super::Keeper;
use super::events::Events;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use crate::{LessonPlay, Session};
use files::{
    Course, FileError, FileKind, LESSON_CAP, LessonFile, Score, Source, case_of_lesson,
    parse_guidance, parse_lesson, read_lesson, shipped, visible,
};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::thread::available_parallelism;

/// Opens a lesson that came with the program, over the open case.
pub(super) fn open_shipped(session: &Session, events: &mut Events, name: &str) {
    let Some((name, text)) = shipped::lesson(name) else {
        return events.warn(KeeperError::NoSuchShipped(name.to_owned()));
    };
    let play = parse_lesson(name, text)
        .map_err(FileError::from)
        .and_then(|file| play(session, &file, None));
    tell(events, play);
}

/// Opens the lesson of a file, over the open case; `false`: it holds no lesson.
pub(super) fn open(session: &Session, events: &mut Events, path: &Path) -> bool {
    let source = Source::read(path, LESSON_CAP);
    if !source.is_ok_and(|it| FileKind::of(it.text()) == FileKind::Lesson) {
        return false;
    }
    let play = read_lesson(path).and_then(|file| play(session, &file, path.parent()));
    tell(events, play);
    true
}

impl Keeper {
    /// Keeps the score of a lesson, without a name.
    pub(super) fn keep_score(&self, events: &mut Events, lesson: &str, score: Score) {
        let Some(scores) = &self.scores else {
            return events.tell("the score is not kept: HOME names no folder");
        };
        match scores.note(lesson, score) {
            Ok(()) => {
                let path = scores.path().display().to_string();
                events.tell(format!("score kept in {}; it names nobody", visible(&path)));
            }
            Err(error) => events.warn(error),
        }
    }
}

fn tell(events: &mut Events, play: Result<LessonPlay, FileError>) {
    match play {
        Ok(play) => events.push(FileEvent::LessonOpened(Box::new(play))),
        Err(error) => events.warn(error),
    }
}

/// A lesson made ready under the rules and with the stock of the session.
fn play(
    session: &Session,
    file: &LessonFile,
    folder: Option<&Path>,
) -> Result<LessonPlay, FileError> {
    let case = case_of_lesson(file, folder)?.into_value();
    let catalogues = session.document().shelf().catalogues();
    let faults = file.faults_against(&case, catalogues);
    if !faults.is_empty() {
        return Err(FileError::Faulty(faults));
    }
    let limits = match &session.model.limits {
        Some(limits) => Arc::clone(limits),
        None => Arc::new(parse_guidance(shipped::GUIDANCE.0, shipped::GUIDANCE.1)?.into_value()),
    };
    let never = AtomicBool::new(false);
    let work = sizing::Work {
        threads: available_parallelism().map_or(1, usize::from),
        cancel: &never,
    };
    let rules = (&session.document().rules, &*limits);
    let name = file.source().name();
    let name = Path::new(name)
        .file_stem()
        .map_or(name.into(), |stem| stem.to_string_lossy());
    let course = Course::new(file, case, rules, catalogues, &work);
    // Nobody cancels it.
    let course = course.ok_or_else(|| FileError::Faulty(Vec::new()))?;
    Ok(LessonPlay::new(Arc::new(course), name))
}
