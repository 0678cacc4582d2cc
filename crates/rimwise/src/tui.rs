//! The terminal: events in, frames out. What a key means and what is shown is
//! the session's.

mod draw;
mod guard;
mod key;
mod listen;
mod painting;
mod theme;

use anyhow::Result;
use guard::Guard;
use listen::Message;
use session::{Session, Worker};
use sizing::engine::Plain;
use std::sync::mpsc::{Receiver, channel};
use theme::Theme;

/// Runs the terminal UI on a session until it is left.
///
/// The first frame is drawn before anything is computed. Then one loop blocks on
/// one channel, takes all that waits there and draws once: idle costs nothing.
pub(crate) fn run(mut session: Session, threads: usize) -> Result<()> {
    let theme = Theme::of_environment();
    let mut guard = Guard::enter()?;
    guard.draw(|frame| draw::page(frame, &session, theme))?;
    let (sender, messages) = channel();
    listen::terminal(sender.clone())?;
    listen::signals(sender.clone())?;
    let worker = Worker::start(Plain, threads, move |reply| {
        sender.send(Message::Reply(reply)).is_ok()
    })?;
    while !session.is_leaving() {
        if let Some(request) = session.take_request() {
            worker.submit(request);
        }
        if !take_all(&mut session, &messages) {
            break;
        }
        guard.draw(|frame| draw::page(frame, &session, theme))?;
    }
    Ok(())
}

/// Waits for a message and takes all that have come; `false` where the program
/// is to end.
fn take_all(session: &mut Session, messages: &Receiver<Message>) -> bool {
    let Ok(first) = messages.recv() else {
        return false;
    };
    let mut next = Some(first);
    while let Some(message) = next {
        match message {
            Message::Key(key) => {
                provoked_panic(key);
                session.key(key);
            }
            Message::Paste(text) => session.paste(&text),
            Message::Reply(reply) => session.receive(reply),
            Message::Redraw => {}
            Message::Leave => return false,
        }
        next = messages.try_recv().ok();
    }
    true
}

/// In builds for testing a key can be made to panic, to see that the terminal is
/// given back.
#[expect(
    clippy::panic,
    reason = "provoked where a test asks for it, never in a release"
)]
fn provoked_panic(key: session::Key) {
    if cfg!(debug_assertions)
        && std::env::var("RIMWISE_PANIC_AT").is_ok_and(|at| at == key.to_string())
    {
        std::panic::panic_any("provoked for a test");
    }
}
