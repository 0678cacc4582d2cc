//! The terminal: events in, frames out. What a key means and what is shown is
//! the session's.

mod drag;
mod draw;
mod guard;
mod key;
mod listen;
mod painting;
mod patience;
mod plain;
mod replies;
mod theme;

pub(crate) use plain::plain;

use anyhow::Result;
use drag::Drag;
use draw::{Seen, Studio};
use guard::Guard;
use listen::Message;
use patience::Patience;
use session::{Assessed, Keeper, Session, Worker};
use sizing::engine::Fast;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use theme::Theme;

/// Runs the terminal UI on a session until it is left.
///
/// The first frame is drawn before anything is computed. Then one loop blocks on
/// one channel, takes all that waits there and draws once: idle costs nothing.
pub(crate) fn run(session: Session, keeper: Keeper, threads: usize) -> Result<()> {
    let mut guard = Guard::enter()?;
    let mut open = Open {
        session,
        keeper,
        seen: Seen::default(),
        studio: Studio::default(),
        not_shown: Vec::new(),
        drag: Drag::default(),
        patience: Patience::default(),
    };
    open.draw(&mut guard)?;
    let (sender, messages) = channel();
    listen::terminal(sender.clone())?;
    #[cfg(unix)]
    listen::signals(sender.clone())?;
    let worker = Worker::start(Fast, threads, move |reply| {
        sender.send(Message::Reply(reply)).is_ok()
    })?;
    let ended = open.go_on(&mut guard, &worker, &messages);
    // However it ended, what was confirmed is safe.
    open.keeper.close(&mut open.session);
    match ended {
        // To close the terminal is a way to leave.
        Err(_) if guard::is_closed() => Ok(()),
        ended => ended,
    }
}

/// A session on the screen.
struct Open {
    session: Session,
    keeper: Keeper,
    seen: Seen,
    studio: Studio,
    /// Results that gave way to others, to be let go once a frame is drawn.
    not_shown: Vec<Arc<Assessed>>,
    drag: Drag,
    patience: Patience,
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

impl Open {
    /// Answers what comes, and draws, until the program is left.
    fn go_on(
        &mut self,
        guard: &mut Guard,
        worker: &Worker,
        messages: &Receiver<Message>,
    ) -> Result<()> {
        while !self.session.is_leaving() {
            if let Some(request) = self.session.take_request() {
                worker.submit(request);
            }
            match self.take_all(messages) {
                Next::Draw => {}
                #[cfg(unix)]
                Next::Suspend => {
                    self.keeper.force(&mut self.session);
                    guard.suspend()?;
                }
                #[cfg(unix)]
                Next::TakeAgain => guard.take_again()?,
                Next::Leave => break,
            }
            guard.mouse(!self.session.view().looks.mouse_is_free)?;
            if let Some(text) = self.session.take_copied() {
                guard.copy(&text)?;
            }
            self.draw(guard)?;
            self.not_shown.clear();
            if self.keeper.force_at_rest(&mut self.session) {
                self.draw(guard)?;
            }
        }
        Ok(())
    }

    /// Draws the page, and tells the session what of it is seen.
    fn draw(&mut self, guard: &mut Guard) -> Result<()> {
        let (session, seen) = (&mut self.session, &mut self.seen);
        let studio = &mut self.studio;
        let theme = Theme::of(session.view().looks);
        *seen = Seen::default();
        guard.draw(|frame| *seen = draw::page(frame, session, theme, studio))?;
        session.seen(seen.rooms);
        Ok(())
    }

    /// The next message. While something is worked out that is not said to be, no
    /// longer than it goes unnoticed, and while a nudge waits to be forced to disk no
    /// longer than it may: `Redraw` then.
    fn next(&mut self, messages: &Receiver<Message>) -> Option<Message> {
        let unnoticed = self.patience.rest(&mut self.session);
        let rest = self.keeper.rest(&self.session);
        let Some(time) = rest.into_iter().chain(unnoticed).min() else {
            return messages.recv().ok();
        };
        match messages.recv_timeout(time) {
            Ok(message) => Some(message),
            Err(RecvTimeoutError::Timeout) => Some(Message::Redraw),
            Err(RecvTimeoutError::Disconnected) => None,
        }
    }

    /// Waits for a message and takes all that have come, until one that is not the
    /// session's. What each changed is recorded before the next is taken.
    fn take_all(&mut self, messages: &Receiver<Message>) -> Next {
        let Some(first) = self.next(messages) else {
            return Next::Leave;
        };
        let mut next = Some(first);
        let mut was_touched = false;
        while let Some(message) = next {
            was_touched |= message.is_touch();
            if let Some(next) = self.take(message) {
                return next;
            }
            self.keeper.tend(&mut self.session);
            #[cfg(unix)]
            if self.session.take_suspend() {
                return Next::Suspend;
            }
            next = messages.try_recv().ok();
        }
        if was_touched {
            self.keeper.watch(&mut self.session);
        }
        Next::Draw
    }

    /// Takes a message of the session; says what follows on another.
    fn take(&mut self, message: Message) -> Option<Next> {
        let session = &mut self.session;
        match message {
            Message::Key(key) => {
                provoked_panic(key);
                session.key(key);
            }
            Message::Paste(text) => session.paste(&text),
            Message::Reply(reply) => {
                self.not_shown.extend(session.receive(reply));
                self.patience.heard();
            }
            Message::Press(at) => self.drag.press(session, &self.seen, at),
            Message::Drag(at) => self.drag.drag(session, &self.seen, at),
            Message::Release => self.drag.release(),
            Message::Wheel(at, down) => {
                if let Some(focus) = self.seen.panel_at(at) {
                    session.wheel(focus, down);
                }
            }
            Message::Redraw => {}
            #[cfg(unix)]
            Message::Suspend => return Some(Next::Suspend),
            #[cfg(unix)]
            Message::GoOn => return Some(Next::TakeAgain),
            Message::Leave => return Some(Next::Leave),
        }
        None
    }
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
