//! A pseudo-terminal with the program in it.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::PathBuf;
use std::process::Command;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// How long something may take on a machine that has much else to do.
const PATIENCE: Duration = Duration::from_secs(20);

/// How long nothing is written before nothing is expected to come.
/// Longer than work goes on before the page says so.
const QUIET: Duration = Duration::from_millis(220);

/// A program as it is played: keys go in, bytes come out, a screen is kept.
pub(crate) struct Played {
    child: Box<dyn Child + Send + Sync>,
    /// The terminal and its keyboard, until it is closed.
    master: Option<Box<dyn MasterPty + Send>>,
    keys: Option<Box<dyn Write + Send>>,
    reader: Option<JoinHandle<()>>,
    bytes: Receiver<Vec<u8>>,
    written: Vec<u8>,
    screen: vt100::Parser,
    _own: Own,
}

/// An empty folder where the user's own files would be, gone with it.
struct Own(PathBuf);

impl Own {
    fn new() -> Self {
        static NUMBER: AtomicU64 = AtomicU64::new(0);
        let number = NUMBER.fetch_add(1, Ordering::Relaxed);
        let name = format!("rimwise-own-{}-{number}", std::process::id());
        Self(std::env::temp_dir().join(name))
    }
}

impl Drop for Own {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn pty_size((cols, rows): (u16, u16)) -> PtySize {
    PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    }
}

fn cells(count: u16) -> NonZeroU16 {
    NonZeroU16::new(count).expect("a terminal has cells")
}

/// Whether a row holds texts, one behind the other.
fn holds(row: &str, texts: &[&str]) -> bool {
    let mut rest = Some(row);
    for text in texts {
        rest = rest
            .and_then(|rest| rest.split_once(text))
            .map(|(_, behind)| behind);
    }
    rest.is_some()
}

impl Played {
    /// Starts the program with arguments and variables in a terminal of so many
    /// columns and rows.
    pub(crate) fn start(arguments: &[&str], variables: &[(&str, &str)], size: (u16, u16)) -> Self {
        Self::start_with(arguments, variables, size, true)
    }

    /// The same in a terminal that does not control the program: no signal tells it that
    /// the terminal has gone.
    pub(crate) fn start_without_signals(arguments: &[&str], size: (u16, u16)) -> Self {
        Self::start_with(arguments, &[], size, false)
    }

    fn start_with(
        arguments: &[&str],
        variables: &[(&str, &str)],
        size: (u16, u16),
        controls: bool,
    ) -> Self {
        let pair = native_pty_system()
            .openpty(pty_size(size))
            .expect("a pseudo-terminal");
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_rimwise"));
        command.args(arguments);
        command.set_controlling_tty(controls);
        command.env("TERM", "xterm-256color");
        command.env("LC_ALL", "C.UTF-8");
        for inherited in ["NO_COLOR", "RUST_BACKTRACE"] {
            command.env_remove(inherited);
        }
        // In the home, or where there are no cases.
        let home = variables
            .iter()
            .find(|it| it.0 == "HOME" && !it.1.is_empty());
        command.cwd(home.map_or(env!("CARGO_MANIFEST_DIR"), |(_, home)| home));
        // The user's own files are another matter.
        let own = Own::new();
        for place in ["XDG_CONFIG_HOME", "XDG_STATE_HOME"] {
            command.env(place, &own.0);
        }
        for (name, value) in variables {
            command.env(name, value);
        }
        let child = pair
            .slave
            .spawn_command(command)
            .expect("the program starts");
        let mut output = pair.master.try_clone_reader().expect("its output");
        let (sender, bytes) = channel();
        let reader = thread::spawn(move || {
            let mut buffer = [0; 8192];
            while let Ok(count @ 1..) = output.read(&mut buffer) {
                if sender.send(buffer[..count].to_vec()).is_err() {
                    break;
                }
            }
        });
        Self {
            child,
            keys: Some(pair.master.take_writer().expect("its keyboard")),
            master: Some(pair.master),
            reader: Some(reader),
            bytes,
            written: Vec::new(),
            _own: own,
            screen: vt100::Parser::new(cells(size.1), cells(size.0), 0),
        }
    }

    /// Presses keys, as a terminal sends them.
    pub(crate) fn send(&mut self, keys: &str) {
        let keyboard = self.keys.as_mut().expect("a terminal");
        keyboard.write_all(keys.as_bytes()).expect("it reads keys");
        keyboard.flush().expect("it reads keys");
    }

    /// Pastes a text, as a terminal tells a paste from keys.
    pub(crate) fn paste(&mut self, text: &str) {
        self.send(&format!("\u{1b}[200~{text}\u{1b}[201~"));
    }

    /// Gives the terminal another size.
    pub(crate) fn resize(&mut self, size: (u16, u16)) {
        let master = self.master.as_ref().expect("a terminal");
        master.resize(pty_size(size)).expect("any size");
        self.screen
            .screen_mut()
            .set_size(cells(size.1), cells(size.0));
    }

    /// Sends the program a signal by its name.
    pub(crate) fn signal(&self, name: &str) {
        let id = self.child.process_id().expect("it runs").to_string();
        let sent = Command::new("kill")
            .args([&format!("-{name}"), &id])
            .status();
        assert!(sent.expect("kill").success());
    }

    /// Waits until a text stands on the screen.
    #[track_caller]
    pub(crate) fn wait_for(&mut self, text: &str) {
        self.wait_for_row(&[text]);
    }

    /// Waits until texts stand in one row, in this order, at the end of a frame.
    #[track_caller]
    pub(crate) fn wait_for_row(&mut self, texts: &[&str]) {
        let end = Instant::now() + PATIENCE;
        while self.is_within_frame() || !self.text().lines().any(|row| holds(row, texts)) {
            assert!(
                self.take_until(end),
                "never saw {texts:?}:\n{}",
                self.text()
            );
        }
    }

    /// Waits until the program was stopped, as a shell stops a job.
    #[track_caller]
    pub(crate) fn wait_for_stop(&self) {
        let id = self.child.process_id().expect("it runs").to_string();
        let is_stopped = || {
            let told = Command::new("ps").args(["-o", "stat=", "-p", &id]).output();
            told.expect("ps").stdout.trim_ascii().starts_with(b"T")
        };
        let end = Instant::now() + PATIENCE;
        while !is_stopped() {
            assert!(Instant::now() < end, "it does not stop");
            thread::sleep(Duration::from_millis(10));
        }
    }

    /// Waits until something holds of the screen.
    #[track_caller]
    pub(crate) fn wait_until(&mut self, what: &str, holds: impl Fn(&vt100::Screen) -> bool) {
        let end = Instant::now() + PATIENCE;
        while !holds(self.screen()) {
            assert!(self.take_until(end), "never saw {what}:\n{}", self.text());
        }
    }

    /// Waits until nothing more is written for a while.
    pub(crate) fn wait_for_quiet(&mut self) {
        while self.take_until(Instant::now() + QUIET) {}
    }

    /// Whether the rest of a frame is still to come: until then something of the
    /// frame before may stand beside it.
    fn is_within_frame(&self) -> bool {
        let last = |mark: &[u8]| self.written.windows(mark.len()).rposition(|at| at == mark);
        last(b"\x1b[?2026h") > last(b"\x1b[?2026l")
    }

    /// Waits for the end of the program; its exit code.
    #[track_caller]
    pub(crate) fn exit(&mut self) -> u32 {
        let end = Instant::now() + PATIENCE;
        let status = loop {
            if let Some(status) = self.child.try_wait().expect("a child") {
                break status;
            }
            assert!(Instant::now() < end, "it does not end:\n{}", self.text());
            self.take_until((Instant::now() + Duration::from_millis(10)).min(end));
        };
        // What it wrote last may still be on its way.
        while self.take_until((Instant::now() + Duration::from_millis(200)).min(end)) {}
        status.exit_code()
    }

    /// The number of its process.
    pub(crate) fn process(&self) -> u32 {
        self.child.process_id().expect("it runs")
    }

    /// Closes the terminal as its window is closed; the exit code of the program.
    #[track_caller]
    pub(crate) fn close(&mut self) -> u32 {
        // Whoever reads the output holds the terminal open until something comes.
        (_, self.bytes) = channel();
        self.send("?");
        let reader = self.reader.take().expect("a terminal");
        reader.join().expect("it reads");
        (self.keys, self.master) = (None, None);
        self.exit()
    }

    /// Takes what comes next; `false` where nothing came in time.
    fn take_until(&mut self, end: Instant) -> bool {
        let time = end.saturating_duration_since(Instant::now());
        let Ok(bytes) = self.bytes.recv_timeout(time) else {
            return false;
        };
        self.screen.process(&bytes);
        self.written.extend(bytes);
        true
    }

    /// The screen.
    pub(crate) fn screen(&self) -> &vt100::Screen {
        self.screen.screen()
    }

    /// What stands on the screen.
    pub(crate) fn text(&self) -> String {
        self.screen().contents()
    }

    /// Everything the program has written.
    pub(crate) fn written(&self) -> String {
        String::from_utf8_lossy(&self.written).into_owned()
    }

    /// Whether the terminal hands input over line by line and shows it, as a shell
    /// wants it.
    pub(crate) fn is_line_by_line(&self) -> bool {
        let master = self.master.as_ref().expect("a terminal");
        let path = master.tty_name().expect("a name");
        let told = Command::new("stty")
            .arg("-F")
            .arg(path)
            .arg("-a")
            .output()
            .expect("stty");
        let told = String::from_utf8_lossy(&told.stdout).into_owned();
        let has = |word: &str| told.split([' ', ';', '\n']).any(|one| one == word);
        has("icanon") && has("echo")
    }

    /// The parameters of every sequence that sets a colour: 30 to 37 and 90 to 97
    /// before, 40 to 47 and 100 to 107 behind the text, 38 and 48 by number.
    pub(crate) fn colours(&self) -> Vec<String> {
        let written = self.written();
        let sequences = written.split("\u{1b}[").skip(1).filter_map(|rest| {
            let end = rest.find(|letter: char| !letter.is_ascii_digit() && letter != ';')?;
            rest[end..].starts_with('m').then(|| rest[..end].to_owned())
        });
        let is_colour = |parameter: &str| {
            matches!(
                parameter.parse(),
                Ok(30..=38 | 40..=48 | 90..=97 | 100..=107)
            )
        };
        sequences
            .filter(|parameters| parameters.split(';').any(is_colour))
            .collect()
    }
}

impl Drop for Played {
    fn drop(&mut self) {
        // Only a test that failed leaves it running.
        let _ = self.child.kill();
    }
}
