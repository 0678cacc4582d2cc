//! What `rimwise lookback` is asked.

use super::default_threads;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct LookBackArguments {
    /// A folder of case files: every *.ron in it, none below it
    #[arg(value_name = "FOLDER")]
    pub(in crate::cli) folder: PathBuf,
    /// The rules by whose laws things are seen; none: those that came with the program
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) rules: Option<PathBuf>,
    /// How it is written
    #[arg(long, value_enum, default_value_t = LookBackFormat::Text)]
    pub(in crate::cli) format: LookBackFormat,
    /// Threads side by side; none of the figures depends on it
    #[arg(long, value_name = "N", default_value_t = default_threads(), value_parser = clap::value_parser!(u8).range(1..))]
    pub(in crate::cli) threads: u8,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum LookBackFormat {
    /// For people, 80 columns wide
    Text,
    /// For programs
    Json,
    /// A table, one line for each thing that was foretold or read
    Csv,
    /// A picture for the wall, A4 across
    Svg,
}
