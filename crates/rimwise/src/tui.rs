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
mod sheet;
mod terminal_looks;
mod theme;

pub(crate) use plain::plain;
pub(crate) use recorder::Recorder;
pub(crate) use sheet::OtherTexts;
pub(crate) use terminal_looks::TerminalLooks;

use anyhow::{Result, anyhow, bail};
use files::visible;
use guard::Guard;
use listen::Message;
use painter::Painter;
use program::Program;
use session::{Effect, Keeper, LookBackOrder, Session, SheetFile, Worker};
use sizing::engine::Fast;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

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
    (kept, others): (Option<TerminalLooks>, OtherTexts),
) -> Result<()> {
    let mut guard = Guard::enter()?;
    let mut program = Program::new(session, keeper, recorder)
        .with_kept_looks(kept)
        .with_other_texts(others);
    draw(&mut program, &mut guard)?;
    let (sender, messages) = channel();
    listen::terminal(sender.clone())?;
    #[cfg(unix)]
    listen::signals(sender.clone())?;
    #[cfg(unix)]
    listen::hang_up(sender.clone())?;
    let replies = sender.clone();
    let worker = Worker::start(Fast, threads, move |reply| {
        replies.send(Message::Reply(reply)).is_ok()
    })?;
    let ended = go_on(&mut program, &mut guard, &worker, (&sender, &messages));
    // Where the terminal is gone there is nothing to erase.
    let _ = guard.send(&program.erase_pixels());
    let finished = finish_sheets(&mut program, &messages);
    // However it ended, what was confirmed is on disk.
    program.close();
    drop(guard);
    match ended.and(finished) {
        // To close the terminal is a way to leave.
        Err(_) if guard::is_closed() => Ok(()),
        ended => ended,
    }
}

/// What follows on the effects that were run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Flow {
    /// What waits is taken.
    On,
    /// The program was stopped and goes on: the page is drawn.
    Stopped,
    /// The program ends.
    End,
}

/// Answers what comes, and draws, until the program is left.
fn go_on(
    program: &mut Program,
    guard: &mut Guard,
    worker: &Worker,
    (sender, messages): (&Sender<Message>, &Receiver<Message>),
) -> Result<()> {
    let mut painter = None;
    loop {
        if answer_all(program, guard, worker, (sender, messages))? == Flow::End {
            return Ok(());
        }
        guard.mouse(!program.session.view().looks.mouse_is_free)?;
        draw(program, guard)?;
        if program.settle(Instant::now()) {
            draw(program, guard)?;
        }
        order(program, &mut painter, sender)?;
        make_sheet(program, sender)?;
    }
}

/// Waits for a message and answers all that have come: the effects of each are run
/// before the next is taken.
fn answer_all(
    program: &mut Program,
    guard: &mut Guard,
    worker: &Worker,
    (sender, messages): (&Sender<Message>, &Receiver<Message>),
) -> Result<Flow> {
    // Of the frame before, and what the keys before it ask of the worker: a frame
    // does not share the processor with what it does not wait for.
    let effects = program.take_effects();
    if run_effects(effects, program, guard, (worker, sender))? == Flow::End {
        return Ok(Flow::End);
    }
    let mut waiting = next(program, messages);
    if waiting.is_none() {
        return Ok(Flow::End);
    }
    let mut was_touched = false;
    while let Some(message) = waiting {
        was_touched |= message.is_touch();
        let was_stopped = message.is_after_stop();
        program.take(message, Instant::now());
        if was_stopped {
            guard.take_again()?;
        }
        let effects = program.take_effects_of_terminal();
        match run_effects(effects, program, guard, (worker, sender))? {
            Flow::On => {}
            flow => return Ok(flow),
        }
        if program.has_work() {
            worker.stop();
        }
        waiting = messages.try_recv().ok();
    }
    if was_touched {
        program.watch(Instant::now());
    }
    Ok(Flow::On)
}

/// Runs what worker and terminal are to do.
fn run_effects(
    effects: Vec<Effect>,
    program: &mut Program,
    guard: &mut Guard,
    (worker, sender): (&Worker, &Sender<Message>),
) -> Result<Flow> {
    let mut flow = Flow::On;
    for effect in effects {
        match effect {
            Effect::Submit(request) => worker.submit(*request),
            Effect::Copy(text) => guard.copy(&text)?,
            Effect::Suspend => {
                program.force();
                guard.send(&program.erase_pixels())?;
                #[cfg(unix)]
                guard.suspend()?;
                flow = Flow::Stopped;
            }
            Effect::Leave => return Ok(Flow::End),
            Effect::LookBack(order) => look_back(order, sender)?,
            // The keeper's and the program's own.
            Effect::Record(_) | Effect::File(_) | Effect::LetGo(_) => {}
        }
    }
    Ok(flow)
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

/// Has a sheet that was asked for made, and hears of it when it is.
fn make_sheet(program: &mut Program, sender: &Sender<Message>) -> Result<()> {
    let Some(order) = program.take_sheet() else {
        return Ok(());
    };
    let sender = sender.clone();
    thread::Builder::new().name("sheet".into()).spawn(move || {
        let made = order.made();
        // Nobody listens any more where the program is ending.
        let _ = sender.send(Message::Sheet(order.asked, made));
    })?;
    Ok(())
}

/// Has a folder of cases looked back over, and hears of it when it is.
fn look_back(order: LookBackOrder, sender: &Sender<Message>) -> Result<()> {
    let sender = sender.clone();
    let thread = thread::Builder::new().name("look-back".into());
    thread.spawn(move || {
        // One thread, beside those of the list.
        let result = Keeper::look_back(&order, 1);
        // Nobody listens any more where the program is ending.
        let _ = sender.send(Message::LookedBack(result));
    })?;
    Ok(())
}

/// Writes what is still to be made: who asked for a sheet and left finds it, or is told
/// that what is there is no sheet of this list.
fn finish_sheets(program: &mut Program, messages: &Receiver<Message>) -> Result<()> {
    /// No sheet takes nearly as long.
    const PATIENCE: Duration = Duration::from_secs(10);
    let write = |program: &mut Program, asked: SheetFile, made| {
        let written = program.write_sheet(&asked, made);
        let path = asked.to.display().to_string();
        let says = |why| anyhow!("the sheet {} was not written: {why}", visible(&path));
        written.map_err(says)
    };
    if let Some(order) = program.take_sheet() {
        let made = order.made();
        write(program, order.asked, made)?;
    }
    while program.is_making_sheet() {
        match messages.recv_timeout(PATIENCE) {
            Ok(Message::Sheet(asked, made)) => write(program, asked, made)?,
            Ok(_) => {}
            Err(_) => bail!("the sheet that was asked for was not made in time"),
        }
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

/// Every size of the demonstration in order, for tests.
#[cfg(test)]
pub(crate) fn test_candidates() -> Vec<sizing::Candidate> {
    draw::test_candidates()
}
