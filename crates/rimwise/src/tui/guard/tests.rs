//! The terminal is given back before a panic is told, seen in a pseudo-terminal: a test
//! that panics there runs in a process of its own, so no product code has to panic.

use super::Guard;
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::env;
use std::io::Read;
use std::num::NonZeroU16;

/// The variable that asks the first test below to panic.
const ASKED: &str = "RIMWISE_TEST_PANICS";
const TOLD: &str = "provoked for a test";
/// One word: the backend leaves out a blank that stands there already.
const FRAME: &str = "drawn";

/// Run by the test below in a pseudo-terminal; in any other run it passes at once.
#[test]
fn a_panic_in_the_midst_of_a_frame() {
    if env::var_os(ASKED).is_none() {
        return;
    }
    let mut guard = Guard::enter().unwrap();
    let frame = guard.draw(|frame| {
        frame.render_widget(FRAME, frame.area());
        Vec::new()
    });
    frame.unwrap();
    panic!("{TOLD}");
}

#[test]
fn a_panic_gives_the_terminal_back_before_it_is_told() {
    let (rows, cols) = (24, 80);
    let size = PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    };
    let pair = native_pty_system().openpty(size).unwrap();
    let mut command = CommandBuilder::new(env::current_exe().unwrap());
    // On one thread a test runs on the main one, as the program does.
    command.args([
        "--exact",
        "tui::guard::tests::a_panic_in_the_midst_of_a_frame",
        "--nocapture",
        "--test-threads=1",
    ]);
    command.env("TERM", "xterm-256color");
    command.env(ASKED, "1");
    command.env_remove("RUST_BACKTRACE");
    let mut child = pair.slave.spawn_command(command).unwrap();
    drop(pair.slave);
    let mut written = Vec::new();
    let mut output = pair.master.try_clone_reader().unwrap();
    let mut buffer = [0; 8192];
    // A pseudo-terminal that nobody holds any more ends in an error.
    while let Ok(count @ 1..) = output.read(&mut buffer) {
        written.extend_from_slice(&buffer[..count]);
    }
    assert!(!child.wait().unwrap().success());

    let text = String::from_utf8_lossy(&written);
    assert!(text.contains(FRAME), "{text}");
    for (on, off) in [
        ("\u{1b}[?25l", "\u{1b}[?25h"),
        ("\u{1b}[?1049h", "\u{1b}[?1049l"),
        ("\u{1b}[?2004h", "\u{1b}[?2004l"),
    ] {
        assert!(text.rfind(on) < text.find(off), "{off:?} is not the last");
        assert!(
            text.find(off) < text.find(TOLD),
            "{off:?} follows the panic"
        );
    }
    // Leaving the alternate screen a second time would put the cursor back over the
    // message, and the prompt that follows would hide it.
    assert_eq!(text.matches("\u{1b}[?1049l").count(), 1, "{text}");
    let cells = |count| NonZeroU16::new(count).unwrap();
    let mut screen = vt100::Parser::new(cells(rows), cells(cols), 0);
    screen.process(&written);
    assert!(!screen.screen().alternate_screen() && !screen.screen().hide_cursor());
    assert!(screen.screen().contents().contains(TOLD));
    // Raw mode would not bring the cursor back to the first column.
    let (row, column) = screen.screen().cursor_position();
    assert!(row > 0 && column == 0, "row {row}, column {column}");
}
