//! What `rimwise lesson` is asked.

use super::{Against, ScreenArguments};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct LessonArguments {
    /// A lesson file, or the name of a lesson that came with the program
    #[arg(value_name = "LESSON")]
    pub(in crate::cli) lesson: Option<PathBuf>,
    #[command(flatten)]
    pub(in crate::cli) against: Against,
    #[command(flatten)]
    pub(in crate::cli) screen: ScreenArguments,
}
