//! `rimwise [CASE]`: the terminal UI, or the list as text where there is no
//! terminal.

use super::args::{Arguments, LessonArguments, RankArguments, ScreenArguments};
use super::folders;
use super::inputs::{BadInput, Inputs, demonstration, own_shapes};
use super::rank;
use super::screen::{kept_looks, keymap, looks};
use crate::ascii;
use crate::tui::{self, Recorder, TerminalLooks};
use anyhow::Result;
use session::{Keeper, LessonPlay, RulesHome, Session};
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// Opens a case, or the demonstration.
pub(super) fn run(arguments: Arguments, out: &mut dyn Write) -> Result<()> {
    let is_greeted = arguments.cases.is_empty();
    let first = arguments.cases.first().cloned();
    let case = first.unwrap_or_else(demonstration);
    let mut asked = RankArguments::of(case, arguments.against);
    let threads = usize::from(asked.common.threads);
    if arguments.screen.plain {
        let (session, _) = Inputs::read(&asked.common)?.session(RulesHome::Nowhere);
        return tui::plain(session, threads, out);
    }
    if has_screen() {
        let (keymap, unfollowed) = keymap(&arguments.screen)?;
        let path = asked.common.case.clone();
        // A file that is gone may have left a journal behind.
        let is_lost = !path.exists() && Keeper::has_journal_of(&path);
        if is_lost {
            asked.common.case = demonstration();
        }
        let inputs = Inputs::read(&asked.common)?;
        let others = inputs.others();
        let rules = rules_home(asked.common.against.rules.as_deref());
        let (session, own) = inputs.session(rules.clone());
        let kept = kept_looks();
        let chosen = kept.as_ref().map(TerminalLooks::words);
        let mut session = session
            .with_keymap(keymap)
            .with_looks(looks(&arguments.screen, &chosen.unwrap_or_default()))
            .with_conference(arguments.cases.clone());
        if is_greeted {
            session = session.with_greeting();
        }
        let mut keeper = folders::state().map_or_else(Keeper::default, |folder| {
            Keeper::default().with_folder(&folder)
        });
        let named = asked.common.against.catalog.last().cloned();
        if let Some(path) = named.or_else(own_shapes) {
            keeper = keeper.with_own_shapes(&path, own);
        }
        let read = session.document().rules_file().cloned();
        keeper = match rules {
            RulesHome::File(path) => keeper.with_own_rules(&path, read),
            RulesHome::New(path) => keeper.with_own_rules(&path, None),
            RulesHome::Nowhere => keeper,
        };
        if path.exists() || is_lost {
            let opened = keeper.open(&mut session, &path);
            opened.map_err(|error| BadInput(error.to_string()))?;
        }
        keeper.tell_what_is_lost(&mut session);
        if let Some(said) = unfollowed {
            session.warn(said);
        }
        keeper.offer_unfiled(&mut session);
        let record = record(&arguments.screen, &session)?;
        let threads = beside_the_screen(threads);
        return tui::run(session, keeper, threads, record, (kept, others));
    }
    rank::run(&asked, out)?;
    if let Some(others @ 1..) = arguments.cases.len().checked_sub(1) {
        writeln!(
            out,
            "\n{others} more cases were named: only a terminal shows several."
        )?;
    }
    writeln!(
        out,
        "\nOpen it in a terminal for the screen. More: rimwise rank CASE, rimwise compare\n\
         CASE SHAPE/SIZE…, rimwise --help"
    )?;
    Ok(())
}

/// Where the rules are kept: in the file that a call names, or in one that would be made
/// in the folder for settings.
fn rules_home(named: Option<&Path>) -> RulesHome {
    let made = || Some(RulesHome::New(folders::settings()?.join("rules.ron")));
    let named = named.map(|path| RulesHome::File(path.to_owned()));
    named.or_else(made).unwrap_or_default()
}

/// Whether there is a terminal that a page can be drawn on.
pub(super) fn has_screen() -> bool {
    io::stdout().is_terminal() && io::stdin().is_terminal() && !ascii::is_dumb()
}

/// What comes in is written to a file, where a call asks for it.
fn record(asked: &ScreenArguments, session: &Session) -> Result<Option<Recorder>> {
    let record = asked.record.as_deref().map(|path| {
        Recorder::create(path, session).map_err(|error| {
            let text = format!("--record {}: {error}", path.display());
            BadInput(files::visible(&text).into_owned())
        })
    });
    Ok(record.transpose()?)
}

/// One core is left to the screen: a key never waits for the counting.
fn beside_the_screen(threads: usize) -> usize {
    (threads - 1).max(1)
}

/// Plays a lesson on the screen, over the demonstration, which nobody sees; leaving the
/// lesson ends the program.
pub(super) fn lesson(asked: &LessonArguments, play: LessonPlay) -> Result<()> {
    let (keymap, _) = keymap(&asked.screen)?;
    let shown = RankArguments::of(demonstration(), asked.against.clone()).common;
    let threads = usize::from(shown.threads);
    let inputs = Inputs::read(&shown)?;
    let others = inputs.others();
    let (session, _) = inputs.session(RulesHome::Nowhere);
    let kept = kept_looks();
    let chosen = kept.as_ref().map(TerminalLooks::words);
    let session = session
        .with_keymap(keymap)
        .with_looks(looks(&asked.screen, &chosen.unwrap_or_default()))
        .with_lesson(play.alone());
    let keeper = folders::state().map_or_else(Keeper::default, |folder| {
        Keeper::default().with_folder(&folder)
    });
    let record = record(&asked.screen, &session)?;
    let threads = beside_the_screen(threads);
    tui::run(session, keeper, threads, record, (kept, others))
}
