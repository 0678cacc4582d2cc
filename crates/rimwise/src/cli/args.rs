use crate::caution::CAUTION;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// How wide output for people is.
pub(super) const WIDTH: usize = 80;

/// Draws where a call names none.
const DRAWS: usize = 4096;
/// Seed where a call names none.
const SEED: u64 = 1;
/// Rows of a table where a call names none.
const TOP: usize = 12;

/// Plan the catheter closure of a defect in the wall of the heart, with its doubt.
#[derive(Debug, Parser)]
#[command(
    version,
    after_help = CAUTION,
    after_long_help = CAUTION,
    max_term_width = WIDTH,
    args_conflicts_with_subcommands = true
)]
pub(super) struct Arguments {
    /// A case file, or the name of a shipped scenario; none: the demonstration
    pub(super) case: Option<PathBuf>,
    #[command(flatten)]
    pub(super) against: Against,
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Rank every size of the catalogue for a case
    #[command(after_help = CAUTION)]
    Rank(RankArguments),
    /// Lay two to four sizes side by side for a case
    #[command(after_help = CAUTION)]
    Compare(CompareArguments),
    /// Check case, catalogue and house-rule files
    #[command(after_help = CAUTION)]
    Check(CheckArguments),
}

/// What a case is held against.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct Against {
    /// A catalogue file in place of the shipped one; may be given more than once
    #[arg(long, value_name = "FILE")]
    pub(super) catalog: Vec<PathBuf>,
    /// A house-rule file in place of the shipped one
    #[arg(long, value_name = "FILE")]
    pub(super) rules: Option<PathBuf>,
}

/// What ranking and comparing share.
#[derive(Clone, Debug, Args)]
pub(super) struct Common {
    /// A case file, or the name of a shipped scenario
    pub(super) case: PathBuf,
    #[command(flatten)]
    pub(super) against: Against,
    /// Random draws, eight times a power of two; 0: values as read alone
    #[arg(long, default_value_t = DRAWS)]
    pub(super) draws: usize,
    /// Seed of the draws
    #[arg(long, default_value_t = SEED)]
    pub(super) seed: u64,
    /// Threads side by side; none of the figures depends on it
    #[arg(long, value_name = "N", default_value_t = default_threads(), value_parser = clap::value_parser!(u8).range(1..))]
    pub(super) threads: u8,
}

#[derive(Debug, Args)]
pub(super) struct RankArguments {
    #[command(flatten)]
    pub(super) common: Common,
    /// How the list is written
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub(super) format: Format,
    /// Rows of the table; 0: all
    #[arg(long, value_name = "N", default_value_t = TOP)]
    pub(super) top: usize,
}

#[derive(Debug, Args)]
pub(super) struct CompareArguments {
    #[command(flatten)]
    pub(super) common: Common,
    /// Two to four sizes, each as SHAPE/SIZE
    #[arg(value_name = "SHAPE/SIZE", required = true, num_args = 2..=4)]
    pub(super) sizes: Vec<String>,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// Files to check
    #[arg(value_name = "FILE", required = true)]
    pub(super) files: Vec<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people, 80 columns wide
    Table,
    /// For programs, every check of every size
    Json,
    /// For spreadsheets, one line a size
    Csv,
}

fn default_threads() -> u8 {
    std::thread::available_parallelism()
        .ok()
        .and_then(|count| u8::try_from(count.get()).ok())
        .unwrap_or(1)
}

impl RankArguments {
    /// What is asked when a case is opened without a word more.
    pub(super) fn of(case: PathBuf, against: Against) -> Self {
        Self {
            common: Common {
                case,
                against,
                draws: DRAWS,
                seed: SEED,
                threads: default_threads(),
            },
            format: Format::Table,
            top: TOP,
        }
    }
}
