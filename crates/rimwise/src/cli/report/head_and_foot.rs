//! What every page for people begins and ends with.

use crate::cli::args::WIDTH;
use crate::text::{fitted, paragraph};
use anyhow::Result;
use files::visible;
use paper::{CAUTION, Provenance};
use sizing::{Case, Setting};
use std::io::Write;
use workup::{Banner, Indication};

/// Title, site and caution: how every sheet about sizes begins.
pub(super) fn opening(out: &mut dyn Write, case: &Case) -> Result<()> {
    let defect = format!("{} ventricular septal defect", case.site.label());
    titled(out, &case.title, &defect)
}

/// A title, what is below it, and the caution.
pub(super) fn titled(out: &mut dyn Write, title: &str, below: &str) -> Result<()> {
    writeln!(out, "{}", fitted(&visible(title), WIDTH).trim_end())?;
    writeln!(out, "{below}")?;
    writeln!(out)?;
    write!(out, "{}", paragraph("! ", CAUTION, WIDTH))?;
    writeln!(out)?;
    Ok(())
}

/// What the case excepts from the rules of the house.
pub(super) fn exceptions(out: &mut dyn Write, setting: &Setting) -> Result<()> {
    for says in setting.exceptions() {
        write!(out, "{}", paragraph("! Exception: ", &visible(says), WIDTH))?;
    }
    Ok(())
}

/// What the limits say of closing at all, with a blank line after it; nothing
/// where a limit for closing is met.
pub(super) fn banner(out: &mut dyn Write, banner: &Banner) -> Result<()> {
    if banner.indication == Indication::Met {
        return Ok(());
    }
    write!(out, "{}", paragraph("!! ", &visible(&banner.says), WIDTH))?;
    for reason in &banner.reasons {
        write!(out, "{}", paragraph("   - ", &visible(reason), WIDTH))?;
    }
    writeln!(out)?;
    Ok(())
}

/// What the figures are, and where they come from.
pub(super) fn footing(out: &mut dyn Write, from: &Provenance) -> Result<()> {
    write!(out, "{}", paragraph("", &from.chance_says(), WIDTH))?;
    writeln!(out, "{}", from.in_a_line())?;
    Ok(())
}
