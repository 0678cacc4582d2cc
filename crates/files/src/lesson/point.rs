use super::ask::id_of_check;
use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use serde::Deserialize;
use sizing::Subject;
use sizing::lesson::Point;

#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum PointForm {
    Trade {
        from: String,
        to: String,
        gains: BareWord,
        loses: BareWord,
        of: Option<BareWord>,
    },
    Turns {
        size: String,
        check: BareWord,
        of: Option<BareWord>,
    },
    Breaks {
        size: String,
        check: BareWord,
        of: Option<BareWord>,
    },
    Differ(String, String),
    NothingFits,
    Against(String),
    InBetween(String),
    Disputed(String),
}

impl PointForm {
    pub(super) fn check(self, at: &FieldPlace, faults: &mut Faults) -> Option<Point> {
        Some(match self {
            Self::Trade {
                from,
                to,
                gains,
                loses,
                of,
            } => Point::Trade {
                from,
                to,
                gains: id_of_check(&gains, &at.field("gains"), faults),
                loses: id_of_check(&loses, &at.field("loses"), faults),
                of: subject(of.as_ref(), at, faults),
            },
            Self::Turns { size, check, of } => Point::Turns {
                size,
                check: id_of_check(&check, &at.field("check"), faults),
                of: subject(of.as_ref(), at, faults),
            },
            Self::Breaks { size, check, of } => Point::Breaks {
                size,
                check: id_of_check(&check, &at.field("check"), faults),
                of: subject(of.as_ref(), at, faults),
            },
            Self::Differ(one, other) => Point::Differ(one, other),
            Self::NothingFits => Point::NothingFits,
            Self::Against(size) => Point::Against(size),
            Self::InBetween(size) => Point::InBetween(size),
            Self::Disputed(address) => Point::Disputed(faults.quantity(&at.item(0), &address)?),
        })
    }
}

/// The subject of a check, where one is named.
fn subject(of: Option<&BareWord>, at: &FieldPlace, faults: &mut Faults) -> Option<Subject> {
    faults.known_word(&at.field("of"), &of?.0)
}

/// The sizes that a point names, each with its place.
pub(super) fn sizes<'a, 'b>(
    point: &'b Point,
    at: &FieldPlace<'a>,
) -> Vec<(FieldPlace<'a>, &'b str)> {
    match point {
        Point::Trade { from, to, .. } => {
            vec![
                (at.field("from"), from.as_str()),
                (at.field("to"), to.as_str()),
            ]
        }
        Point::Turns { size, .. } | Point::Breaks { size, .. } => {
            vec![(at.field("size"), size.as_str())]
        }
        _ => {
            let sizes = point.sizes().into_iter().enumerate();
            sizes.map(|(index, size)| (at.item(index), size)).collect()
        }
    }
}
