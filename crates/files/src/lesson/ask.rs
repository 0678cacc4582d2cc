use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use measurement::ReadingId;
use serde::Deserialize;
use sizing::check_ids;
use sizing::lesson::Ask;
use std::ops::RangeInclusive;

/// The default tolerance of an answer in per cent.
const USUAL_PER_CENT: f64 = 10.0;

/// The range of tolerances, in any unit.
const WITHIN: RangeInclusive<f64> = 0.0..=1000.0;

/// The range of how many readings count as the one that decides.
const READINGS: RangeInclusive<usize> = 1..=6;

/// The range of how many sizes a question names.
const SIZES: RangeInclusive<usize> = 2..=8;

#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum AskForm {
    WhichFirst(Vec<String>),
    WhichFit(Vec<String>),
    Decides {
        size: Option<String>,
        within_first: usize,
    },
    Value {
        check: BareWord,
        of: BareWord,
        size: String,
        within: f64,
    },
    NudgeUntil {
        reading: String,
        size: String,
        inside: BareWord,
        of: BareWord,
        within: f64,
    },
    Likely {
        size: String,
        within: Option<f64>,
    },
    StopOrGoOn {
        size: Option<String>,
        instead_of: Option<String>,
    },
}

impl AskForm {
    pub(super) fn check(self, at: &FieldPlace, faults: &mut Faults) -> Ask {
        match self {
            Self::WhichFirst(sizes) => Ask::WhichFirst(several(sizes, at, faults)),
            Self::WhichFit(sizes) => Ask::WhichFit(several(sizes, at, faults)),
            Self::Decides { size, within_first } => {
                if !READINGS.contains(&within_first) {
                    let at = at.field("within_first");
                    let (least, most) = READINGS.into_inner();
                    faults.add(&at, format!("a whole number from {least} to {most}"), "");
                }
                Ask::Decides { size, within_first }
            }
            Self::Value {
                check,
                of,
                size,
                within,
            } => Ask::Value {
                check: id_of_check(&check, &at.field("check"), faults),
                of: faults.word(&at.field("of"), &of.0),
                size,
                within: faults.number(&at.field("within"), within, WITHIN, ""),
            },
            Self::NudgeUntil {
                reading,
                size,
                inside,
                of,
                within,
            } => Ask::NudgeUntil {
                reading: ReadingId(reading),
                size,
                inside: id_of_check(&inside, &at.field("inside"), faults),
                of: faults.word(&at.field("of"), &of.0),
                within: faults.number(&at.field("within"), within, WITHIN, ""),
            },
            Self::Likely { size, within } => Ask::Likely {
                size,
                within: within.map_or(USUAL_PER_CENT, |within| {
                    faults.number(&at.field("within"), within, 0.0..=100.0, "%")
                }),
            },
            Self::StopOrGoOn { size, instead_of } => Ask::StopOrGoOn { size, instead_of },
        }
    }
}

/// The sizes that a question names, each once.
fn several(sizes: Vec<String>, at: &FieldPlace, faults: &mut Faults) -> Vec<String> {
    let at = at.item(0);
    if !SIZES.contains(&sizes.len()) {
        let (least, most) = SIZES.into_inner();
        let found = format!("{} sizes", sizes.len());
        faults.say(&at, &found, format!("{least} to {most} sizes"), "");
    }
    let mut seen = crate::faults::LineOfName::new();
    for (index, size) in sizes.iter().enumerate() {
        faults.once(&mut seen, size, &at.item(index));
    }
    sizes
}

/// The id of a check, one of those there are.
pub(super) fn id_of_check(word: &BareWord, at: &FieldPlace, faults: &mut Faults) -> String {
    let known = check_ids();
    if !known.contains(&word.0.as_str()) {
        faults.unknown(at, &word.0, known, "the id of a check, such as clearance");
    }
    word.0.clone()
}

/// The sizes that a question names, each with its place.
pub(super) fn sizes<'a, 'b>(ask: &'b Ask, at: &FieldPlace<'a>) -> Vec<(FieldPlace<'a>, &'b str)> {
    match ask {
        Ask::WhichFirst(sizes) | Ask::WhichFit(sizes) => {
            let list = at.item(0);
            let sizes = sizes.iter().enumerate();
            sizes
                .map(|(index, size)| (list.item(index), size.as_str()))
                .collect()
        }
        Ask::StopOrGoOn { size, instead_of } => {
            let named = [("size", size), ("instead_of", instead_of)];
            named
                .into_iter()
                .filter_map(|(field, size)| Some((at.field(field), size.as_deref()?)))
                .collect()
        }
        _ => {
            let sizes = ask.sizes().into_iter();
            sizes.map(|size| (at.field("size"), size)).collect()
        }
    }
}
