use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use std::mem;
use std::time::{Duration, Instant};

/// A filter that keeps a terminal's own replies from acting as keys.
///
/// A reply is a control string of ECMA-48 (5.6): ESC and one of `_ P ] ^ X` (APC,
/// DCS, OSC, PM, SOS), text, and ESC `\` (ST) or BEL. crossterm 0.29 knows none of
/// them: it tells Alt and the letter, then plain keys. Where a read ends behind an
/// ESC it tells the Esc key, so that one is held back until silence shows that it
/// was pressed; a key's own sequence cut there is lost, rather than taken for the
/// keys of its letters.
#[derive(Debug, Default)]
pub(super) struct ReplyFilter {
    state: State,
    /// When something came last.
    last: Option<Instant>,
}

/// Silence that ends a control string and shows that an ESC was the Esc key. The
/// pieces of one reply come closer together, also through ssh.
const SILENCE: Duration = Duration::from_millis(50);

#[derive(Debug, Default)]
enum State {
    /// What comes is the user's.
    #[default]
    Open,
    /// An Esc is held back: a key, or the beginning of something.
    Held(KeyEvent),
    /// Within a control string.
    String,
    /// Within one, behind an ESC that may begin its end.
    StringEnd,
    /// Within the sequence of a key whose ESC came alone: its parameters so far.
    Csi(String),
    /// Before the one letter of such a sequence in its short form.
    Ss3,
}

/// The parameter that begins a paste.
const PASTE: &str = "200";

impl ReplyFilter {
    /// How long until silence decides over what is held back; `None`: nothing is.
    pub(super) fn rest(&self, now: Instant) -> Option<Duration> {
        let last = self.last.filter(|_| !matches!(self.state, State::Open))?;
        Some(SILENCE.saturating_sub(now.saturating_duration_since(last)))
    }

    /// Takes what the terminal tells; gives what of it, and of what was held back,
    /// is the user's.
    pub(super) fn take(&mut self, event: Event, now: Instant) -> [Option<Event>; 2] {
        // The size of the screen is told beside the keys, not among them.
        if matches!(event, Event::Resize(..)) {
            return [None, Some(event)];
        }
        self.last = Some(now);
        let (state, passed) = match mem::take(&mut self.state) {
            State::Open => opened(event),
            State::Held(esc) => held(esc, event),
            State::StringEnd if plain(&event) == Some('\\') => (State::Open, [None, None]),
            State::String | State::StringEnd => (within(&event), [None, None]),
            State::Csi(parameters) => (csi(parameters, &event), [None, None]),
            State::Ss3 => (State::Open, [None, None]),
        };
        self.state = state;
        passed
    }

    /// Takes it that nothing came for so long; gives the Esc that was held back.
    pub(super) fn silence(&mut self) -> Option<Event> {
        match mem::take(&mut self.state) {
            State::Held(esc) => Some(Event::Key(esc)),
            _ => None,
        }
    }
}

/// What an event begins where nothing is held back.
fn opened(event: Event) -> (State, [Option<Event>; 2]) {
    match pressed(&event) {
        Some(key) if key.code == KeyCode::Esc && key.modifiers.is_empty() => {
            (State::Held(*key), [None, None])
        }
        Some(key) if begins_string(key) => (State::String, [None, None]),
        _ => (State::Open, [None, Some(event)]),
    }
}

/// What an event makes of an Esc that is held back.
fn held(esc: KeyEvent, event: Event) -> (State, [Option<Event>; 2]) {
    match plain(&event) {
        Some('_' | 'P' | ']' | '^' | 'X') => (State::String, [None, None]),
        Some('[') => (State::Csi(String::new()), [None, None]),
        Some('O') => (State::Ss3, [None, None]),
        _ => {
            let (state, [_, passed]) = opened(event);
            (state, [Some(Event::Key(esc)), passed])
        }
    }
}

/// Where an event within a control string leads: all of it is swallowed.
fn within(event: &Event) -> State {
    let Some(key) = pressed(event) else {
        return State::String;
    };
    let ends = match key.code {
        KeyCode::Char('\\') => key.modifiers.contains(KeyModifiers::ALT),
        KeyCode::Char('g') => key.modifiers.contains(KeyModifiers::CONTROL),
        KeyCode::Char(STRING_TERMINATOR) => true,
        KeyCode::Esc => return State::StringEnd,
        _ => false,
    };
    if ends { State::Open } else { State::String }
}

/// Where an event within the sequence of a key leads.
fn csi(mut parameters: String, event: &Event) -> State {
    match plain(event) {
        // Parameters and what stands between them and the last letter (ECMA-48, 5.4).
        Some(letter @ '\u{20}'..='\u{3f}') if parameters.len() < LONGEST_CSI => {
            parameters.push(letter);
            State::Csi(parameters)
        }
        // What is pasted is told as keys, and nothing tells its end but silence.
        Some('~') if parameters == PASTE => State::String,
        _ => State::Open,
    }
}

/// More parameters than the sequence of any key has.
const LONGEST_CSI: usize = 32;

/// ST as one character of Unicode.
const STRING_TERMINATOR: char = '\u{9c}';

/// Whether a key is what crossterm tells of the beginning of a control string, in
/// its form of two bytes or as one character of Unicode.
fn begins_string(key: &KeyEvent) -> bool {
    match key.code {
        KeyCode::Char('_' | 'P' | ']' | '^' | 'X') => key.modifiers.contains(KeyModifiers::ALT),
        KeyCode::Char(letter) => {
            matches!(letter, '\u{90}' | '\u{98}' | '\u{9d}' | '\u{9e}' | '\u{9f}')
        }
        _ => false,
    }
}

/// The key that was pressed.
fn pressed(event: &Event) -> Option<&KeyEvent> {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => Some(key),
        _ => None,
    }
}

/// The character of a key without Ctrl and Alt.
fn plain(event: &Event) -> Option<char> {
    let held = KeyModifiers::CONTROL | KeyModifiers::ALT;
    let key = pressed(event).filter(|key| !key.modifiers.intersects(held))?;
    key.code.as_char()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A terminal with its own clock: what comes at which millisecond.
    struct Terminal {
        filter: ReplyFilter,
        start: Instant,
        now: Duration,
        told: String,
    }

    impl Terminal {
        fn new() -> Self {
            Self {
                filter: ReplyFilter::default(),
                start: Instant::now(),
                now: Duration::ZERO,
                told: String::new(),
            }
        }

        /// Lets time pass as the listener does: silence is told when it is due.
        fn wait(&mut self, millis: u64) {
            let due = self.filter.rest(self.start + self.now);
            self.now += Duration::from_millis(millis);
            if due.is_some_and(|due| due <= Duration::from_millis(millis)) {
                let esc = self.filter.silence();
                self.tell([None, esc]);
            }
        }

        fn event(&mut self, event: Event) {
            let passed = self.filter.take(event, self.start + self.now);
            self.tell(passed);
        }

        fn tell(&mut self, passed: [Option<Event>; 2]) {
            for event in passed.into_iter().flatten() {
                match event {
                    Event::Key(key) => match key.code {
                        KeyCode::Char(letter) => self.told.push(letter),
                        KeyCode::Esc => self.told.push('␛'),
                        _ => self.told.push('·'),
                    },
                    Event::Paste(text) => self.told.push_str(&text),
                    _ => self.told.push('#'),
                }
            }
        }

        /// Bytes that come in one read, told as crossterm 0.29 tells them.
        fn read(&mut self, bytes: &str) {
            let mut letters = bytes.chars().peekable();
            while let Some(letter) = letters.next() {
                let key = |code, modifiers| Event::Key(KeyEvent::new(code, modifiers));
                let event = match letter {
                    '\u{1b}' => match letters.next() {
                        Some(letter) => key(KeyCode::Char(letter), KeyModifiers::ALT),
                        None => key(KeyCode::Esc, KeyModifiers::NONE),
                    },
                    '\u{7}' => key(KeyCode::Char('g'), KeyModifiers::CONTROL),
                    '\r' => key(KeyCode::Enter, KeyModifiers::NONE),
                    other => key(KeyCode::Char(other), KeyModifiers::NONE),
                };
                self.event(event);
            }
        }
    }

    /// What is told as keys of pieces that come so many milliseconds apart.
    fn told(pieces: &[&str], gap: u64) -> String {
        let mut terminal = Terminal::new();
        for piece in pieces {
            terminal.read(piece);
            terminal.wait(gap);
        }
        terminal.wait(1000);
        terminal.told
    }

    const STRINGS: [&str; 7] = [
        "\u{1b}_Gi=31;OK\u{1b}\\",
        "\u{1b}P1$rq\u{1b}\\",
        "\u{1b}]11;rgb:0000/0000/0000\u{7}",
        "\u{1b}^q\r\u{1b}\\",
        "\u{1b}Xq\u{7}",
        "\u{9f}Gq\u{9c}",
        "\u{9d}4;q\u{7}",
    ];

    #[test]
    fn a_string_is_swallowed_whole_and_cut_anywhere() {
        for string in STRINGS {
            assert_eq!(told(&[string, "a"], 0), "a", "{string:?}");
            for at in (1..string.len()).filter(|&at| string.is_char_boundary(at)) {
                let (one, other) = string.split_at(at);
                assert_eq!(told(&[one, other, "a"], 49), "a", "{one:?} {other:?}");
            }
            let letters: Vec<String> = string.chars().map(String::from).collect();
            let mut letters: Vec<&str> = letters.iter().map(String::as_str).collect();
            letters.push("a");
            assert_eq!(told(&letters, 49), "a", "{string:?}, letter by letter");
        }
    }

    #[test]
    fn silence_ends_a_string_that_has_no_end() {
        for string in ["\u{1b}_G", "\u{1b}P", "\u{1b}]1\u{1b}", "\u{9f}"] {
            assert_eq!(told(&[string, "a"], 50), "a", "{string:?}");
            assert_eq!(told(&[string, "a"], 49), "", "{string:?} goes on");
        }
    }

    #[test]
    fn an_esc_is_told_after_silence_or_before_the_next_key() {
        let mut terminal = Terminal::new();
        terminal.read("\u{1b}");
        terminal.wait(49);
        assert_eq!(terminal.told, "");
        terminal.wait(1);
        assert_eq!(terminal.told, "␛");
        assert_eq!(told(&["\u{1b}", "a"], 10), "␛a");
        assert_eq!(told(&["\u{1b}", "\u{1b}", "a"], 10), "␛␛a");
        assert_eq!(told(&["\u{1b}", STRINGS[0], "a"], 10), "␛a");
        assert_eq!(told(&["\u{1b}", "P"], 50), "␛P", "two keys, one by one");
    }

    #[test]
    fn a_key_cut_behind_its_esc_is_lost_and_is_no_other_key() {
        for rest in ["[C", "[1;2C", "[6~", "[<0;10;5M", "OC"] {
            assert_eq!(told(&["\u{1b}", rest, "a"], 10), "a", "{rest:?}");
        }
        let mut terminal = Terminal::new();
        for (piece, gap) in [("\u{1b}", 10), ("[200~q\r", 10), ("?", 50), ("a", 0)] {
            terminal.read(piece);
            terminal.wait(gap);
        }
        assert_eq!(terminal.told, "a", "a paste lasts until silence");
        let endless = "0".repeat(LONGEST_CSI + 1);
        assert_eq!(told(&["\u{1b}", "[", &endless, "a"], 10), "a");
    }

    #[test]
    fn what_is_no_string_passes_as_it_is() {
        assert_eq!(told(&["q\r?", "\u{1b}q", "\u{7}\u{1b}\\"], 10), "q·?qg\\");
        let mut terminal = Terminal::new();
        terminal.event(Event::Paste("\u{1b}_P".to_owned()));
        assert_eq!(terminal.told, "\u{1b}_P");
        terminal.read("\u{1b}_");
        terminal.event(Event::Resize(80, 24));
        assert_eq!(terminal.told, "\u{1b}_P#", "a size comes beside a string");
        let rest = terminal.filter.rest(terminal.start + terminal.now);
        assert_eq!(rest, Some(SILENCE));
        assert_eq!(ReplyFilter::default().rest(terminal.start), None);
    }
}
