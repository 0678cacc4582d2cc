mod command_list;
mod draw;
pub(super) mod examples;
mod lesson;
mod look_back;
mod sheet;

pub(super) use command_list::parser;
pub(super) use draw::{DrawArguments, DrawFormat, DrawGround, DrawLeft, DrawView};
pub(super) use lesson::LessonArguments;
pub(super) use look_back::{LookBackArguments, LookBackFormat};
pub(super) use sheet::{SheetArguments, SheetFormat, SheetPaper};

use crate::otherwise::MAP_DRAWS;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use measurement::Quantity;
use paper::CAUTION;
use session::{Palette, Pictures};
use sizing::Draws;
use std::ops::RangeInclusive;
use std::path::PathBuf;

/// How wide output for people is.
pub(super) const WIDTH: usize = 80;

/// Draws where a call names none.
const DRAWS: usize = 4096;
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
    /// Case files, or the name of a shipped scenario; none: the demonstration. Of
    /// several the first is shown, and ctrl-n and ctrl-p go to the next and the one
    /// before
    #[arg(value_name = "CASE")]
    pub(super) cases: Vec<PathBuf>,
    #[command(flatten)]
    pub(super) against: Against,
    #[command(flatten)]
    pub(super) screen: ScreenArguments,
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Rank every size of the catalogue for a case
    #[command(after_help = CAUTION)]
    Rank(RankArguments),
    /// Lay two to four sizes side by side for a case, or say in what two states of a
    /// case differ
    #[command(after_help = CAUTION, after_long_help = examples::help(examples::COMPARE))]
    Compare(CompareArguments),
    /// Show the release criteria of sizes, or write them into the case before the
    /// procedure
    #[command(after_help = CAUTION)]
    Criteria(CriteriaArguments),
    /// Show what was seen in the trials of a case, and what it changes
    #[command(after_help = CAUTION)]
    Trials(TrialsArguments),
    /// Show how a device stands once the child has grown
    #[command(after_help = CAUTION)]
    Growth(GrowthArguments),
    /// Look back over a folder of cases: what was foretold against what was seen, and how
    /// far readings were out
    #[command(name = "lookback", after_help = CAUTION)]
    LookBack(LookBackArguments),
    /// Map which waists and discs would fit, whether anyone makes them or not
    #[command(after_help = CAUTION)]
    FitMap(FitMapArguments),
    /// Draw one to four sizes in the heart of a case, to one scale, as a file
    #[command(after_help = CAUTION, after_long_help = examples::help(examples::DRAW))]
    Draw(DrawArguments),
    /// Print one page for the whole team: pictures, reasons, release criteria
    #[command(after_help = CAUTION, after_long_help = examples::help(examples::SHEET))]
    Sheet(SheetArguments),
    /// Show what bears on closing at all: shunt, load, resistance, published
    /// limits, what is not measured and what does not add up
    #[command(after_help = CAUTION)]
    Workup(WorkupArguments),
    /// Play a lesson that asks before it tells, on a made-up case; without a name, list
    /// the lessons
    #[command(after_help = CAUTION, after_long_help = examples::help(examples::LESSON))]
    Lesson(LessonArguments),
    /// Check cases, lessons, catalogues, your centre's rules and guidance
    #[command(after_help = CAUTION)]
    Check(CheckArguments),
    /// Print the manual: every call, every key of the screen, every file
    #[command(after_help = CAUTION)]
    Manual(ManualArguments),
    /// Print what a shell needs to complete calls of this program
    #[command(after_help = CAUTION)]
    Completions(CompletionsArguments),
}

#[derive(Debug, Args)]
pub(super) struct ManualArguments {
    /// How it is written
    #[arg(long, value_enum, default_value_t = ManualFormat::Man)]
    pub(super) format: ManualFormat,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ManualFormat {
    /// For `man`: rimwise manual > rimwise.1
    Man,
    /// The table of keys alone, in Markdown
    Keys,
}

#[derive(Debug, Args)]
pub(super) struct CompletionsArguments {
    /// The shell
    #[arg(value_enum)]
    pub(super) shell: clap_complete::Shell,
}

/// How the screen looks and which keys it has.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct ScreenArguments {
    /// Colours of the screen; `C` in it changes them
    #[arg(long, value_name = "COLOURS", value_parser = words(&Palette::ALL))]
    pub(super) theme: Option<String>,
    /// What pictures are made of; `D` in the screen changes it
    #[arg(
        long,
        alias = "marker",
        value_name = "KIND",
        value_parser = picture_kinds()
    )]
    pub(super) pictures: Option<Pictures>,
    /// A RON file with other keys, a map of commands to lists of keys; without it
    /// `rimwise/keys.ron` in the directory for settings, where there is one
    #[arg(long, value_name = "FILE")]
    pub(super) keys: Option<PathBuf>,
    /// Begin large and in few words, for a room; `P` in the screen changes it
    #[arg(long)]
    pub(super) present: bool,
    /// Leave the mouse to the terminal; `M` in the screen changes it
    #[arg(long)]
    pub(super) no_mouse: bool,
    /// Write what comes in to a new file, for a report of a fault: keys, sizes, the
    /// case's figures; no title, no reason, no path
    #[arg(long, value_name = "FILE")]
    pub(super) record: Option<PathBuf>,
    /// Every page as plain text, line after line, without a screen
    #[arg(long)]
    pub(super) plain: bool,
}

/// The words of a list, for the help and for what is accepted.
fn words<T>(all: &'static [(&'static str, T)]) -> PossibleValuesParser {
    PossibleValuesParser::new(all.iter().map(|(word, _)| *word))
}

/// The kinds of picture by their words, two of them by an older word as well.
fn picture_kinds() -> impl TypedValueParser<Value = Pictures> {
    const OLDER: [(&str, Pictures); 2] = [
        ("half-block", Pictures::Quadrants),
        ("octant", Pictures::Octants),
    ];
    let value = |(word, kind): (&'static str, Pictures)| {
        let older = OLDER.iter().filter(move |(_, one)| *one == kind);
        PossibleValue::new(word).aliases(older.map(|(older, _)| *older))
    };
    PossibleValuesParser::new(Pictures::ALL.map(value)).map(|said| {
        let mut all = Pictures::ALL.iter().chain(&OLDER);
        all.find(|(word, _)| *word == said)
            .map_or_else(Pictures::default, |(_, kind)| *kind)
    })
}

/// What a case is held against.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct Against {
    /// A catalogue file in place of the shipped one; may be given more than once, a
    /// later one is laid over those before. Without it `rimwise/shapes.ron` in the
    /// directory for settings, where there is one, is laid over the shipped one
    #[arg(long, value_name = "FILE")]
    pub(super) catalog: Vec<PathBuf>,
    /// A file of your centre's rules in place of the shipped one
    #[arg(long, value_name = "FILE")]
    pub(super) rules: Option<PathBuf>,
    /// A file of guidance in place of the shipped one
    #[arg(long, value_name = "FILE", alias = "limits")]
    pub(super) guidance: Option<PathBuf>,
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
    #[arg(long, default_value_t = Draws::SEED)]
    pub(super) seed: u64,
    /// Threads side by side; none of the figures depends on it
    #[arg(long, value_name = "N", default_value_t = default_threads(), value_parser = clap::value_parser!(u8).range(1..))]
    pub(super) threads: u8,
    /// Leave out what was seen in the trials of the case
    #[arg(long)]
    pub(super) before: bool,
}

#[derive(Debug, Args)]
pub(super) struct RankArguments {
    #[command(flatten)]
    pub(super) common: Common,
    /// Further cases, with --format csv or json: all are ranked side by side and
    /// written in the order of the call, in JSON one object a line. A case that cannot
    /// be used is named, the others are done, and the exit code is 2
    #[arg(value_name = "CASE")]
    pub(super) more: Vec<PathBuf>,
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
    /// Two to four sizes, each as SHAPE/SIZE or as lists name it: "narrow 5 x 2"
    #[arg(value_name = "SHAPE/SIZE", required_unless_present = "with", num_args = 2..=4)]
    pub(super) sizes: Vec<String>,
    /// A later state of the case: what changed in readings, answers, exceptions and
    /// verdicts
    #[arg(long, value_name = "FILE", conflicts_with = "sizes")]
    pub(super) with: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct CriteriaArguments {
    /// A case file, or the name of a shipped scenario
    pub(super) case: PathBuf,
    #[command(flatten)]
    pub(super) against: Against,
    /// Sizes, each as SHAPE/SIZE
    #[arg(value_name = "SHAPE/SIZE", required = true)]
    pub(super) sizes: Vec<String>,
    /// Write the rows into the case file; rows that stand there stay as they are
    #[arg(long)]
    pub(super) write: bool,
    /// How the criteria are written
    #[arg(long, value_enum, default_value_t = TextFormat::Text)]
    pub(super) format: TextFormat,
}

impl CriteriaArguments {
    /// What it shares with ranking; no draws are made.
    pub(super) fn common(&self) -> Common {
        Common {
            case: self.case.clone(),
            against: self.against.clone(),
            draws: 0,
            seed: Draws::SEED,
            threads: 1,
            before: true,
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct TrialsArguments {
    #[command(flatten)]
    pub(super) common: Common,
    /// How they are written
    #[arg(long, value_enum, default_value_t = TextFormat::Text)]
    pub(super) format: TextFormat,
    /// Rows of the list; 0: all
    #[arg(long, value_name = "N", default_value_t = TOP)]
    pub(super) top: usize,
}

#[derive(Debug, Args)]
pub(super) struct GrowthArguments {
    #[command(flatten)]
    pub(super) common: Common,
    /// The child's later weight in kg
    #[arg(long, value_name = "KG", value_parser = weight)]
    pub(super) weight: f64,
    /// The child's later height in cm
    #[arg(long, value_name = "CM", value_parser = height)]
    pub(super) height: f64,
    /// The size; none: the one that was released, or the first of the list
    #[arg(long, value_name = "SHAPE/SIZE")]
    pub(super) size: Option<String>,
    /// How it is written
    #[arg(long, value_enum, default_value_t = TextFormat::Text)]
    pub(super) format: TextFormat,
}

/// A weight, as a case takes it.
fn weight(text: &str) -> Result<f64, String> {
    of_quantity(text, Quantity::PATIENT_WEIGHT)
}

/// A height, as a case takes it.
fn height(text: &str) -> Result<f64, String> {
    of_quantity(text, Quantity::PATIENT_HEIGHT)
}

fn of_quantity(text: &str, quantity: Quantity) -> Result<f64, String> {
    let info = quantity.info();
    within(text, info.least..=info.most)
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum TextFormat {
    /// For people, 80 columns wide
    Text,
    /// For programs
    Json,
}

#[derive(Debug, Args)]
pub(super) struct FitMapArguments {
    /// A case file, or the name of a shipped scenario
    pub(super) case: PathBuf,
    #[command(flatten)]
    pub(super) against: Against,
    /// The size whose form the map is of; none: the one nearest to fitting
    #[arg(long, value_name = "SHAPE/SIZE")]
    pub(super) size: Option<String>,
    /// Length of the waist in mm; none: that of --size, or the one with most room
    #[arg(long, value_name = "MM", value_parser = length)]
    pub(super) length: Option<f64>,
    /// Thickness of both discs in mm; none: that of the form
    #[arg(long, value_name = "MM", value_parser = thickness)]
    pub(super) thickness: Option<f64>,
    /// From 0, stiff, to 1, as cloth; none: that of the form
    #[arg(long, value_name = "SHARE", value_parser = share)]
    pub(super) conformability: Option<f64>,
    /// Waists on the map, side by side
    #[arg(long, value_name = "N", default_value_t = 60, value_parser = clap::value_parser!(u16).range(2..=400))]
    pub(super) columns: u16,
    /// Overhangs on the map, one above the other
    #[arg(long, value_name = "N", default_value_t = 40, value_parser = clap::value_parser!(u16).range(2..=400))]
    pub(super) rows: u16,
    /// Random draws, eight times a power of two
    #[arg(long, default_value_t = MAP_DRAWS)]
    pub(super) draws: usize,
    /// Seed of the draws
    #[arg(long, default_value_t = Draws::SEED)]
    pub(super) seed: u64,
    /// Threads side by side; none of the figures depends on it
    #[arg(long, value_name = "N", default_value_t = default_threads(), value_parser = clap::value_parser!(u8).range(1..))]
    pub(super) threads: u8,
    /// Leave out what was seen in the trials of the case
    #[arg(long)]
    pub(super) before: bool,
    /// How the map is written
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub(super) format: Format,
}

impl FitMapArguments {
    /// What it shares with ranking.
    pub(super) fn common(&self) -> Common {
        Common {
            case: self.case.clone(),
            against: self.against.clone(),
            draws: self.draws,
            seed: self.seed,
            threads: self.threads,
            before: self.before,
        }
    }
}

/// A length of a waist, as a catalogue takes it.
fn length(text: &str) -> Result<f64, String> {
    within(text, 0.2..=30.0)
}

/// A thickness of a disc.
fn thickness(text: &str) -> Result<f64, String> {
    within(text, 0.1..=10.0)
}

/// A share of one.
fn share(text: &str) -> Result<f64, String> {
    within(text, 0.0..=1.0)
}

fn within(text: &str, taken: RangeInclusive<f64>) -> Result<f64, String> {
    text.parse()
        .ok()
        .filter(|number| taken.contains(number))
        .ok_or_else(|| format!("a number from {} to {}", taken.start(), taken.end()))
}

#[derive(Debug, Args)]
pub(super) struct WorkupArguments {
    /// A case file, or the name of a shipped scenario
    pub(super) case: PathBuf,
    /// A file of your centre's rules in place of the shipped one
    #[arg(long, value_name = "FILE")]
    pub(super) rules: Option<PathBuf>,
    /// A file of guidance in place of the shipped one
    #[arg(long, value_name = "FILE", alias = "limits")]
    pub(super) guidance: Option<PathBuf>,
    /// Random draws, eight times a power of two; 0: values as read alone
    #[arg(long, default_value_t = DRAWS)]
    pub(super) draws: usize,
    /// Seed of the draws
    #[arg(long, default_value_t = Draws::SEED)]
    pub(super) seed: u64,
    /// How the page is written
    #[arg(long, value_enum, default_value_t = PageFormat::Table)]
    pub(super) format: PageFormat,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum PageFormat {
    /// For people, 80 columns wide
    #[value(name = "text", alias = "table")]
    Table,
    /// For programs
    Json,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// Files to check
    #[arg(value_name = "FILE", required = true)]
    pub(super) files: Vec<PathBuf>,
    /// Put files of format 1 into the words of format 2 first: comments and layout
    /// stay, and the old file is kept beside as FILE.format1
    #[arg(long)]
    pub(super) fix: bool,
    /// The rules that cases are held against, in place of the shipped ones
    #[arg(long, value_name = "FILE")]
    pub(super) rules: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people, 80 columns wide
    #[value(name = "text", alias = "table")]
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
                seed: Draws::SEED,
                threads: default_threads(),
                before: false,
            },
            more: Vec::new(),
            format: Format::Table,
            top: TOP,
        }
    }
}
