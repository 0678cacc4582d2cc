//! The text of a reading in a file.

use crate::Word;
use crate::case::needs_method;
use crate::ron_text::{Field, number, quoted};
use measurement::{Method, Phase, Reading, Side};

/// A reading's fields, in the order of a file that is written anew; what does not
/// apply is left out.
pub(crate) fn reading_fields(reading: &Reading) -> Vec<Field> {
    let word = |word: &str, is_said: bool| is_said.then(|| word.to_owned());
    let text = |text: &Option<String>| text.as_deref().map(quoted);
    let says_method = reading.method != Method::Direct || needs_method(reading.quantity);
    vec![
        ("id", Some(quoted(&reading.id.0))),
        ("of", Some(quoted(reading.quantity.address()))),
        ("value", Some(number(reading.value))),
        ("unit", Some(quoted(reading.quantity.unit().word()))),
        ("sd", reading.sd.map(number)),
        ("by", Some(reading.modality.word().to_owned())),
        (
            "side",
            word(reading.side.word(), reading.side != Side::NoSide),
        ),
        (
            "phase",
            word(reading.phase.word(), reading.phase != Phase::AnyPhase),
        ),
        ("method", word(reading.method.word(), says_method)),
        ("image", text(&reading.image)),
        ("set_aside", text(&reading.set_aside)),
    ]
}
