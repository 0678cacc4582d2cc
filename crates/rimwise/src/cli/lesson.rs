//! `rimwise lesson`: a lesson on the screen, or as text where there is no terminal.

mod text;

use super::args::{Against, LessonArguments};
use super::inputs::{Around, BadInput, ValidInputs, bad_files};
use super::open;
use anyhow::Result;
use files::{
    Course, FileError, FileKind, LessonFile, Source, case_of_lesson, parse_lesson, read_lesson,
    shipped,
};
use session::LessonPlay;
use std::io::Write;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

pub(super) use text::sheets;

/// Lists the lessons, or plays one.
pub(super) fn run(asked: &LessonArguments, out: &mut dyn Write) -> Result<()> {
    let Some(name) = &asked.lesson else {
        return Ok(write!(out, "{}", text::list())?);
    };
    let course = ready(name, &asked.against)?;
    if open::has_screen() && !asked.screen.plain {
        let name = name.file_stem().unwrap_or(name.as_os_str());
        let play = LessonPlay::new(Arc::new(course), name.to_string_lossy());
        return open::lesson(asked, play);
    }
    Ok(write!(out, "{}", text::whole(&course))?)
}

/// A lesson by the path of its file, or the shipped one of that name where no such file
/// is.
///
/// With it the folder in which its case may lie; one that came with the program has none.
pub(super) fn read(path: &Path) -> Result<(LessonFile, Option<&Path>), FileError> {
    let shipped = path
        .to_str()
        .filter(|_| !path.exists())
        .and_then(shipped::lesson);
    match shipped {
        Some((name, text)) => Ok((parse_lesson(name, text)?, None)),
        None => Ok((read_lesson(path)?, path.parent())),
    }
}

/// Whether a path, or a name of what came with the program, is that of a lesson.
pub(super) fn is_lesson(path: &Path) -> bool {
    let name = path.to_str().filter(|_| !path.exists());
    if let Some(name) = name {
        return shipped::scenario(name).is_none() && shipped::lesson(name).is_some();
    }
    Source::read(path, files::LESSON_CAP)
        .is_ok_and(|source| FileKind::of(source.text()) == FileKind::Lesson)
}

/// A lesson made ready; what it names and nobody has is a fault.
pub(super) fn course(
    file: &LessonFile,
    folder: Option<&Path>,
    around: &ValidInputs,
) -> Result<Course, FileError> {
    let case = case_of_lesson(file, folder)?.into_value();
    let faults = file.faults_against(&case, &around.catalogues);
    if !faults.is_empty() {
        return Err(FileError::Faulty(faults));
    }
    let never = AtomicBool::new(false);
    let work = sizing::Work {
        threads: std::thread::available_parallelism().map_or(1, usize::from),
        cancel: &never,
    };
    let limits = (&around.rules, &around.limits);
    let course = Course::new(file, case, limits, &around.catalogues, &work);
    // Nobody cancels it.
    course.ok_or_else(|| FileError::Faulty(Vec::new()))
}

/// The lesson of a path made ready under what a call names.
pub(super) fn ready(path: &Path, against: &Against) -> Result<Course> {
    let (file, folder) = read(path).map_err(said)?;
    let around = Around::read(against)?.sound()?;
    course(&file, folder, &around).map_err(said)
}

fn said(error: FileError) -> anyhow::Error {
    match error {
        FileError::Faulty(faults) => bad_files(&faults),
        other => BadInput(other.to_string()).into(),
    }
}
