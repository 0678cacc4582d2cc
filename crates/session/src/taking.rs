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
    let mut said = vec![modality.as_str()];
    said.extend(words(reading).into_iter().filter(|word| !word.is_empty()));
    said.join(", ")
}

/// All of it, and what was named before and has no name now.
pub(crate) fn retaken(was: &Reading, now: &Reading) -> String {
    let mut said = taking(now);
    for (was, now) in words(was).into_iter().zip(words(now)) {
        if now.is_empty() && !was.is_empty() {
            said.push_str(", no longer ");
            said.push_str(was);
        }
    }
    said
}

/// Side, phase and method in words.
const fn words(reading: &Reading) -> [&'static str; 3] {
    [
        side(reading.side),
        phase(reading.phase),
        method(reading.method),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn what_has_no_name_any_more_is_said() {
        let session = fixture::infant();
        let of_throat = |one: &&Reading| one.quantity.address() == "throat.major";
        let readings = &session.document().case().readings;
        let was = readings.iter().find(of_throat).expect("a throat");
        let mut now = was.clone();
        now.method = Method::Direct;
        assert_eq!(
            taking(was),
            "transthoracic echo, within the wall, end-diastole, edge to edge"
        );
        assert_eq!(
            retaken(was, &now),
            "transthoracic echo, within the wall, end-diastole, no longer edge to edge"
        );
        assert_eq!(retaken(was, was), taking(was));
    }
}
