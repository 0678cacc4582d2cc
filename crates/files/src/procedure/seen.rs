//! Values of observations, and bounds of criteria in the same terms.

use crate::faults::{Faults, one_of};
use crate::place::FieldPlace;
use crate::ron_text::number;
use crate::words::Word;
use measurement::{Answer, Regurgitation};
use sizing::Subject;
use sizing::trial::{AskedOf, Bounds, ObservationKind, Rhythm, Seen, Takes};

/// An answer about something seen: what cannot be told is an answer.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct SeenAnswer(pub(super) Answer);

impl Word for SeenAnswer {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("yes", Self(Answer::Yes)),
        ("no", Self(Answer::No)),
        ("cannot_tell", Self(Answer::Unknown)),
    ];
}

/// A bound of a criterion as it stands in a file: a number, a grade, a rhythm or an
/// answer, as its kind takes it.
pub(super) fn seen(kind: ObservationKind, at: &FieldPlace, faults: &mut Faults) -> Option<Seen> {
    let text = at.text();
    match kind.takes() {
        Takes::Value => {
            let Ok(value) = ron::from_str::<f64>(text) else {
                let unit = kind.unit().map_or("", measurement::Unit::symbol);
                let (least, most) = (kind.least(), kind.most());
                faults.add(at, format!("a number from {least} to {most} {unit}"), "");
                return None;
            };
            Some(Seen::Value(self::value(kind, value, at, faults)))
        }
        Takes::Grade => faults
            .known_word::<Regurgitation>(at, text)
            .map(Seen::Grade),
        Takes::Rhythm => faults.known_word::<Rhythm>(at, text).map(Seen::Rhythm),
        Takes::Answer => {
            let told = faults.known_word::<SeenAnswer>(at, text);
            told.map(|told| Seen::Answer(told.0))
        }
    }
}

/// A value in the room of its kind.
pub(super) fn value(
    kind: ObservationKind,
    value: f64,
    at: &FieldPlace,
    faults: &mut Faults,
) -> f64 {
    let unit = kind.unit().map_or("", measurement::Unit::symbol);
    faults.number(at, value, kind.least()..=kind.most(), unit)
}

/// Bounds, each where it is said.
pub(crate) fn bounds(
    kind: ObservationKind,
    [has_inside, has_beyond]: [bool; 2],
    at: &FieldPlace,
    faults: &mut Faults,
) -> Bounds {
    let mut bound = |is_said: bool, name| {
        let at = at.field(name);
        is_said.then(|| seen(kind, &at, faults)).flatten()
    };
    let bounds = Bounds {
        inside: bound(has_inside, "inside"),
        beyond: bound(has_beyond, "beyond"),
    };
    if let (Some(inside), Some(beyond)) = (bounds.inside, bounds.beyond) {
        let order = beyond.against(inside);
        let crossed = if kind.is_worse_below() {
            order.is_some_and(std::cmp::Ordering::is_gt)
        } else {
            order.is_some_and(std::cmp::Ordering::is_lt)
        };
        if crossed {
            let remedy = "What is inside is no worse than what is beyond.";
            let expected = format!("no better than inside, {}", text(inside));
            faults.add(&at.field("beyond"), expected, remedy);
        }
    }
    bounds
}

/// What was seen, as files write it.
pub(super) fn text(seen: Seen) -> String {
    match seen {
        Seen::Value(value) => number(value),
        Seen::Grade(grade) => grade.word().to_owned(),
        Seen::Rhythm(rhythm) => rhythm.word().to_owned(),
        Seen::Answer(answer) => SeenAnswer(answer).word().to_owned(),
    }
}

/// The subject of a kind by its word, where it has one.
pub(super) fn subject(
    kind: ObservationKind,
    word: Option<&str>,
    at: &FieldPlace,
    field: &str,
    faults: &mut Faults,
) -> Subject {
    let of = word.map(|word| faults.known_word::<Subject>(&at.field(field), word));
    match (of, kind.asked_of()) {
        // The word itself is a fault already where it is none.
        (None, AskedOf::Device) | (Some(None), _) => Subject::Shape,
        (Some(Some(of)), _) if kind.can_be_of(of) => of,
        (said, asked) => {
            let known = Subject::WORDS.iter().filter(|(_, of)| kind.can_be_of(*of));
            let known = one_of(known.map(|(word, _)| *word));
            let name = kind.name();
            if said.is_none() {
                let remedy = format!("Add `{field}: …`: {known}.");
                faults.say(
                    at,
                    &format!("no {field}"),
                    format!("{known} for {name}"),
                    remedy,
                );
            } else if asked == AskedOf::Device {
                let expected = format!("nothing here: {name} is of the device");
                faults.add(&at.field(field), expected, "Take it out.");
            } else {
                faults.add(&at.field(field), format!("{known} for {name}"), "");
            }
            Subject::Shape
        }
    }
}
