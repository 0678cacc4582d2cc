//! The command line: arguments in, text, JSON or CSV out.

mod args;
mod check;
mod compare;
mod criteria;
mod draw;
mod fit_map;
mod folders;
mod growth;
mod inputs;
mod lesson;
mod look_back;
mod manual;
mod open;
mod output;
mod rank;
mod report;
mod screen;
mod sheet;
mod trials;
mod workup;

use crate::ascii::{self, AsciiWriter, ascii};
use anyhow::Result;
use args::{Arguments, Command, Format, LookBackFormat, ManualFormat, PageFormat, TextFormat};
use clap::FromArgMatches;
use inputs::BadInput;
use output::Output;
use std::io::{self, Write};
use std::process::ExitCode;

/// Exit code where the program failed.
const FAILED: u8 = 1;
/// Exit code of a bad call or a bad file.
const BAD_INPUT: u8 = 2;

/// Runs the program: 0 done, also when nothing fits; 1 it failed; 2 bad input.
pub(crate) fn run() -> ExitCode {
    let matches = args::parser().try_get_matches();
    let arguments = match matches.and_then(|found| Arguments::from_arg_matches(&found)) {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help goes to a pipe as well: one that closes early is no error.
            let _ = tell(&error);
            return ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(BAD_INPUT));
        }
    };
    let mut out = io::BufWriter::new(Output::new(io::stdout()));
    let done = write(arguments, &mut out).and_then(|()| Ok(out.flush()?));
    match done {
        Ok(()) => ExitCode::SUCCESS,
        // `rimwise rank … | head` has read what it wanted.
        Err(_) if out.get_ref().is_closed() => ExitCode::SUCCESS,
        Err(error) => {
            let bad_input = error.is::<BadInput>();
            complain(&error);
            ExitCode::from(if bad_input { BAD_INPUT } else { FAILED })
        }
    }
}

/// Says what is wrong.
fn complain(error: &anyhow::Error) {
    // Every file's text in it was made visible where the message was made.
    let mut says = format!("rimwise: {error:#}");
    if ascii::is_asked_for() {
        says = ascii(&says);
    }
    // Where nobody can be told nobody is.
    let _ = writeln!(io::stderr(), "{says}");
}

/// Says what clap has to say: help, or what is wrong with a call.
fn tell(error: &clap::Error) -> io::Result<()> {
    if !ascii::is_asked_for() {
        return error.print();
    }
    let says = ascii(&error.render().to_string());
    if error.use_stderr() {
        io::stderr().write_all(says.as_bytes())
    } else {
        io::stdout().write_all(says.as_bytes())
    }
}

/// Does what a call asks: what is for people in the letters they can be shown, what
/// is for programs the same everywhere.
fn write(arguments: Arguments, out: &mut dyn Write) -> Result<()> {
    if !ascii::is_asked_for() || is_for_programs(arguments.command.as_ref()) {
        return dispatch(arguments, out);
    }
    let mut out = AsciiWriter::new(out);
    dispatch(arguments, &mut out)?;
    Ok(out.flush()?)
}

/// Whether what a call writes is read by programs.
fn is_for_programs(command: Option<&Command>) -> bool {
    match command {
        Some(Command::Rank(asked)) => asked.format != Format::Table,
        Some(Command::FitMap(asked)) => asked.format != Format::Table,
        Some(Command::Criteria(asked)) => asked.format != TextFormat::Text,
        Some(Command::Trials(asked)) => asked.format != TextFormat::Text,
        Some(Command::Growth(asked)) => asked.format != TextFormat::Text,
        Some(Command::LookBack(asked)) => asked.format != LookBackFormat::Text,
        Some(Command::Workup(asked)) => asked.format != PageFormat::Table,
        Some(Command::Manual(asked)) => asked.format != ManualFormat::Man,
        Some(Command::Completions(_) | Command::Draw(_)) => true,
        Some(Command::Sheet(asked)) => asked
            .format()
            .is_ok_and(|format| format != paper::Format::Text),
        Some(Command::Compare(_) | Command::Check(_) | Command::Lesson(_)) | None => false,
    }
}

fn dispatch(arguments: Arguments, out: &mut dyn Write) -> Result<()> {
    match arguments.command {
        None => open::run(arguments, out),
        Some(Command::Rank(asked)) => rank::run(&asked, out),
        Some(Command::Compare(asked)) => compare::run(&asked, out),
        Some(Command::Criteria(asked)) => criteria::run(&asked, out),
        Some(Command::Draw(asked)) => draw::run(&asked, out),
        Some(Command::Sheet(asked)) => sheet::run(&asked, out),
        Some(Command::Trials(asked)) => trials::run(&asked, out),
        Some(Command::Growth(asked)) => growth::run(&asked, out),
        Some(Command::LookBack(asked)) => look_back::run(&asked, out),
        Some(Command::FitMap(asked)) => fit_map::run(&asked, out),
        Some(Command::Workup(asked)) => workup::run(&asked, out),
        Some(Command::Lesson(asked)) => lesson::run(&asked, out),
        Some(Command::Check(asked)) => check::run(&asked, out),
        Some(Command::Manual(asked)) => manual::run(&asked, out),
        Some(Command::Completions(asked)) => manual::completions(&asked, out),
    }
}
