//! Plan the catheter closure of a defect in the wall of the heart, with its doubt.

mod alike;
mod ascii;
mod cli;
mod digest;
mod environment;
mod otherwise;
mod text;
mod told;
mod tui;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run()
}
