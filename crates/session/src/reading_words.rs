//! How a reading was taken, in words.

use measurement::Reading;

/// How a reading was taken; what does not apply is left out.
pub(crate) fn taking(reading: &Reading) -> String {
    let mut said = vec![reading.modality.label()];
    said.extend(words(reading).into_iter().filter(|word| !word.is_empty()));
    said.join(", ")
}

/// How a reading is taken now, and what was named before and has no name now.
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
        reading.side.label(),
        reading.phase.label(),
        reading.method.label(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;
    use measurement::Method;

    #[test]
    fn what_has_no_name_any_more_is_said() {
        let session = fixture::infant();
        let of_throat = |one: &&Reading| one.quantity.address() == "defect.long_axis";
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
