//! Changes of the document, each with its inverse.

mod answers;
mod exceptions;
mod label;
mod readings;

pub(crate) use label::label;

use crate::{Bay, DisplayOptions, Document, Home, MOST_BAYS, Refused, Row, Shelf, TrialRow};
use files::HouseRulesFile;
use measurement::{Finding, Reading, ReadingId};
use sizing::house_rules::Exception;
use sizing::trial::Procedure;
use sizing::{Answer, Case, FactValue, Neighbour};
use std::mem::replace;
use std::sync::Arc;

/// One change of the document, as a value.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// The case is this one.
    Case {
        /// The case.
        case: Arc<Case>,
        /// Where it is kept.
        home: Home,
        /// What is pinned with it.
        bays: Vec<Bay>,
        /// What brought it here, in a word or two.
        called: &'static str,
    },
    /// A reading is this one, by its id; of the same quantity.
    Replace(Reading),
    /// A reading stands at this place among all.
    Insert(usize, Reading),
    /// A reading is gone.
    Remove(ReadingId),
    /// A neighbour is said not to be there; `false`: it may be.
    Absent(Neighbour, bool),
    /// A fact is answered.
    Fact(FactValue),
    /// An exclusion is answered, by its id; `None`: the case does not speak of it.
    Exclusion(String, Option<Answer>),
    /// These are the exceptions from the rules of the house.
    Exceptions(Vec<Exception>),
    /// A finding is answered; `None`: the case does not speak of it.
    Finding(Finding, Option<Answer>),
    /// The procedure of the case is this one.
    Procedure {
        /// The procedure.
        procedure: Arc<Procedure>,
        /// What was done in it, in a few words.
        called: String,
        /// The row of the page of trials where it is seen.
        row: TrialRow,
    },
    /// The shelf is this one, with these candidates of it pinned.
    Shelf {
        /// The shelf.
        shelf: Shelf,
        /// The pinned candidates, at their places on it.
        bays: Vec<Bay>,
        /// What was done to it, in a few words.
        called: String,
    },
    /// Your centre's rules are those of this file.
    Rules {
        /// The file, as it is to be kept.
        file: Arc<HouseRulesFile>,
        /// What was done to them, in a few words.
        called: String,
    },
    /// These candidates are pinned.
    Bays(Vec<Bay>),
    /// This is shown of the result.
    Shown(DisplayOptions),
}

impl Edit {
    /// Makes the change and gives its inverse; a refused one changes nothing.
    pub fn apply(&self, document: &mut Document) -> Result<Self, Refused> {
        self.check(document)?;
        Ok(match self {
            Self::Case {
                case,
                home,
                bays,
                called,
            } => Self::Case {
                case: replace(&mut document.case, Arc::clone(case)),
                home: replace(&mut document.home, home.clone()),
                bays: replace(&mut document.bays, bays.clone()),
                called,
            },
            Self::Replace(reading) => Self::Replace(replace(
                readings::find(document, &reading.id)?,
                reading.clone(),
            )),
            Self::Insert(place, reading) => readings::insert(document, *place, reading),
            Self::Remove(id) => readings::remove(document, id)?,
            Self::Absent(neighbour, absent) => answers::absent(document, *neighbour, *absent),
            Self::Fact(value) => Self::Fact(document.case_mut().facts.set(*value)),
            Self::Exclusion(id, answer) => answers::exclusion(document, id, *answer),
            Self::Exceptions(all) => {
                Self::Exceptions(replace(&mut document.case_mut().exceptions, all.clone()))
            }
            Self::Finding(finding, answer) => answers::finding(document, *finding, *answer),
            Self::Procedure {
                procedure,
                called,
                row,
            } => {
                // A forecast came between two steps and is no step itself.
                let mut procedure = Procedure::clone(procedure);
                procedure.keep_forecasts_of(&document.case.procedure);
                Self::Procedure {
                    procedure: Arc::new(replace(&mut document.case_mut().procedure, procedure)),
                    called: called.clone(),
                    row: row.clone(),
                }
            }
            Self::Shelf {
                shelf,
                bays,
                called,
            } => Self::Shelf {
                shelf: replace(&mut document.shelf, shelf.clone()),
                bays: replace(&mut document.bays, bays.clone()),
                called: called.clone(),
            },
            Self::Rules { file, called } => {
                document.rules = Arc::new(file.value().clone());
                let was = document.rules_file.replace(Arc::clone(file));
                Self::Rules {
                    file: was.ok_or(Refused::NoRulesFile)?,
                    called: called.clone(),
                }
            }
            Self::Bays(bays) => Self::Bays(replace(&mut document.bays, bays.clone())),
            Self::Shown(shown) => Self::Shown(replace(&mut document.shown, shown.clone())),
        })
    }

    /// Whether the change can be made.
    pub fn check(&self, document: &Document) -> Result<(), Refused> {
        match self {
            Self::Replace(reading) => readings::check_replace(document, reading),
            Self::Insert(place, reading) => readings::check_insert(document, *place, reading),
            Self::Remove(id) => readings::known(document, id).map(drop),
            Self::Absent(neighbour, absent) => answers::check_absent(document, *neighbour, *absent),
            Self::Exclusion(id, _) => answers::check_exclusion(document, id),
            Self::Exceptions(all) => exceptions::check(document, all),
            Self::Rules { file, .. } => {
                if document.rules_file.is_none() {
                    return Err(Refused::NoRulesFile);
                }
                let mut changed = document.clone();
                changed.rules = Arc::new(file.value().clone());
                exceptions::check(&changed, &document.case.exceptions)
            }
            Self::Bays(bays) => check_bays(&document.shelf, bays),
            Self::Shelf { shelf, bays, .. } => check_bays(shelf, bays),
            Self::Case { .. }
            | Self::Fact(..)
            | Self::Finding(..)
            | Self::Procedure { .. }
            | Self::Shown(_) => Ok(()),
        }
    }

    /// Whether it can change the case.
    pub(crate) const fn is_of_case(&self) -> bool {
        let is_of_others = matches!(
            self,
            Self::Shelf { .. } | Self::Rules { .. } | Self::Bays(_) | Self::Shown(_)
        );
        !is_of_others
    }

    /// The row of the list of readings where it is seen, if it leaves one.
    pub(crate) fn row(&self) -> Option<Row> {
        match self {
            Self::Insert(_, reading) | Self::Replace(reading) => {
                Some(Row::Reading(reading.id.clone(), reading.quantity))
            }
            Self::Absent(neighbour, _) => Some(Row::Absent(*neighbour)),
            Self::Fact(value) => Some(Row::Fact(value.fact())),
            Self::Exclusion(id, _) => Some(Row::Exclusion(id.clone())),
            Self::Case { .. }
            | Self::Remove(_)
            | Self::Exceptions(_)
            | Self::Procedure { .. }
            | Self::Shelf { .. }
            | Self::Rules { .. }
            | Self::Bays(_)
            | Self::Shown(_) => None,
            Self::Finding(finding, _) => Some(Row::Finding(*finding)),
        }
    }
}

fn check_bays(shelf: &Shelf, bays: &[Bay]) -> Result<(), Refused> {
    if bays.len() > MOST_BAYS {
        return Err(Refused::BaysFull);
    }
    if bays.iter().any(|bay| shelf.at(bay.place).is_none()) {
        return Err(Refused::NoSuchSize);
    }
    let twice = bays
        .iter()
        .enumerate()
        .any(|(place, bay)| bays[..place].contains(bay));
    if twice {
        Err(Refused::PinnedAlready)
    } else {
        Ok(())
    }
}
