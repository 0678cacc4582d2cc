//! `rimwise [CASE]`: the terminal UI, or the list as text where there is no
//! terminal.

use super::args::{Arguments, RankArguments};
use super::inputs::{BadInput, Inputs, demonstration};
use super::rank;
use super::screen::{keymap, looks};
use crate::tui;
use anyhow::Result;
use session::Keeper;
use std::io::{self, IsTerminal, Write};

/// Opens a case, or the demonstration.
pub(super) fn run(arguments: Arguments, out: &mut dyn Write) -> Result<()> {
    let case = arguments.case.unwrap_or_else(demonstration);
    let asked = RankArguments::of(case, arguments.against);
    let threads = usize::from(asked.common.threads);
    if arguments.screen.plain {
        let session = Inputs::read(&asked.common)?.session();
        return tui::plain(session, threads, out);
    }
    if io::stdout().is_terminal() && io::stdin().is_terminal() {
        let keymap = keymap(&arguments.screen)?;
        let session = Inputs::read(&asked.common)?.session();
        let mut session = session
            .with_keymap(keymap)
            .with_looks(looks(&arguments.screen));
        let mut keeper = Keeper::default();
        if asked.common.case.exists() {
            keeper
                .open(&mut session, &asked.common.case)
                .map_err(BadInput)?;
        }
        return tui::run(session, keeper, threads);
    }
    rank::run(&asked, out)?;
    writeln!(
        out,
        "\nOpen it in a terminal for the screen. More: rimwise rank CASE, rimwise compare\n\
         CASE SHAPE/SIZE…, rimwise --help"
    )?;
    Ok(())
}
