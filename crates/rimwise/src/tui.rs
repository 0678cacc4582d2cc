//! The terminal: events in, frames out. What a key means and what is shown is
//! the session's.

mod drag;
mod draw;
mod guard;
mod key;
mod listen;
mod painting;
mod plain;
mod theme;

pub(crate) use plain::plain;

use anyhow::Result;
use drag::Drag;
use draw::Seen;
use guard::Guard;
use listen::Message;
use session::{Keeper, Session, Worker};
use sizing::engine::Fast;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;
use theme::Theme;

/// Runs the terminal UI on a session until it is left.
///
/// The first frame is drawn before anything is computed. Then one loop blocks on
/// one channel, takes all that waits there and draws once: idle costs nothing.
pub(crate) fn run(mut session: Session, mut keeper: Keeper, threads: usize) -> Result<()> {
    let mut guard = Guard::enter()?;
    let mut seen = draw(&mut guard, &mut session)?;
    let (sender, messages) = channel();
    listen::terminal(sender.clone())?;
    #[cfg(unix)]
    listen::signals(sender.clone())?;
    let worker = Worker::start(Fast, threads, move |reply| {
        sender.send(Message::Reply(reply)).is_ok()
    })?;
    let mut drag = Drag::default();
    while !session.is_leaving() {
        if let Some(request) = session.take_request() {
            worker.submit(request);
        }
        match take_all(&mut session, &mut keeper, (&seen, &mut drag), &messages) {
            Next::Draw => {}
            #[cfg(unix)]
            Next::Suspend => guard.suspend()?,
            #[cfg(unix)]
            Next::TakeAgain => guard.take_again()?,
            Next::Leave => break,
        }
        guard.mouse(!session.view().looks.mouse_is_free)?;
        if let Some(text) = session.take_copied() {
            guard.copy(&text)?;
        }
        seen = draw(&mut guard, &mut session)?;
    }
    keeper.close(&mut session);
    Ok(())
}

/// Draws the page, and tells the session what of it is seen.
fn draw(guard: &mut Guard, session: &mut Session) -> Result<Seen> {
    let theme = Theme::of(session.view().looks);
    let mut seen = Seen::default();
    guard.draw(|frame| seen = draw::page(frame, session, theme))?;
    session.seen(seen.rooms);
    Ok(seen)
}

/// How long work goes on before it is said to be going on: less is not noticed.
const UNNOTICED: Duration = Duration::from_millis(150);

/// The next message. While something is worked out that is not said to be, no
/// longer than it goes unnoticed, and while a change waits to be recorded no
/// longer than it may: `Redraw` then.
fn next(
    session: &mut Session,
    keeper: &mut Keeper,
    messages: &Receiver<Message>,
) -> Option<Message> {
    let is_unnoticed = session.is_working() && !session.says_it_works();
    let unnoticed = is_unnoticed.then_some(UNNOTICED);
    let rest = keeper.rest(session);
    let Some(time) = rest.into_iter().chain(unnoticed).min() else {
        return messages.recv().ok();
    };
    match messages.recv_timeout(time) {
        Ok(message) => Some(message),
        Err(RecvTimeoutError::Timeout) => {
            if unnoticed == Some(time) {
                session.say_it_works();
            }
            Some(Message::Redraw)
        }
        Err(RecvTimeoutError::Disconnected) => None,
    }
}

/// What follows on the messages that came.
enum Next {
    /// The page is drawn.
    Draw,
    /// The program stops until the shell lets it go on.
    #[cfg(unix)]
    Suspend,
    /// The terminal is taken as it is after a stop, and the page drawn.
    #[cfg(unix)]
    TakeAgain,
    /// The program ends.
    Leave,
}

/// Waits for a message and takes all that have come, until one that is not the
/// session's. What each changed is recorded before the next is taken.
fn take_all(
    session: &mut Session,
    keeper: &mut Keeper,
    (seen, drag): (&Seen, &mut Drag),
    messages: &Receiver<Message>,
) -> Next {
    let Some(first) = next(session, keeper, messages) else {
        return Next::Leave;
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
            Message::Press(at) => drag.press(session, seen, at),
            Message::Drag(at) => drag.drag(session, seen, at),
            Message::Release => drag.release(),
            Message::Wheel(at, down) => {
                if let Some(focus) = seen.panel_at(at) {
                    session.wheel(focus, down);
                }
            }
            Message::Redraw => {}
            #[cfg(unix)]
            Message::Suspend => return Next::Suspend,
            #[cfg(unix)]
            Message::GoOn => return Next::TakeAgain,
            Message::Leave => return Next::Leave,
        }
        keeper.tend(session);
        #[cfg(unix)]
        if session.take_suspend() {
            return Next::Suspend;
        }
        next = messages.try_recv().ok();
    }
    Next::Draw
}

/// Every size of the demonstration in order, for tests.
#[cfg(test)]
pub(crate) fn test_candidates() -> Vec<sizing::Candidate> {
    draw::test_candidates()
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
