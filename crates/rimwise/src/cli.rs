//! The command line: arguments in, text, JSON or CSV out.

mod args;
mod check;
mod compare;
mod draw;
mod fit_map;
mod folders;
mod inputs;
mod manual;
mod open;
mod otherwise;
mod rank;
mod report;
mod screen;
mod workup;

use anyhow::Result;
use args::{Arguments, Command};
use clap::Parser;
use inputs::BadInput;
use std::io::{self, Write};
use std::process::ExitCode;

/// Exit code where the program failed.
const FAILED: u8 = 1;
/// Exit code of a bad call or a bad file.
const BAD_INPUT: u8 = 2;

/// Runs the program: 0 done, also when nothing fits; 1 it failed; 2 bad input.
pub(crate) fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help goes to a pipe as well: one that closes early is no error.
            let _ = error.print();
            return ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(BAD_INPUT));
        }
    };
    let mut out = io::BufWriter::new(io::stdout());
    let done = dispatch(arguments, &mut out).and_then(|()| Ok(out.flush()?));
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) if is_closed_pipe(&error) => ExitCode::SUCCESS,
        Err(error) => {
            let bad_input = error.is::<BadInput>();
            // Every file's text in it was made visible where the message was made.
            let _ = writeln!(io::stderr(), "rimwise: {error:#}");
            ExitCode::from(if bad_input { BAD_INPUT } else { FAILED })
        }
    }
}

fn dispatch(arguments: Arguments, out: &mut dyn Write) -> Result<()> {
    match arguments.command {
        None => open::run(arguments, out),
        Some(Command::Rank(asked)) => rank::run(&asked, out),
        Some(Command::Compare(asked)) => compare::run(&asked, out),
        Some(Command::Draw(asked)) => draw::run(&asked, out),
        Some(Command::FitMap(asked)) => fit_map::run(&asked, out),
        Some(Command::Workup(asked)) => workup::run(&asked, out),
        Some(Command::Check(asked)) => check::run(&asked, out),
        Some(Command::Manual(asked)) => manual::run(&asked, out),
        Some(Command::Completions(asked)) => manual::completions(&asked, out),
    }
}

/// Whether the reader of the output went away: `rimwise rank … | head`.
fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error.chain().any(|cause| {
        cause
            .downcast_ref::<io::Error>()
            .is_some_and(|cause| cause.kind() == io::ErrorKind::BrokenPipe)
    })
}
