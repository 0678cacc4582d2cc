//! `rimwise --record FILE`: what came in, so that a fault can be played again by
//! somebody else. It holds the case's figures, but nobody's words: no title, no
//! reason, no path, nothing that was pasted but a number.

use super::input::Input;
use measurement::ReadingId;
use ratatui::layout::Size;
use session::{Home, Key, KeyCode, Looks, Session};
use sizing::Case;
use std::fs::OpenOptions;
use std::io::{self, Write};
use std::path::Path;
use std::time::Instant;

/// The first line of a record.
pub(super) const HEAD: &str = "rimwise-record 1";
/// The mode of a record: it holds the figures of a case.
#[cfg(unix)]
const FOR_ITS_OWNER: u32 = 0o600;
/// What begins a line of the case.
pub(super) const CASE: &str = "case ";

/// Writes what comes in, line by line.
pub(crate) struct Recorder {
    out: Box<dyn Write + Send>,
    /// When the first frame was drawn.
    start: Option<Instant>,
    /// Whether words that are typed or pasted are written as `x`.
    hides_words: bool,
}

impl Recorder {
    /// Begins a record in a new file; one that is there already is an error.
    pub(crate) fn create(path: &Path, session: &Session) -> io::Result<Self> {
        let mut options = OpenOptions::new();
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, FOR_ITS_OWNER);
        let file = options.write(true).create_new(true).open(path)?;
        let mut recorder = Self::new(Box::new(file), true);
        recorder.begin(session)?;
        Ok(recorder)
    }

    /// A recorder that writes lines alone.
    pub(super) fn new(out: Box<dyn Write + Send>, hides_words: bool) -> Self {
        Self {
            out,
            start: None,
            hides_words,
        }
    }

    /// Writes what is open.
    fn begin(&mut self, session: &Session) -> io::Result<()> {
        writeln!(self.out, "{HEAD}")?;
        writeln!(self.out, "version {}", env!("CARGO_PKG_VERSION"))?;
        let home = match session.document().home() {
            Home::Shipped => "shipped",
            Home::Nowhere => "nowhere",
            Home::File(_) => "file",
        };
        writeln!(self.out, "home {home}")?;
        writeln!(self.out, "looks {}", words(session.view().looks))?;
        let case = files::new_case(&without_words(session.document().case()));
        for line in case.lines() {
            writeln!(self.out, "{CASE}{line}")?;
        }
        self.out.flush()
    }

    /// Writes what came in, before it is answered.
    pub(super) fn note(&mut self, mut input: Input, session: &Session, now: Instant) {
        if self.hides_words {
            hide(&mut input, session);
        }
        self.write(&input, now);
    }

    /// Writes the size of the screen at the first frame; of others a message tells.
    pub(super) fn note_first_size(&mut self, size: Size, now: Instant) {
        if self.start.is_none() {
            self.write(&Input::Size(size), now);
        }
    }

    /// A record that cannot be written to its end is shorter: the work goes on.
    fn write(&mut self, input: &Input, now: Instant) {
        let start = *self.start.get_or_insert(now);
        let millis = now.saturating_duration_since(start).as_millis();
        let _ = writeln!(self.out, "{millis} {input}").and_then(|()| self.out.flush());
    }
}

/// Looks in the words of the call.
fn words(looks: Looks) -> String {
    let palettes = session::Palette::ALL.into_iter();
    let palette = palettes.filter(|(_, it)| *it == looks.palette);
    let mut words: Vec<&str> = palette.map(|it| it.0).collect();
    words.push(looks.pictures.word());
    words.extend(looks.is_presented.then_some("present"));
    words.extend(looks.mouse_is_free.then_some("no-mouse"));
    words.join(" ")
}

/// A case with its figures, and words of the program in place of anybody's.
fn without_words(case: &Case) -> Case {
    let mut case = case.clone();
    "a recorded case".clone_into(&mut case.title);
    case.lesson = None;
    for (index, reading) in case.readings.iter_mut().enumerate() {
        reading.id = ReadingId(format!("r{index}"));
        if let Some(why) = &mut reading.set_aside {
            "a recorded reason".clone_into(why);
        }
    }
    for exception in &mut case.exceptions {
        "a recorded reason".clone_into(&mut exception.because);
    }
    let procedure = &mut case.procedure;
    procedure.case_id = None;
    for change in procedure
        .criteria
        .iter_mut()
        .flat_map(|one| &mut one.changes)
    {
        "a recorded reason".clone_into(&mut change.reason);
    }
    for trial in &mut procedure.trials {
        trial.view = None;
        trial.because = None;
    }
    let later = procedure.follow_up.iter_mut().flat_map(|day| &mut day.seen);
    let seen = procedure
        .trials
        .iter_mut()
        .flat_map(|trial| &mut trial.seen);
    for why in seen.chain(later).filter_map(|one| one.set_aside.as_mut()) {
        "a recorded reason".clone_into(why);
    }
    case
}

/// Puts `x` in place of letters that are somebody's words.
fn hide(input: &mut Input, session: &Session) {
    let takes_words = || {
        let overlay = session.overlays().last();
        overlay.is_some_and(session::Overlay::takes_words)
    };
    match input {
        Input::Key(key) if key.printed().is_some_and(|it| it != ' ') && takes_words() => {
            *key = Key::plain(KeyCode::Char('x'));
        }
        Input::Paste(text) if takes_words() || !text.chars().all(is_of_number) => {
            *text = text.chars().map(hidden).collect();
        }
        _ => {}
    }
}

/// Whether a character may stand in a number.
const fn is_of_number(letter: char) -> bool {
    matches!(
        letter,
        '0'..='9' | '.' | ',' | '+' | '-' | ' ' | '\n' | '\r'
    )
}

const fn hidden(letter: char) -> char {
    if letter.is_whitespace() { letter } else { 'x' }
}
