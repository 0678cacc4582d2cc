//! Translation of files of format 1 on disk: `rimwise check --fix`.

use crate::outline::Outline;
use crate::store::save;
use crate::{
    CATALOGUE_CAP, Checked, Digest, Disk, Expect, FileError, FileKind, SaveOutcome, Source,
    StoreError, parse_case, parse_catalogue, parse_guidance, parse_house_rules, parse_lesson,
};
use sizing::HouseRules;
use std::path::Path;

/// Why a file was not translated; it is unchanged.
#[derive(Debug, thiserror::Error)]
pub enum FixError {
    /// The file has faults.
    #[error(transparent)]
    File(#[from] FileError),
    /// The translated file would mean something else.
    #[error(
        "{0} is not changed: in the words of format 2 it would not read back as the same. \
         Please report it; the file can be used as it is."
    )]
    ReadsOtherwise(String),
    /// The translated file was not written.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// Puts a file of format 1 into today's words, each at its own place, and keeps the
/// old one beside it; `None` for a file that is in today's words already.
pub fn fix(disk: &Disk, path: &Path) -> Result<Option<SaveOutcome>, FixError> {
    let source = Source::read(path, CATALOGUE_CAP)?;
    let (name, text) = (source.name(), source.original());
    let Some(fixed) = in_todays_words(name, &text)? else {
        return Ok(None);
    };
    let expect = Expect::Same(Digest::of(text.as_bytes()));
    Ok(Some(save(disk, path, &fixed, expect)?))
}

/// Translates a text; `None` where it is of format 2 already.
pub fn in_todays_words(name: &str, text: &str) -> Result<Option<String>, FixError> {
    let fixed = match FileKind::of(text) {
        FileKind::Case => fixed(
            &parse_case(name, text).map_err(FileError::from)?,
            parse_case,
        ),
        FileKind::Catalogue => {
            let file = parse_catalogue(name, text).map_err(FileError::from)?;
            fixed(&file, parse_catalogue)
        }
        FileKind::Guidance => {
            let file = parse_guidance(name, text).map_err(FileError::from)?;
            fixed(&file, parse_guidance)
        }
        FileKind::HouseRules => {
            let file = parse_house_rules(name, text).map_err(FileError::from)?;
            fixed_rules(&file)
        }
        FileKind::Lesson => {
            let file = parse_lesson(name, text).map_err(FileError::from)?;
            fixed(&file, parse_lesson)
        }
    };
    fixed.map_err(|MeaningChanged| FixError::ReadsOtherwise(crate::visible(name).into_owned()))
}

/// The error that the text would mean something else.
struct MeaningChanged;

/// Reads a file of one kind by its name and text.
type Parse<T> = fn(&str, &str) -> Result<Checked<T>, Vec<crate::Diagnostic>>;

fn fixed<T: PartialEq>(
    file: &Checked<T>,
    parse: Parse<T>,
) -> Result<Option<String>, MeaningChanged> {
    if !file.source().is_in_other_words() {
        return Ok(None);
    }
    let text = file.in_todays_words();
    let read = parse(file.source().name(), &text).map_err(|_| MeaningChanged)?;
    (read.value() == file.value())
        .then_some(Some(text))
        .ok_or(MeaningChanged)
}

/// The same of house rules, whose rows of limits of one description are given ids:
/// in format 2 no exception names a row by its order.
fn fixed_rules(file: &Checked<HouseRules>) -> Result<Option<String>, MeaningChanged> {
    if !file.source().is_in_other_words() {
        return Ok(None);
    }
    let mut wanted = file.value().clone();
    let text = file.source().text();
    let outline = Outline::of(text);
    let rows = outline.root.field(text, "limits").ok_or(MeaningChanged)?;
    let mut insertions = Vec::new();
    for index in wanted.limits_alike() {
        let id = format!("row_{}", index + 1);
        let row = rows.inner.get(index).ok_or(MeaningChanged)?;
        let first = row.inner.first().ok_or(MeaningChanged)?.extent().start;
        insertions.push((first..first, format!("id: \"{id}\", ")));
        wanted.limits[index].id = Some(id);
    }
    let source = Source::new("", text).with_words(insertions);
    let text = file.source().marked(source.text().to_owned());
    let read = parse_house_rules(file.source().name(), &text).map_err(|_| MeaningChanged)?;
    (*read.value() == wanted)
        .then_some(Some(text))
        .ok_or(MeaningChanged)
}
