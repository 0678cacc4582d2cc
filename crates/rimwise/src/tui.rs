//! The terminal: events in, frames out. What a key means and what is shown is
//! the session's.

mod drag;
mod draw;
mod guard;
mod input;
mod key;
mod listen;
mod painter;
mod painting;
mod patience;
mod pixels;
mod plain;
mod program;
mod recorder;
mod replies;
#[cfg(test)]
mod scripts;
mod terminal_looks;
mod theme;

pub(crate) use plain::plain;
pub(crate) use recorder::Recorder;
pub(crate) use terminal_looks::TerminalLooks;

use anyhow::Result;
use guard::Guard;
use listen::Message;
use painter::Painter;
use program::{Next, Program};
use session::{Keeper, Session, Worker};
use sizing::engine::Fast;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Instant;

/// Runs the terminal UI on a session until it is left; what comes in is written to
/// the recorder, where there is one.
///
/// The first frame is drawn before anything is computed. Then one loop blocks on
/// one channel, takes all that waits there and draws once: idle costs nothing.
pub(crate) fn run(
    session: Session,
    keeper: Keeper,
    threads: usize,
    recorder: Option<Recorder>,
    kept: Option<TerminalLooks>,
) -> Result<()> {
    let mut guard = Guard::enter()?;
    let mut program = Program::new(session, keeper, recorder).with_kept_looks(kept);
    draw(&mut program, &mut guard)?;
    let (sender, messages) = channel();
    listen::terminal(sender.clone())?;
    #[cfg(unix)]
    listen::signals(sender.clone())?;
    let replies = sender.clone();
    let worker = Worker::start(Fast, threads, move |reply| {
        replies.send(Message::Reply(reply)).is_ok()
    })?;
    let ended = go_on(&mut program, &mut guard, &worker, (&sender, &messages));
    // Where the terminal is gone there is nothing to erase.
    let _ = guard.send(&program.erase_pixels());
    // However it ended, what was confirmed is safe.
    let Program {
        session, keeper, ..
    } = &mut program;
    keeper.close(session, Instant::now());
    match ended {
        // To close the terminal is a way to leave.
        Err(_) if guard::is_closed() => Ok(()),
        ended => ended,
    }
}

/// Answers what comes, and draws, until the program is left.
fn go_on(
    program: &mut Program,
    guard: &mut Guard,
    worker: &Worker,
    (sender, messages): (&Sender<Message>, &Receiver<Message>),
) -> Result<()> {
    let mut painter = None;
    while !program.session.is_leaving() {
        if let Some(request) = program.session.take_request() {
            worker.submit(request);
        }
        match take_all(program, messages) {
            Next::Draw => {}
            #[cfg(unix)]
            Next::Suspend => {
                program.keeper.force(&mut program.session);
                guard.send(&program.erase_pixels())?;
                guard.suspend()?;
            }
            #[cfg(unix)]
            Next::TakeAgain => guard.take_again()?,
            Next::Leave => break,
        }
        guard.mouse(!program.session.view().looks.mouse_is_free)?;
        if let Some(text) = program.session.take_copied() {
            guard.copy(&text)?;
        }
        draw(program, guard)?;
        if program.settle(Instant::now()) {
            draw(program, guard)?;
        }
        order(program, &mut painter, sender)?;
    }
    Ok(())
}

fn draw(program: &mut Program, guard: &mut Guard) -> Result<()> {
    guard.draw(|frame| program.draw(frame, Instant::now()))?;
    Ok(())
}

/// Orders what is wanted in pixels; the painter starts with the first order.
fn order(
    program: &mut Program,
    painter: &mut Option<Painter>,
    sender: &Sender<Message>,
) -> Result<()> {
    let Some(order) = program.take_order() else {
        return Ok(());
    };
    if painter.is_none() {
        let sender = sender.clone();
        let send = move |pictures| sender.send(Message::Painted(pictures)).is_ok();
        *painter = Some(Painter::start(send)?);
    }
    if let Some(painter) = painter {
        painter.order(order);
    }
    Ok(())
}

/// The next message. While something is worked out that is not said to be, no
/// longer than it goes unnoticed, and while a nudge waits to be forced to disk no
/// longer than it may: `Redraw` then.
fn next(program: &mut Program, messages: &Receiver<Message>) -> Option<Message> {
    let Some(time) = program.rest(Instant::now()) else {
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
fn take_all(program: &mut Program, messages: &Receiver<Message>) -> Next {
    let Some(first) = next(program, messages) else {
        return Next::Leave;
    };
    let mut next = Some(first);
    let mut was_touched = false;
    while let Some(message) = next {
        was_touched |= message.is_touch();
        if let Some(next) = program.take(message, Instant::now()) {
            return next;
        }
        next = messages.try_recv().ok();
    }
    if was_touched {
        program.watch(Instant::now());
    }
    Next::Draw
}

/// Every size of the demonstration in order, for tests.
#[cfg(test)]
pub(crate) fn test_candidates() -> Vec<sizing::Candidate> {
    draw::test_candidates()
}
