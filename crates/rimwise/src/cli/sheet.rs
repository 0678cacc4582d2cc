//! `rimwise sheet`: one page for the whole team.

use super::args::{DrawLeft, SheetArguments, SheetFormat, SheetPaper};
use super::inputs::{BadInput, Inputs};
use super::lesson;
use crate::digest::digest;
use anyhow::{Context, Result};
use files::visible;
use paper::{Bundle, Format, Paper, Sheet, SheetRequest};
use scene::plate::Orientation;
use sizing::engine::Counter;
use sizing::{Candidate, Changes, Ranking};
use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// How many sizes are drawn at most.
const MOST: usize = 4;

/// Makes the sheets and writes them to a file or to standard output. A file that
/// gives no sheet is named, and the rest is done.
pub(super) fn run(asked: &SheetArguments, out: &mut dyn Write) -> Result<()> {
    let format = asked.format()?;
    refuse(asked, format)?;
    if let [one] = asked.cases.as_slice()
        && lesson::is_lesson(one)
    {
        return write(asked, format, &lesson_bundle(asked, one)?, out);
    }
    let mut sheets = Vec::new();
    let mut faults = Vec::new();
    for case in &asked.cases {
        match sheet(asked, case) {
            Ok(sheet) => sheets.push(sheet),
            Err(fault) if fault.is::<BadInput>() && asked.cases.len() > 1 => {
                let name = case.to_string_lossy();
                faults.push(format!("{}: {fault:#}", visible(&name)));
            }
            Err(error) => return Err(error),
        }
    }
    if sheets.is_empty() {
        return Err(BadInput(faults.join("\n")).into());
    }
    let texts = sheets.iter().flat_map(Sheet::texts);
    let bundle = Bundle {
        id: digest(texts.chain(faults.iter().cloned())),
        // A message may have several lines; in an index it has one.
        faults: faults
            .iter()
            .map(|fault| fault.replace('\n', "; "))
            .collect(),
        sheets,
        is_one: false,
    };
    write(asked, format, &bundle, out)?;
    if faults.is_empty() {
        Ok(())
    } else {
        Err(BadInput(faults.join("\n")).into())
    }
}

/// Writes sheets to the file that was named, else to standard output.
fn write(
    asked: &SheetArguments,
    format: Format,
    bundle: &Bundle,
    out: &mut dyn Write,
) -> Result<()> {
    let written = format.bytes(bundle);
    if let Some(path) = &asked.out {
        fs::write(path, written)
            .with_context(|| format!("cannot write {}", visible(&path.to_string_lossy())))?;
    } else {
        out.write_all(&written)?;
        out.flush()?;
    }
    Ok(())
}

/// The two pages of a lesson: questions, and behind them the answers.
fn lesson_bundle(asked: &SheetArguments, path: &Path) -> Result<Bundle> {
    let course = lesson::ready(path, &asked.against)?;
    let sheets = lesson::sheets(&course, asked.paper());
    Ok(Bundle {
        id: digest(sheets.iter().flat_map(Sheet::texts)),
        faults: Vec::new(),
        sheets,
        is_one: true,
    })
}

/// Refuses what cannot be done before anything is read.
fn refuse(asked: &SheetArguments, format: Format) -> Result<()> {
    let refusal = if asked.sizes.len() > MOST {
        format!("--size: a sheet has room for {MOST} sizes at most")
    } else if asked.cases.len() > 1 && !asked.sizes.is_empty() {
        "--size: with several cases the first sizes of each ranking are drawn; leave it out"
            .to_owned()
    } else if asked.cases.len() > 1 && asked.since.is_some() {
        "--since: names an earlier state of one case; leave it out for several".to_owned()
    } else if format == Format::Pdf && asked.out.is_none() && io::stdout().is_terminal() {
        "a PDF is not for a terminal; add --out FILE".to_owned()
    } else {
        return Ok(());
    };
    Err(BadInput(refusal).into())
}

/// The sheet of one case.
fn sheet(asked: &SheetArguments, case: &Path) -> Result<Sheet> {
    let common = asked.common(case.to_owned());
    let ready = Inputs::read(&common)?.ready(&common)?;
    let ranking = ready.rank()?;
    let workup = ready.work_up(&ranking)?;
    let request = SheetRequest {
        shown: shown(asked, &ranking)?,
        ranking: &ranking,
        workup: &workup,
        weighed: ready.weighed().map(Counter::draws),
        otherwise: ready.otherwise(&ranking)?,
        since: since(asked, &ranking)?,
        from: &ready.provenance,
        orientation: match asked.left {
            DrawLeft::Right => Orientation::RightVentricleLeft,
            DrawLeft::Left => Orientation::LeftVentricleLeft,
        },
        paper: asked.paper(),
        visible,
    };
    Ok(request.sheet())
}

/// In how much the case differs from the earlier state that was named. Its name stays
/// off the sheet: the name of a file may name a patient.
fn since(asked: &SheetArguments, later: &Ranking) -> Result<Option<String>> {
    let Some(earlier) = &asked.since else {
        return Ok(None);
    };
    let common = asked.common(earlier.clone());
    let (earlier, from) = Inputs::read(&common)?.rank(&common)?;
    let counted = Changes::between(&earlier, later).counted();
    Ok(Some(format!(
        "Differs from the earlier state, inputs {}, in {counted}. Sheets of that state are out of \
         date where it differs.",
        from.brief_digest()
    )))
}

/// The sizes that are drawn: as named, else those that a list shows first.
fn shown<'a>(asked: &SheetArguments, ranking: &'a Ranking) -> Result<Vec<&'a Candidate>> {
    if asked.sizes.is_empty() {
        return Ok(ranking.shown_first());
    }
    let sizes = asked.sizes.iter();
    sizes
        .map(|name| super::compare::find(ranking, name))
        .collect()
}

impl SheetArguments {
    /// The paper that is asked for.
    const fn paper(&self) -> Paper {
        match self.paper {
            SheetPaper::A4 => Paper::A4,
            SheetPaper::Letter => Paper::Letter,
        }
    }

    /// What is to be written: as asked, else by the ending of the file's name.
    pub(super) fn format(&self) -> Result<Format> {
        if let Some(format) = self.format {
            return Ok(match format {
                SheetFormat::Pdf => Format::Pdf,
                SheetFormat::Html => Format::Html,
                SheetFormat::Text => Format::Text,
            });
        }
        let Some(out) = self.out.as_deref().filter(|out| out.extension().is_some()) else {
            return Ok(Format::Text);
        };
        Format::of_ending(out).ok_or_else(|| {
            let ending = out.extension().unwrap_or_default().to_string_lossy();
            BadInput(format!(
                "--out: a name that ends in .{} says nothing of the format; add --format pdf, html or text",
                visible(&ending)
            ))
            .into()
        })
    }
}
