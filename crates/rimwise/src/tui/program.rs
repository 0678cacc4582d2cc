//! The program between what comes in and what is drawn, without a terminal: it can
//! be played from a record.

use super::drag::Drag;
use super::draw::{self, Seen, Studio};
use super::input::Input;
use super::listen::Message;
use super::painter::PixelOrder;
use super::patience::Patience;
use super::pixels::PixelScreen;
use super::recorder::Recorder;
use super::terminal_looks::TerminalLooks;
use super::theme::Theme;
use ratatui::Frame;
use session::{Assessed, Keeper, Key, Session};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// A session with its keeper and what the screen knows of it.
pub(super) struct Program {
    pub(super) session: Session,
    pub(super) keeper: Keeper,
    seen: Seen,
    studio: Studio,
    /// Results that gave way to others, to be let go once a frame is drawn.
    not_shown: Vec<Arc<Assessed>>,
    drag: Drag,
    patience: Patience,
    recorder: Option<Recorder>,
    kept_looks: Option<TerminalLooks>,
    pixels: PixelScreen,
    ordered: Option<PixelOrder>,
}

/// What follows on the messages that came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Next {
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

impl Program {
    /// A program before its first frame; everything that comes in is written to the
    /// recorder, where there is one.
    pub(super) fn new(session: Session, keeper: Keeper, recorder: Option<Recorder>) -> Self {
        Self {
            session,
            keeper,
            seen: Seen::default(),
            studio: Studio::default(),
            not_shown: Vec::new(),
            drag: Drag::default(),
            patience: Patience::default(),
            recorder,
            kept_looks: None,
            pixels: PixelScreen::default(),
            ordered: None,
        }
    }

    /// The program with a place where looks are kept that the operator chooses.
    pub(super) fn with_kept_looks(mut self, kept: Option<TerminalLooks>) -> Self {
        self.kept_looks = kept.map(|kept| kept.beginning_with(self.session.view().looks));
        self
    }

    /// Records what comes in from here on.
    #[cfg(test)]
    pub(super) fn record(&mut self, recorder: Recorder) {
        self.recorder = Some(recorder);
    }

    /// Takes one message, which came `now`, and records what it changed; says what
    /// follows on one that is not the session's.
    pub(super) fn take(&mut self, message: Message, now: Instant) -> Option<Next> {
        if let Some(recorder) = &mut self.recorder {
            recorder.note(Input::of(&message), &self.session, now);
        }
        if let Some(next) = self.answer(message) {
            return Some(next);
        }
        self.keeper.tend(&mut self.session, now);
        #[cfg(unix)]
        if self.session.take_suspend() {
            return Some(Next::Suspend);
        }
        None
    }

    /// Looks whether the open file was changed, once all that came was taken.
    pub(super) fn watch(&mut self, now: Instant) {
        self.keeper.watch(&mut self.session, now);
    }

    /// Draws the page, and tells the session what of it is seen; the bytes that are to
    /// follow the frame.
    pub(super) fn draw(&mut self, frame: &mut Frame, now: Instant) -> Vec<u8> {
        if let Some(recorder) = &mut self.recorder {
            recorder.note_first_size(frame.area().as_size(), now);
        }
        let theme = Theme::of(self.session.view().looks);
        self.seen = draw::page(frame, &self.session, theme, &mut self.studio);
        self.session.seen(self.seen.rooms);
        let wanted = self.studio.take_pixels();
        let (bytes, order) = self.pixels.frame(wanted, frame.buffer_mut());
        self.ordered = order.or(self.ordered.take());
        bytes
    }

    /// What is to be painted in pixels, once.
    pub(super) const fn take_order(&mut self) -> Option<PixelOrder> {
        self.ordered.take()
    }

    /// The bytes that erase what lies on the screen beside its cells.
    pub(super) fn erase_pixels(&mut self) -> Vec<u8> {
        self.pixels.erase()
    }

    /// Does what can wait for a frame; whether there is something new to draw.
    pub(super) fn settle(&mut self, now: Instant) -> bool {
        self.not_shown.clear();
        if let Some(kept) = &mut self.kept_looks {
            kept.keep(self.session.view().looks);
        }
        self.keeper.force_at_rest(&mut self.session, now)
    }

    /// How long until something is to be done though nothing comes; `None`: nothing
    /// is.
    pub(super) fn rest(&mut self, now: Instant) -> Option<Duration> {
        let unnoticed = self.patience.rest(&mut self.session, now);
        let unforced = self.keeper.rest(&self.session, now);
        unforced.into_iter().chain(unnoticed).min()
    }

    /// Answers a message; says what follows on one that is not the session's.
    fn answer(&mut self, message: Message) -> Option<Next> {
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
            Message::Painted(pictures) => self.pixels.take(pictures),
            Message::Resize(_) => self.pixels.forget(),
            Message::Redraw => {}
            #[cfg(unix)]
            Message::Suspend => return Some(Next::Suspend),
            #[cfg(unix)]
            Message::GoOn => {
                self.pixels.forget();
                return Some(Next::TakeAgain);
            }
            Message::Leave => return Some(Next::Leave),
        }
        None
    }
}

/// In builds for testing a key can be made to panic, to see that the terminal is
/// given back.
#[expect(
    clippy::panic,
    reason = "provoked where a test asks for it, never in a release"
)]
fn provoked_panic(key: Key) {
    if cfg!(debug_assertions)
        && std::env::var("RIMWISE_PANIC_AT").is_ok_and(|at| at == key.to_string())
    {
        std::panic::panic_any("provoked for a test");
    }
}
