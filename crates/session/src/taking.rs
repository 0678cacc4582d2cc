//! How a reading was taken, in words.

use files::Word;
use measurement::{Method, Phase, Reading, Side};

/// A side in a word or two; nothing where none applies.
pub const fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left side",
        Side::Right => "right side",
        Side::Within => "within the wall",
        Side::NoSide => "",
    }
}

/// A phase in a word; nothing where none applies.
pub const fn phase(phase: Phase) -> &'static str {
    match phase {
        Phase::Diastole => "diastole",
        Phase::EndDiastole => "end-diastole",
        Phase::Systole => "systole",
        Phase::EndSystole => "end-systole",
        Phase::AnyPhase => "",
    }
}

/// A method in a word or two; nothing where none has to be named.
pub const fn method(method: Method) -> &'static str {
    match method {
        Method::EdgeToEdge => "edge to edge",
        Method::ColourJet => "colour jet",
        Method::ContrastStream => "contrast stream",
        Method::Balloon => "balloon",
        Method::Doppler => "Doppler",
        Method::Direct => "",
        Method::Derived => "derived",
    }
}

/// All of it; what does not apply is left out.
pub(crate) fn taking(reading: &Reading) -> String {
    let modality = reading.modality.word().replace('_', " ");
    let words = [
        modality.as_str(),
        side(reading.side),
        phase(reading.phase),
        method(reading.method),
    ];
    let said: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
    said.join(", ")
}
