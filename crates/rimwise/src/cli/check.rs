//! `rimwise check`: whether files can be used, and every fault if not.

use super::args::{Against, CheckArguments};
use super::inputs::{Around, BadInput, ValidInputs, bad_files, keep, rules};
use super::lesson;
use anyhow::Result;
use files::{
    CATALOGUE_CAP, Disk, FileError, FileKind, FixError, SaveOutcome, Source, fix, parse_case,
    parse_catalogue, parse_guidance, parse_house_rules, parse_lesson, visible,
};
use sizing::HouseRules;
use std::io::Write;
use std::path::Path;

/// Checks each file by what it says it is; a case against the house rules as well.
pub(super) fn run(asked: &CheckArguments, out: &mut dyn Write) -> Result<()> {
    let mut faults = Vec::new();
    let Some(rules) = keep(rules(asked.rules.as_deref()), &mut faults)? else {
        return Err(bad_files(&faults));
    };
    for path in &asked.files {
        if asked.fix {
            match fixed(path, &mut faults)? {
                Fixed::Faulty => continue,
                Fixed::AsItWas => {}
                Fixed::Saved(saved) => writeln!(out, "{}", said(path, &saved))?,
            }
        }
        if let Some(kind) = keep(check(path, rules.value(), asked)?, &mut faults)? {
            writeln!(out, "{}: {kind}", visible(&path.display().to_string()))?;
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(bad_files(&faults))
    }
}

/// What came of a file that was to be fixed.
enum Fixed {
    /// Its faults are told.
    Faulty,
    /// It has today's words already.
    AsItWas,
    /// It was written in today's words.
    Saved(SaveOutcome),
}

/// Puts a file into today's words; one that cannot be is a fault.
fn fixed(path: &Path, faults: &mut Vec<files::Diagnostic>) -> Result<Fixed> {
    match fix(&Disk::default(), path) {
        Ok(None) => Ok(Fixed::AsItWas),
        Ok(Some(saved)) => Ok(Fixed::Saved(saved)),
        Err(FixError::File(error)) => {
            keep::<Fixed>(Err(error), faults).map(|it| it.unwrap_or(Fixed::Faulty))
        }
        Err(error) => Err(anyhow::Error::new(BadInput(error.to_string()))),
    }
}

/// That a file was put into today's words.
fn said(path: &Path, saved: &SaveOutcome) -> String {
    let name = path.display().to_string();
    let name = visible(&name);
    match &saved.kept {
        Some(kept) => {
            let kept = kept.display().to_string();
            format!(
                "{name}: now in the words of format 2; as it was: {}",
                visible(&kept)
            )
        }
        None => format!("{name}: now in the words of format 2"),
    }
}

/// What a file is, in a few words, with its size in the words of its kind.
fn check(
    path: &Path,
    rules: &HouseRules,
    asked: &CheckArguments,
) -> Result<Result<String, FileError>> {
    let source = match Source::read(path, CATALOGUE_CAP) {
        Ok(source) => source,
        Err(error) => return Ok(Err(error)),
    };
    if FileKind::of(source.text()) == FileKind::Lesson {
        let against = Against {
            rules: asked.rules.clone(),
            ..Against::default()
        };
        let around = Around::read(&against)?.sound()?;
        return Ok(check_lesson(&source, path, &around));
    }
    Ok(check_source(&source, rules))
}

/// The same of a lesson: each question has an answer, and its case shows its points.
fn check_lesson(source: &Source, path: &Path, around: &ValidInputs) -> Result<String, FileError> {
    let file = parse_lesson(source.name(), source.text())?;
    let course = lesson::course(&file, path.parent(), around)?;
    let faults = course.faults(&file);
    if !faults.is_empty() {
        return Err(FileError::Faulty(faults));
    }
    let questions = file.value().lesson.question_count();
    Ok(format!(
        "a sound lesson, {questions} questions, each with an answer"
    ))
}

/// The same of any other file.
fn check_source(source: &Source, rules: &HouseRules) -> Result<String, FileError> {
    let (name, text) = (source.name(), source.text());
    Ok(match FileKind::of(text) {
        FileKind::Case => {
            let file = parse_case(name, text)?;
            let faults = file.faults_under(rules);
            if !faults.is_empty() {
                return Err(FileError::Faulty(faults));
            }
            let case = file.value();
            let id = case.procedure.case_id.as_deref();
            let dated = if id.is_some_and(looks_like_a_date) {
                "; its case_id looks like a date: choose one that says nothing of the patient"
            } else {
                ""
            };
            format!("a sound case, {} readings{dated}", case.readings.len())
        }
        FileKind::Catalogue => {
            let file = parse_catalogue(name, text)?;
            let catalogue = file.value();
            let sizes: usize = catalogue.shapes.iter().map(|shape| shape.sizes.len()).sum();
            format!(
                "a sound catalogue, {} shapes in {sizes} sizes",
                catalogue.shapes.len()
            )
        }
        FileKind::HouseRules => {
            let file = parse_house_rules(name, text)?;
            let rules = file.value();
            format!(
                "a centre's sound rules, {} rows of limits{}",
                rules.limits.len(),
                lent(&rules.from_shipped)
            )
        }
        FileKind::Guidance => {
            let file = parse_guidance(name, text)?;
            let limits = file.value();
            format!(
                "sound guidance, {} rows for children, {} for adults{}",
                limits.children.len(),
                limits.adults.len(),
                lent(&limits.from_shipped)
            )
        }
        FileKind::Lesson => parse_lesson(name, text)?.into_value().lesson.title,
    })
}

/// The lists and parameters that a file lacks and that come from the shipped one.
fn lent(from_shipped: &[&str]) -> String {
    match from_shipped {
        [] => String::new(),
        names => format!("; as shipped, for the file has none: {}", names.join(", ")),
    }
}

/// Whether a name holds what a date is written as: a year, or six or eight digits in a
/// row, with or without dashes.
fn looks_like_a_date(id: &str) -> bool {
    let digits: String = id.chars().filter(|it| *it != '-').collect();
    let runs = digits.split(|it: char| !it.is_ascii_digit());
    runs.into_iter().any(|run| {
        let is_year = run.len() == 4 && (run.starts_with("19") || run.starts_with("20"));
        is_year || run.len() == 6 || run.len() == 8
    })
}

#[cfg(test)]
mod tests {
    use super::looks_like_a_date;

    #[test]
    fn dates_are_told_from_other_names() {
        for date in ["2024-03-05", "20240305", "vsd-2024", "050324", "a-05-03-24"] {
            assert!(looks_like_a_date(date), "{date}");
        }
        for name in ["vsd-17", "case-1234", "b7c2", "outlet-12345"] {
            assert!(!looks_like_a_date(name), "{name}");
        }
    }
}
