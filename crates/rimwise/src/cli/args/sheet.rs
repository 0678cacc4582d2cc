//! What `rimwise sheet` is asked.

use super::{Against, Common, DRAWS, DrawLeft, default_threads};
use clap::{Args, ValueEnum};
use sizing::Draws;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct SheetArguments {
    /// Case files, or names of shipped scenarios; or one lesson, with its answers on
    /// the second page
    #[arg(value_name = "CASE", required = true)]
    pub(in crate::cli) cases: Vec<PathBuf>,
    #[command(flatten)]
    pub(in crate::cli) against: Against,
    /// A size to be drawn, as SHAPE/SIZE, one to four; none: the first of
    /// the ranking and the first of another shape. With several cases none may be named
    #[arg(long = "size", value_name = "SHAPE/SIZE")]
    pub(in crate::cli) sizes: Vec<String>,
    /// What is written; none: by the ending of --out, else text
    #[arg(long, value_enum)]
    pub(in crate::cli) format: Option<SheetFormat>,
    /// The paper
    #[arg(long, value_enum, default_value_t = SheetPaper::A4)]
    pub(in crate::cli) paper: SheetPaper,
    /// Which ventricle lies on the left of a section
    #[arg(long, value_enum, default_value_t = DrawLeft::Right)]
    pub(in crate::cli) left: DrawLeft,
    /// The file to be written; none: standard output
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) out: Option<PathBuf>,
    /// An earlier state of the case: a line on the sheet says in how much it differs
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) since: Option<PathBuf>,
    /// Random draws, eight times a power of two; 0: values as read alone
    #[arg(long, default_value_t = DRAWS)]
    pub(in crate::cli) draws: usize,
    /// Seed of the draws
    #[arg(long, default_value_t = Draws::SEED)]
    pub(in crate::cli) seed: u64,
    /// Threads side by side; none of the figures depends on it
    #[arg(long, value_name = "N", default_value_t = default_threads(), value_parser = clap::value_parser!(u8).range(1..))]
    pub(in crate::cli) threads: u8,
    /// Leave out what was seen in the trials of the case
    #[arg(long)]
    pub(in crate::cli) before: bool,
}

impl SheetArguments {
    /// What it shares with ranking, for one of its cases.
    pub(in crate::cli) fn common(&self, case: PathBuf) -> Common {
        Common {
            case,
            against: self.against.clone(),
            draws: self.draws,
            seed: self.seed,
            threads: self.threads,
            before: self.before,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum SheetFormat {
    /// One page a case, tagged for screen readers
    Pdf,
    /// One file that opens anywhere, runs nothing and prints the same
    Html,
    /// Plain text, 80 columns wide, for a screen reader or a mail
    Text,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum SheetPaper {
    /// ISO A4
    A4,
    /// North American Letter
    Letter,
}
