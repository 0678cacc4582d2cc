//! Every page as text, line after line, for readers of screens and for files.

use super::draw;
use super::theme::Theme;
use crate::text::wrapped;
use anyhow::Result;
use files::visible;
use paper::CAUTION;
use session::{Command, Effect, Event, Looks, Page, Palette, Session, Worker};
use sizing::engine::Fast;
use std::io::Write;
use std::sync::mpsc::channel;

/// Columns of the text.
const WIDTH: u16 = 80;

/// A line without bars and frames, which a reader of screens would name one by one:
/// the figure beside a bar says the same.
fn spoken(line: &str) -> String {
    let is_drawn =
        |letter| matches!(letter, '\u{2500}'..='\u{259f}' | '■' | '\u{2800}'..='\u{28ff}');
    line.replace(is_drawn, " ")
}

/// Writes every page of a session.
pub(crate) fn plain(mut session: Session, threads: usize, out: &mut dyn Write) -> Result<()> {
    session = session.with_looks(Looks {
        palette: Palette::Mono,
        ..Looks::default()
    });
    let theme = Theme::of(session.view().looks);
    let (sender, replies) = channel();
    let worker = Worker::start(Fast, threads, move |reply| sender.send(reply).is_ok())?;
    for page in Page::ALL {
        let command = Command::named(page.command());
        let mut event = command.map(Event::Command);
        while event.is_some() || session.is_working() {
            let next = match event.take() {
                Some(event) => event,
                None => Event::Reply(replies.recv()?),
            };
            for effect in session.update(next) {
                if let Effect::Submit(request) = effect {
                    worker.submit(*request);
                }
            }
        }
        if page == Page::Plan {
            let title = visible(&session.document().case().title).into_owned();
            let exceptions = session.setting().exceptions().iter();
            let exceptions = exceptions.map(|says| format!("! exception: {says}"));
            for text in [
                title,
                CAUTION.to_owned(),
                session.headline().unwrap_or_default(),
            ]
            .into_iter()
            .chain(exceptions)
            {
                for line in wrapped(&visible(&text), usize::from(WIDTH)) {
                    writeln!(out, "{line}")?;
                }
            }
        }
        writeln!(out, "\nPAGE {}", page.name().to_uppercase())?;
        for line in draw::text(&session, theme, WIDTH) {
            writeln!(out, "{}", spoken(&line.to_string()).trim_end())?;
        }
    }
    Ok(())
}
