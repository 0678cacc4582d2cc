use std::io::{self, ErrorKind, IsTerminal, Write};

/// A writer that remembers that its reader went away: a pipe closed at its other
/// end, or a terminal that was closed.
///
/// What writes through it may wrap the error in one of its own, from which the cause
/// cannot be told any more.
pub(super) struct Output<W> {
    out: W,
    was_terminal: bool,
    is_closed: bool,
}

impl<W: IsTerminal> Output<W> {
    /// A writer over another.
    pub(super) fn new(out: W) -> Self {
        Self {
            was_terminal: out.is_terminal(),
            out,
            is_closed: false,
        }
    }

    /// Whether the reader went away before all was read.
    pub(super) const fn is_closed(&self) -> bool {
        self.is_closed
    }

    fn note<T>(&mut self, done: io::Result<T>) -> io::Result<T> {
        if let Err(error) = &done {
            let is_hung_up = self.was_terminal && !self.out.is_terminal();
            self.is_closed |= error.kind() == ErrorKind::BrokenPipe || is_hung_up;
        }
        done
    }
}

impl<W: Write + IsTerminal> Write for Output<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let done = self.out.write(bytes);
        self.note(done)
    }

    fn flush(&mut self) -> io::Result<()> {
        let done = self.out.flush();
        self.note(done)
    }
}
