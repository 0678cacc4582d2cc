//! `rimwise [CASE]`: the terminal UI, or the list as text where there is no
//! terminal.

use super::args::{Against, RankArguments};
use super::inputs::{Inputs, demonstration};
use super::rank;
use crate::tui;
use anyhow::Result;
use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;

/// Opens a case, or the demonstration.
pub(super) fn run(case: Option<PathBuf>, against: Against, out: &mut dyn Write) -> Result<()> {
    let asked = RankArguments::of(case.unwrap_or_else(demonstration), against);
    if io::stdout().is_terminal() && io::stdin().is_terminal() {
        let session = Inputs::read(&asked.common)?.session();
        return tui::run(session, usize::from(asked.common.threads));
    }
    rank::run(&asked, out)?;
    writeln!(
        out,
        "\nOpen it in a terminal for the screen. More: rimwise rank CASE, rimwise compare\n\
         CASE SHAPE/SIZE…, rimwise --help"
    )?;
    Ok(())
}
