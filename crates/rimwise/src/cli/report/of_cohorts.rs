//! What was published of later years, for people.

use crate::cli::args::WIDTH;
use crate::text::paragraph;
use anyhow::Result;
use files::visible;
use sizing::Setting;
use std::io::Write;

/// Every row of it with its source; nothing where the rules have none.
pub(super) fn of_cohorts(out: &mut dyn Write, setting: &Setting) -> Result<()> {
    let facts = setting.late();
    if facts.is_empty() {
        return Ok(());
    }
    writeln!(
        out,
        "Published of later years, of cohorts and not of this child"
    )?;
    for fact in facts {
        write!(out, "{}", paragraph("  - ", &visible(&fact.says), WIDTH))?;
        let source = format!("Source: {}", fact.source);
        write!(out, "{}", paragraph("    ", &visible(&source), WIDTH))?;
    }
    writeln!(out)?;
    Ok(())
}
