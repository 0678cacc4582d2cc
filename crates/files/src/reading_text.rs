//! A reading as files write it.

use crate::Word;
use crate::case::needs_method;
use crate::ron_text::{Field, number, quoted};
use measurement::{Method, Phase, Reading, Side};

/// The fields of a reading, in the order of a file that is written anew.
pub(crate) const READING_FIELDS: [&str; 11] = [
    "id",
    "of",
    "value",
    "unit",
    "sd",
    "by",
    "side",
    "phase",
    "method",
    "image",
    "set_aside",
];

/// A reading's fields; what does not apply is left out.
pub(crate) fn reading_fields(reading: &Reading) -> Vec<Field> {
    let word = |word: &str, is_said: bool| is_said.then(|| word.to_owned());
    let text = |text: &Option<String>| text.as_deref().map(quoted);
    let says_method = reading.method != Method::Direct || needs_method(reading.quantity);
    let values = [
        Some(quoted(&reading.id.0)),
        Some(quoted(reading.quantity.address())),
        Some(number(reading.value)),
        Some(quoted(reading.quantity.unit().symbol())),
        reading.sd.map(number),
        Some(reading.modality.word().to_owned()),
        word(reading.side.word(), reading.side != Side::NoSide),
        word(reading.phase.word(), reading.phase != Phase::AnyPhase),
        word(reading.method.word(), says_method),
        text(&reading.image),
        text(&reading.set_aside),
    ];
    READING_FIELDS.into_iter().zip(values).collect()
}
