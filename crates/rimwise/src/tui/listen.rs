//! What comes from outside, each on a thread of its own, into one channel.

use super::key::key;
use super::painter::PixelPictures;
use super::replies::ReplyFilter;
use crossterm::event::{self, Event, MouseButton, MouseEvent, MouseEventKind};
use ratatui::layout::{Position, Size};
#[cfg(unix)]
use rustix::event::{PollFd, PollFlags, poll};
#[cfg(unix)]
use rustix::io::Errno;
use session::{KeeperError, Key, LookBackResult, Reply, SheetFile};
#[cfg(unix)]
use signal_hook::consts::{SIGCONT, SIGHUP, SIGTERM, SIGTSTP};
#[cfg(unix)]
use signal_hook::iterator::Signals;
#[cfg(unix)]
use std::fs::File;
use std::io::{self, IsTerminal};
use std::sync::mpsc::Sender;
use std::thread;
use std::time::{Duration, Instant};

/// Something to answer to.
pub(super) enum Message {
    /// A key was pressed.
    Key(Key),
    /// A text was pasted.
    Paste(String),
    /// The mouse was pressed at a place.
    Press(Position),
    /// It was moved to a place while pressed.
    Drag(Position),
    /// It was let go.
    Release,
    /// The wheel was turned at a place, down or up.
    Wheel(Position, bool),
    /// The worker has something to say.
    Reply(Reply),
    /// Pictures in pixels are painted.
    Painted(PixelPictures),
    /// A sheet is made, or could not be.
    Sheet(SheetFile, Result<Vec<u8>, KeeperError>),
    /// A folder of cases was looked back over.
    LookedBack(LookBackResult),
    /// The screen has another size.
    Resize(Size),
    /// Nothing came for a while.
    Redraw,
    /// The program is asked to stop until it is let go on.
    #[cfg(unix)]
    Suspend,
    /// It was let go on.
    #[cfg(unix)]
    GoOn,
    /// The program is asked to end.
    Leave,
}

impl Message {
    /// Whether the user has touched the keyboard or the mouse.
    pub(super) fn is_touch(&self) -> bool {
        use Message::{Drag, Key, Paste, Press, Release, Wheel};
        matches!(
            self,
            Key(_) | Paste(_) | Press(_) | Drag(_) | Release | Wheel(..)
        )
    }
}

impl Message {
    /// Whether the shell has had the terminal in between.
    pub(super) const fn is_after_stop(&self) -> bool {
        #[cfg(unix)]
        return matches!(self, Self::GoOn);
        #[cfg(not(unix))]
        false
    }
}

/// Listens to the terminal. One that cannot be read ends the program.
pub(super) fn terminal(sender: Sender<Message>) -> io::Result<()> {
    thread::Builder::new()
        .name("terminal".into())
        .spawn(move || {
            let mut replies = ReplyFilter::default();
            loop {
                let Ok(events) = next(&mut replies) else {
                    // Nobody listens any more where the program is ending anyway.
                    let _ = sender.send(Message::Leave);
                    return;
                };
                let mut messages = events.into_iter().flatten().filter_map(message);
                if messages.any(|message| sender.send(message).is_err()) {
                    return;
                }
            }
        })?;
    Ok(())
}

/// A thread that was not given time to look has not heard silence: it looks again.
const LOOK_AGAIN: Duration = Duration::from_millis(5);

/// What of the terminal is the user's, as soon as that is known.
fn next(replies: &mut ReplyFilter) -> io::Result<[Option<Event>; 2]> {
    if let Some(rest) = replies.rest(Instant::now()) {
        let is_heard = event::poll(rest)? || event::poll(LOOK_AGAIN)?;
        if !is_heard {
            return Ok([None, replies.silence()]);
        }
    }
    let event = event::read()?;
    Ok(replies.take(event, Instant::now()))
}

fn message(event: Event) -> Option<Message> {
    match event {
        Event::Key(event) => key(event).map(Message::Key),
        Event::Paste(text) => Some(Message::Paste(text)),
        Event::Mouse(event) => mouse(event),
        Event::Resize(width, height) => Some(Message::Resize(Size::new(width, height))),
        Event::FocusGained | Event::FocusLost => None,
    }
}

fn mouse(event: MouseEvent) -> Option<Message> {
    let at = Position::new(event.column, event.row);
    match event.kind {
        MouseEventKind::Down(MouseButton::Left) => Some(Message::Press(at)),
        MouseEventKind::Drag(MouseButton::Left) => Some(Message::Drag(at)),
        MouseEventKind::Up(MouseButton::Left) => Some(Message::Release),
        MouseEventKind::ScrollDown => Some(Message::Wheel(at, true)),
        MouseEventKind::ScrollUp => Some(Message::Wheel(at, false)),
        _ => None,
    }
}

/// Waits until the terminal hangs up, which needs no time until then. A signal tells it
/// only where the terminal is the one that controls the program, and whoever reads events
/// from one that hung up reads its end again and again.
#[cfg(unix)]
pub(super) fn hang_up(sender: Sender<Message>) -> io::Result<()> {
    // The one that events are read from.
    let tty = if io::stdin().is_terminal() {
        None
    } else {
        Some(File::open("/dev/tty")?)
    };
    let wait = move || {
        let stdin = io::stdin();
        // A hang-up is told without being asked for.
        let asked = PollFlags::empty();
        let mut watched = [match &tty {
            Some(tty) => PollFd::new(tty, asked),
            None => PollFd::new(&stdin, asked),
        }];
        while let Err(Errno::INTR) = poll(&mut watched, None) {}
        // Nobody listens any more where the program is ending anyway.
        let _ = sender.send(Message::Leave);
    };
    thread::Builder::new().name("hang-up".into()).spawn(wait)?;
    Ok(())
}

/// Listens to the signals that ask a program to stop, to go on and to end.
#[cfg(unix)]
pub(super) fn signals(sender: Sender<Message>) -> io::Result<()> {
    let mut signals = Signals::new([SIGTERM, SIGHUP, SIGTSTP, SIGCONT])?;
    thread::Builder::new()
        .name("signals".into())
        .spawn(move || {
            for signal in signals.forever() {
                let message = match signal {
                    SIGTSTP => Message::Suspend,
                    SIGCONT => Message::GoOn,
                    _ => Message::Leave,
                };
                // Nobody listens any more where the program is ending anyway.
                if sender.send(message).is_err() {
                    return;
                }
            }
        })?;
    Ok(())
}
