use crate::ascii;
use crate::text::base64;
use crossterm::event::{
    DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture,
};
use crossterm::terminal::{
    BeginSynchronizedUpdate, Clear, ClearType, EndSynchronizedUpdate, EnterAlternateScreen,
    LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{cursor, execute, queue};
use ratatui::backend::CrosstermBackend;
use ratatui::{Frame, Terminal};
use std::io::{self, BufWriter, IsTerminal, Stdout, Write, stdout};
use std::panic;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;

/// The terminal in the hands of the program: given back when this is dropped,
/// and before the message of a panic of the thread that took it.
pub(super) struct Guard {
    taken: Taken,
    terminal: Terminal<CrosstermBackend<BufWriter<Out>>>,
    has_mouse: bool,
    /// Whether the terminal takes plain letters alone.
    is_plain: bool,
}

impl Guard {
    /// Takes the terminal: raw, on the alternate screen, pastes told from keys.
    pub(super) fn enter() -> io::Result<Self> {
        // Under NO_COLOR crossterm would write a reset in place of each colour
        // and lose bold and reverse with it; the theme holds no colour then.
        crossterm::style::force_color_output(true);
        let taken = Taken::default();
        taken.give_back_on_panic();
        let entered = taken.take();
        let terminal = entered.and_then(|()| Terminal::new(CrosstermBackend::new(out())));
        match terminal {
            Ok(terminal) => Ok(Self {
                taken,
                terminal,
                has_mouse: false,
                is_plain: ascii::is_asked_for(),
            }),
            Err(error) => {
                taken.give_back();
                Err(error)
            }
        }
    }

    /// Gives the terminal to the shell and stops, as Ctrl-Z does elsewhere; takes it
    /// back when the shell lets the program go on.
    #[cfg(unix)]
    pub(super) fn suspend(&mut self) -> io::Result<()> {
        self.taken.give_back();
        signal_hook::low_level::emulate_default_handler(signal_hook::consts::SIGTSTP)?;
        self.take_again()
    }

    /// Takes the terminal as it is after a stop: whoever had it in between may have
    /// left it otherwise.
    pub(super) fn take_again(&mut self) -> io::Result<()> {
        self.taken.take()?;
        self.has_mouse = false;
        execute!(stdout(), Clear(ClearType::All))?;
        // Nothing of the frame before is known to stand there.
        self.terminal = Terminal::new(CrosstermBackend::new(out()))?;
        Ok(())
    }

    /// Takes the mouse, or leaves it to the terminal.
    pub(super) fn mouse(&mut self, is_taken: bool) -> io::Result<()> {
        if is_taken == self.has_mouse {
            return Ok(());
        }
        self.has_mouse = is_taken;
        let out = self.terminal.backend_mut();
        if is_taken {
            execute!(out, EnableMouseCapture)
        } else {
            execute!(out, DisableMouseCapture)
        }
    }

    /// Sends a text to the clipboard of the terminal, through ssh as well (OSC 52).
    pub(super) fn copy(&mut self, text: &str) -> io::Result<()> {
        let out = self.terminal.backend_mut();
        write!(out, "\u{1b}]52;c;{}\u{7}", base64(text.as_bytes()))?;
        Write::flush(out)
    }

    /// Draws a frame and what is to follow it in one synchronised update, so that
    /// nothing flickers.
    pub(super) fn draw(&mut self, page: impl FnOnce(&mut Frame) -> Vec<u8>) -> io::Result<()> {
        // With the frame, in one write.
        queue!(self.terminal.backend_mut(), BeginSynchronizedUpdate)?;
        let is_plain = self.is_plain;
        let mut behind = Vec::new();
        self.terminal.draw(|frame| {
            behind = page(frame);
            if is_plain {
                ascii::write_over(frame.buffer_mut());
            }
        })?;
        self.terminal.backend_mut().write_all(&behind)?;
        execute!(self.terminal.backend_mut(), EndSynchronizedUpdate)
    }

    /// Sends bytes that change no cell.
    pub(super) fn send(&mut self, bytes: &[u8]) -> io::Result<()> {
        let out = self.terminal.backend_mut();
        out.write_all(bytes)?;
        Write::flush(out)
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        // What of a frame waits after a panic must not come behind all else.
        let _ = execute!(self.terminal.backend_mut(), EndSynchronizedUpdate);
        self.taken.give_back();
    }
}

/// What frames are written to: a frame of a large terminal goes out in one piece.
fn out() -> BufWriter<Out> {
    const FRAME: usize = 64 * 1024;
    BufWriter::with_capacity(FRAME, Out(stdout()))
}

/// The terminal as it is written to. One that was closed takes everything and shows
/// nothing: ratatui shows the cursor when its terminal is dropped, and where that
/// fails it panics, for it tells so on the same terminal.
struct Out(Stdout);

impl Write for Out {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.0.write(bytes);
        written.or_else(|error| {
            if is_closed() {
                Ok(bytes.len())
            } else {
                Err(error)
            }
        })
    }

    fn flush(&mut self) -> io::Result<()> {
        let flushed = self.0.flush();
        flushed.or_else(|error| if is_closed() { Ok(()) } else { Err(error) })
    }
}

/// Whether the terminal was closed: it answers to nothing that a terminal does.
pub(super) fn is_closed() -> bool {
    !stdout().is_terminal()
}

/// Whether the terminal is taken, for whoever comes first to give it back: a
/// second time would put the cursor over what was told in between.
#[derive(Clone, Default)]
struct Taken(Arc<AtomicBool>);

impl Taken {
    /// Takes the terminal: raw, on the alternate screen, pastes told from keys.
    fn take(&self) -> io::Result<()> {
        enable_raw_mode()?;
        self.0.store(true, Ordering::SeqCst);
        execute!(
            stdout(),
            EnterAlternateScreen,
            EnableBracketedPaste,
            cursor::Hide
        )
    }

    /// Gives the terminal back as far as it lets itself be; there is nobody left
    /// to tell where it does not.
    fn give_back(&self) {
        if !self.0.swap(false, Ordering::SeqCst) {
            return;
        }
        let _ = execute!(
            stdout(),
            EndSynchronizedUpdate,
            DisableBracketedPaste,
            DisableMouseCapture,
            LeaveAlternateScreen,
            cursor::Show
        );
        let _ = disable_raw_mode();
    }

    /// A panic of this thread gives the terminal back before it is told. One of
    /// the worker is told on the screen, and is not to tear it down.
    fn give_back_on_panic(&self) {
        let owner = thread::current().id();
        let taken = self.clone();
        let told = panic::take_hook();
        panic::set_hook(Box::new(move |panic| {
            if thread::current().id() == owner {
                taken.give_back();
                told(panic);
            }
        }));
    }
}

#[cfg(all(test, unix))]
mod tests;
