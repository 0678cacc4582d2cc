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
use super::sheet::{OtherTexts, SheetOrder};
use super::terminal_looks::TerminalLooks;
use super::theme::Theme;
use ratatui::Frame;
use session::{
    Effect, Errand, Event, FileEvent, Keeper, KeeperError, RankingResult, Session, SheetFile,
};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// A session with its keeper and what the screen knows of it.
pub(super) struct Program {
    pub(super) session: Session,
    pub(super) keeper: Keeper,
    seen: Seen,
    studio: Studio,
    /// Results that gave way to others, to be let go once a frame is drawn.
    not_shown: Vec<Arc<RankingResult>>,
    drag: Drag,
    patience: Patience,
    recorder: Option<Recorder>,
    kept_looks: Option<TerminalLooks>,
    pixels: PixelScreen,
    ordered: Option<PixelOrder>,
    /// When the program began.
    started: Option<Instant>,
    others: OtherTexts,
    sheet: Option<SheetOrder>,
    /// How many sheets are being made.
    unmade: usize,
    /// What is left for worker and terminal to do.
    effects: Vec<Effect>,
}

impl Program {
    /// A program before its first frame; everything that comes in is written to the
    /// recorder, where there is one.
    pub(super) fn new(session: Session, keeper: Keeper, recorder: Option<Recorder>) -> Self {
        Self {
            session,
            keeper,
            seen: Seen::default(),
            studio: Studio::beginning_with_words(),
            not_shown: Vec::new(),
            drag: Drag::default(),
            patience: Patience::default(),
            recorder,
            kept_looks: None,
            pixels: PixelScreen::default(),
            ordered: None,
            started: None,
            others: OtherTexts::default(),
            sheet: None,
            unmade: 0,
            effects: Vec::new(),
        }
    }

    /// The program with a place where looks are kept that the operator chooses.
    pub(super) fn with_kept_looks(mut self, kept: Option<TerminalLooks>) -> Self {
        self.kept_looks = kept.map(|kept| kept.beginning_with(self.session.view().looks));
        self
    }

    /// The program with the texts that a sheet names beside that of the case.
    pub(super) fn with_other_texts(mut self, others: OtherTexts) -> Self {
        self.others = others;
        self
    }

    /// Records what comes in from here on.
    #[cfg(test)]
    pub(super) fn record(&mut self, recorder: Recorder) {
        self.recorder = Some(recorder);
    }

    /// Takes one message, which came `now`, and runs what follows on it but what
    /// worker and terminal do.
    pub(super) fn take(&mut self, message: Message, now: Instant) {
        if let Some(recorder) = &mut self.recorder {
            recorder.note(Input::of(&message), &self.session, now);
        }
        self.tell_time(now);
        if let Some(event) = self.event(message) {
            self.update(event, now);
        }
    }

    /// Lets the session know how long the program has run.
    fn tell_time(&mut self, now: Instant) {
        let started = *self.started.get_or_insert(now);
        let clock = Event::Clock(now.saturating_duration_since(started));
        self.update(clock, now);
    }

    /// The same but what the worker is to do: that waits for the frame.
    pub(super) fn take_effects_of_terminal(&mut self) -> Vec<Effect> {
        let effects = std::mem::take(&mut self.effects).into_iter();
        let (work, others) = effects.partition(|effect| matches!(effect, Effect::Submit(_)));
        self.effects = work;
        others
    }

    /// Whether the worker is to do something else than what it does.
    pub(super) fn has_work(&self) -> bool {
        !self.effects.is_empty()
    }

    /// What is left for worker and terminal to do, once.
    pub(super) fn take_effects(&mut self) -> Vec<Effect> {
        std::mem::take(&mut self.effects)
    }

    fn update(&mut self, event: Event, now: Instant) {
        let effects = self.session.update(event);
        let others = self.keeper.run(&mut self.session, effects, now);
        for effect in others {
            match effect {
                Effect::LetGo(assessed) => self.not_shown.push(assessed),
                Effect::File(Errand::Sheet(asked)) => self.order_sheet(&asked),
                other => self.effects.push(other),
            }
        }
    }

    fn order_sheet(&mut self, asked: &SheetFile) {
        match SheetOrder::of(&self.session, &self.keeper, &self.others, asked) {
            Ok(order) => {
                self.sheet = Some(order);
                let says = FileEvent::Done("making the sheet …".to_owned());
                self.session.update(Event::File(Box::new(says)));
            }
            Err(why) => {
                // The session says why.
                let _ = self.keeper.write_sheet(&mut self.session, asked, Err(why));
            }
        }
    }

    /// The sheet that is to be made, once.
    pub(super) fn take_sheet(&mut self) -> Option<SheetOrder> {
        let sheet = self.sheet.take()?;
        self.unmade += 1;
        Some(sheet)
    }

    /// Writes a sheet that is made. Err: why it is not written, which the session says too.
    pub(super) fn write_sheet(
        &mut self,
        asked: &SheetFile,
        made: Result<Vec<u8>, KeeperError>,
    ) -> Result<(), String> {
        self.unmade = self.unmade.saturating_sub(1);
        self.keeper.write_sheet(&mut self.session, asked, made)
    }

    /// Whether a sheet is still being made.
    pub(super) const fn is_making_sheet(&self) -> bool {
        self.unmade > 0
    }

    /// Looks whether the open file was changed, once all that came was taken.
    pub(super) fn watch(&mut self, now: Instant) {
        self.keeper.watch(&mut self.session, now);
    }

    /// Draws the page, and tells the session what of it is seen; the bytes that are to
    /// follow the frame.
    pub(super) fn draw(&mut self, frame: &mut Frame, now: Instant) -> Vec<u8> {
        self.started.get_or_insert(now);
        if let Some(recorder) = &mut self.recorder {
            recorder.note_first_size(frame.area().as_size(), now);
        }
        let theme = Theme::of(self.session.view().looks);
        self.seen = draw::page(frame, &self.session, theme, &mut self.studio);
        self.update(Event::Drawn(self.seen.visible), now);
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

    /// Forces to disk what was recorded: the program stops.
    pub(super) fn force(&mut self) {
        self.keeper.force(&mut self.session);
    }

    /// Forces to disk what was recorded: the program ends.
    pub(super) fn close(&mut self) {
        // Nobody is left to be told.
        self.keeper.force(&mut self.session);
    }

    /// How long until something is to be done though nothing comes; `None`: nothing
    /// is.
    pub(super) fn rest(&mut self, now: Instant) -> Option<Duration> {
        let (unnoticed, event) = self.patience.rest(&self.session, now);
        if let Some(event) = event {
            self.update(event, now);
        }
        let unforced = self.keeper.rest(&self.session, now);
        // The pictures follow the first frame at once.
        let pictures = self.studio.has_left_out().then_some(Duration::ZERO);
        // The minute since puncture is shown as it is.
        self.tell_time(now);
        let minute = self.session.to_next_minute();
        let due = unforced.into_iter().chain(unnoticed).chain(pictures);
        due.chain(minute).min()
    }

    /// What a message is to the session; nothing where it is the terminal's.
    fn event(&mut self, message: Message) -> Option<Event> {
        match message {
            Message::Key(key) => Some(Event::Key(key)),
            Message::Paste(text) => Some(Event::Paste(text)),
            Message::Reply(reply) => {
                self.patience.heard();
                Some(Event::Reply(reply))
            }
            Message::Press(at) => self.drag.press(&self.seen, at),
            Message::Drag(at) => self.drag.drag(&self.seen, at),
            Message::Release => {
                self.drag.release();
                None
            }
            Message::Wheel(at, down) => {
                let panel = self.seen.panel_at(at);
                panel.map(|focus| Event::Wheel(focus, down))
            }
            Message::Sheet(asked, made) => {
                let _ = self.write_sheet(&asked, made);
                None
            }
            Message::LookedBack(result) => Some(Event::LookedBack(result)),
            Message::Painted(pictures) => {
                self.pixels.take(pictures);
                None
            }
            Message::Resize(_) => {
                self.pixels.disturb();
                None
            }
            Message::Redraw => None,
            #[cfg(unix)]
            Message::GoOn => {
                self.pixels.disturb();
                None
            }
            #[cfg(unix)]
            Message::Suspend => {
                self.effects.push(Effect::Suspend);
                None
            }
            Message::Leave => {
                self.effects.push(Effect::Leave);
                None
            }
        }
    }
}

#[cfg(test)]
mod tests;
