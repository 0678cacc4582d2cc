use crate::amount::{self, amount};
use crate::bay::MOST_BAYS;
use crate::key::Key;
use crate::neighbour_name::neighbour as name;
use measurement::{Quantity, ReadingId};
use sizing::Neighbour;
use sizing::house_rules::{ExceptionFault, RuleAddress};
use sizing::trial::StepError;

/// Why something was not done, in words for the operator. A command in brackets stands for
/// its key: `Model::with_keys` puts that in its place.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refused {
    /// A key that no command has in the panel.
    #[error("{key} does nothing here{}", all_keys(.list))]
    NoCommand {
        /// The key.
        key: Key,
        /// The key that lists all keys; empty where there is none.
        list: String,
    },

    /// There is no step back.
    #[error("nothing to undo")]
    NothingToUndo,
    /// There is no step that was taken back.
    #[error("nothing to redo")]
    NothingToRedo,
    /// Nothing lies over the panels.
    #[error("nothing to close")]
    NothingToClose,
    /// The page says nothing yet.
    #[error("there is nothing to copy yet")]
    NothingToCopy,
    /// A system without job control.
    #[error("shells of this system have no jobs to stop")]
    NoJobs,
    /// The test card lies over the panels already.
    #[error("the test card is shown: esc closes it")]
    TestCardShown,
    /// The ranked list is not whole yet.
    #[error("the list is still being worked out")]
    NoListYet,
    /// There is no ranked list, for a reason.
    #[error("no sheet without a list: {0}")]
    NoList(String),
    /// No file to read again.
    #[error("the case is in no file yet")]
    InNoFile,

    /// No bay is there.
    #[error("nothing is pinned")]
    NothingPinned,
    /// The ranked list selects none.
    #[error("no candidate is selected")]
    NoCandidate,
    /// The bays hold as many as they can.
    #[error("{MOST_BAYS} are pinned already: unpin one first")]
    BaysFull,
    /// A bay holds the same.
    #[error("it is pinned already")]
    PinnedAlready,
    /// A candidate that no catalogue has.
    #[error("no such size in the catalogues")]
    NoSuchSize,
    /// There is no size beside it.
    #[error("it is the {end} size of its shape")]
    LastSize {
        /// Which end.
        end: &'static str,
    },
    /// There is no shape beside it.
    #[error("it is the {end} shape")]
    LastShape {
        /// Which end.
        end: &'static str,
    },
    /// A turn of discs that are on the axis.
    #[error("its discs are on the axis: a turn changes nothing")]
    NotOffset,
    /// The ranking has not turned it yet.
    #[error("its best turn is still being looked for")]
    NoBestTurnYet,
    /// It was not turned by hand.
    #[error("it is at its best turn")]
    AtBestTurn,
    /// A swap of discs that are alike.
    #[error("its two sides are alike")]
    AlikeDiscs,
    /// There is no other valve to draw a section through.
    #[error("no other valve stands beside the defect")]
    NoOtherValve,

    /// The list is empty.
    #[error("nothing is listed")]
    NothingListed,
    /// There is no candidate beside it.
    #[error("it is the {end} of the list")]
    EndOfList {
        /// Which end.
        end: &'static str,
    },
    /// Nothing is filtered out.
    #[error("every size is shown")]
    EverySizeShown,
    /// No line of the list is selected.
    #[error("no line is selected")]
    NoLine,
    /// The worker has not drawn the map yet.
    #[error("the map is still being drawn")]
    NoMapYet,
    /// The map ends there.
    #[error("it is the edge of the map")]
    EdgeOfMap,
    /// No size has its waist and overhang on the map.
    #[error("no size of the catalogue lies on the map")]
    NothingOnMap,

    /// The selected line is no reading.
    #[error("no reading is selected")]
    NoReading,
    /// The selected line has no quantity.
    #[error("no quantity is selected")]
    NoQuantity,
    /// The selected line asks nothing.
    #[error("no question is selected")]
    NoQuestion,
    /// The selected line is of no neighbour.
    #[error("no neighbour is selected that could be out of reach")]
    NoNeighbour,
    /// A quantity without a reading.
    #[error("the {0} was not measured: add a reading first")]
    NotMeasured(Quantity),
    /// A quantity that is not asked for at the site of the case.
    #[error("the {0} is not asked for at this site")]
    NotAskedHere(Quantity),
    /// One case was opened, not several.
    #[error("one case was opened: `rimwise *.ron` opens several")]
    OneCase,
    /// The cases that were opened together end there.
    #[error("it is the {end} of {count} cases")]
    EndOfCases {
        /// Which end.
        end: &'static str,
        /// How many there are.
        count: usize,
    },
    /// A reading of a neighbour that is out of reach.
    #[error("it is marked as out of reach")]
    SaidAbsent,
    /// The same, named.
    #[error("the {} is marked as out of reach", name(*.0))]
    NeighbourAbsent(Neighbour),
    /// A neighbour out of reach of which readings are in use.
    #[error(
        "{} of the {} count: set aside what is wrong first",
        readings(*.count),
        name(*.neighbour)
    )]
    ReadingsInUse {
        /// How many.
        count: usize,
        /// The neighbour.
        neighbour: Neighbour,
    },
    /// Every check has what it needs.
    #[error("nothing is missing")]
    NothingMissing,
    /// A line of the doubts whose reading is gone.
    #[error("it is not among the readings")]
    NotAmongReadings,
    /// The value is at the end of what is accepted.
    #[error("{} is the {} that is accepted", amount(*.0, *.1), end_of_range(*.0, *.1))]
    AtEndOfRange(Quantity, f64),
    /// A value outside what is accepted, or no number.
    #[error("expected {}", amount::range(*.0))]
    OutOfRange(Quantity),
    /// A standard deviation outside what is accepted.
    #[error("expected {}, above 0, at most {}", .0.unit().symbol(), most_sd(*.0))]
    SdOutOfRange(Quantity),
    /// A standard deviation that is no number.
    #[error("expected a number, or nothing for your centre's")]
    SdExpected,
    /// The same, on a form of more lines.
    #[error("expected a number as SD, or nothing for your centre's")]
    SdOfReadingExpected,
    /// A reading is set aside without a reason.
    #[error("expected a reason")]
    ReasonExpected,
    /// No reading has the id.
    #[error("there is no reading \"{}\"", .0.0)]
    NoSuchReading(ReadingId),
    /// A reading has the id already.
    #[error("there is a reading \"{}\" already", .0.0)]
    ReadingExists(ReadingId),
    /// A reading past the end of all.
    #[error("the readings have no such position")]
    NoSuchIndex,
    /// A reading in place of one of another quantity.
    #[error("it is a reading of {0}")]
    AnotherQuantity(Quantity),
    /// An exclusion that the house rules do not have.
    #[error("your centre's rules do not ask \"{0}\"")]
    NoSuchExclusion(String),

    /// No rule of the house is selected.
    #[error("no rule is selected")]
    NoRule,
    /// A rule that no case may except, and why.
    #[error("{0}")]
    RuleFixed(&'static str),
    /// The case does not except the rule.
    #[error("the rule counts as your centre has it")]
    NoException,
    /// The exception says what the house says.
    #[error("that is your centre's rule already: change a number, or leave with esc")]
    SameAsCentre,
    /// An exception from a rule that the house does not have.
    #[error("your centre has no rule \"{0}\" here")]
    NoSuchRule(RuleAddress),
    /// Two exceptions from one rule.
    #[error("\"{0}\" is excepted already")]
    ExceptedTwice(RuleAddress),
    /// An exception that says what no such rule may say.
    #[error("{part}: {0}", part = .0.part.label())]
    Exception(ExceptionFault),
    /// Exceptions that put two chances out of order.
    #[error("the chance of what does not fit would be over the chance of what fits")]
    ChancesOutOfOrder,
    /// The selected candidate has no limit to go to.
    #[error("it breaks no limit as measured")]
    BreaksNoLimit,
    /// A limit that is no rule of the house.
    #[error("its limit is not among the rules")]
    LimitNotARule,

    /// The case is in no file, and so in no folder of cases.
    #[error("the case is in no file: save it in the folder of your cases first")]
    NoFolderOfCases,
    /// Nobody knows where your centre's rules would be kept.
    #[error(
        "there is no file for your centre's rules, and those that came with the program stay as \
         they are: begin with --rules FILE"
    )]
    NoRulesFile,
    /// The rules have a row of an earlier look-back, by its source.
    #[error(
        "the rules have a row of such readings already ({0}), and cases from before it would \
         count twice: take that row out of the file first"
    )]
    LookedBackBefore(String),
    /// The rows find no place in the file of the rules.
    #[error("{0}")]
    RulesNotChanged(String),

    /// The page of trials lists nothing.
    #[error("no row is selected: pin a size on the plan first")]
    NoTrialRow,
    /// A row that is stepped through no values.
    #[error("this row takes only [seen_now]")]
    TakesEnterAlone,
    /// Nothing is offered on a row.
    #[error("nothing is chosen: [previous_seen] and [next_seen] choose, [seen_now] confirms")]
    NothingChosen,
    /// A row on which nothing was observed.
    #[error("nothing was seen on this row yet")]
    NothingSeen,
    /// A row of which nothing can be corrected.
    #[error("there is nothing to correct on this row")]
    NothingToCorrect,
    /// Enter on a criterion that is written.
    #[error("it is written; [change_criterion] changes it")]
    CriterionWritten,
    /// All criteria of a size are written.
    #[error("the criteria of {0} are written; [change_criterion] changes one")]
    CriteriaWritten(String),
    /// All criteria of all pinned sizes are written.
    #[error("the criteria of every pinned size are written")]
    AllCriteriaWritten,
    /// The selected row is no criterion.
    #[error("no criterion is selected")]
    NoCriterion,
    /// An observation without a criterion.
    #[error("this size has no such criterion")]
    NotACriterion,
    /// A criterion that was left as it was.
    #[error("nothing was changed: change a bound, or leave with esc")]
    SameBounds,
    /// An observation that was left as it was.
    #[error("nothing was changed: change it, or leave with esc")]
    SameObservation,
    /// Nobody said when puncture was.
    #[error(
        "the minute since puncture is not known: [seen_now] on its row starts it, [details] says which it is"
    )]
    NoMinute,
    /// A locked criterion is changed, and nobody said when puncture was.
    #[error("the minute since puncture is not known: a change is written with its minute")]
    NoMinuteOfChange,
    /// The minute is known.
    #[error("the minute since puncture runs already; [details] says which minute it is")]
    ClockRuns,
    /// The case has a later minute than the start.
    #[error("minute {0:.0} has passed in this case: [details] says which minute it is now")]
    MinutePassed(f64),
    /// A number outside what is accepted of something seen or used.
    #[error("expected a number from {least} to {most} {unit}")]
    NumberExpected {
        /// The least that is accepted.
        least: f64,
        /// The most that is accepted.
        most: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A day that is no whole number.
    #[error("expected a whole number of days after the procedure")]
    WholeDaysExpected,
    /// Something else than a weight and a height.
    #[error("expected a weight in kg and a height in cm, such as 7.2 67")]
    BodyExpected,
    /// A size by a name that no catalogue has.
    #[error("no size {0} in the catalogue")]
    NoSuchName(String),
    /// A step that the procedure does not allow.
    #[error(transparent)]
    Step(#[from] StepError),

    /// No shape is there.
    #[error("nothing is in stock")]
    NothingInStock,
    /// No size is selected.
    #[error("no size is selected")]
    NoSize,
    /// A size of a shape that does not have so many.
    #[error("there is no such size")]
    SizeGone,
    /// Another catalogue puts it out of stock.
    #[error("another catalogue marks it out of stock")]
    OutOfStockElsewhere,
    /// A shape that came with the program or with another catalogue.
    #[error("it came with the program and cannot be removed: mark it out of stock instead")]
    NotYours,
    /// A form that was left as it was.
    #[error("nothing was changed: change a line, or leave with esc")]
    NothingChanged,

    /// A case without a title.
    #[error("expected a title, such as \"3.6 kg, short rim\"")]
    TitleExpected,
    /// A field for a path that was left empty.
    #[error("expected the path of a file")]
    PathExpected,
}

/// Which key lists all keys, where one does.
fn all_keys(list: &str) -> String {
    match list {
        "" => String::new(),
        list => format!("; {list} lists every key"),
    }
}

fn readings(count: usize) -> String {
    match count {
        1 => "a reading".to_owned(),
        _ => format!("{count} readings"),
    }
}

fn end_of_range(quantity: Quantity, value: f64) -> &'static str {
    if value == quantity.info().most {
        "most"
    } else {
        "least"
    }
}

/// The widest standard deviation that is accepted: as wide as all accepted values.
fn most_sd(quantity: Quantity) -> String {
    let info = quantity.info();
    amount::number(quantity, info.most - info.least)
}
