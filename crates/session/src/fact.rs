//! The facts of a case as questions, each answer on a key.

use measurement::{Conduction, Prolapse, Regurgitation};
use sizing::{Answer, Fact, FactValue};

/// The question after a fact.
pub(crate) const fn question(fact: Fact) -> &'static str {
    match fact {
        Fact::Round => "Is the defect round, so that one axis stands for both?",
        Fact::Prolapse => "How far does an aortic cusp prolapse?",
        Fact::AorticRegurgitation => "How much does the aortic valve leak?",
        Fact::PulmonaryRegurgitation => "How much does the pulmonary valve leak?",
        Fact::Pouch => "Does a pouch of tissue cover the defect?",
        Fact::Holes => "How many defects are there?",
        Fact::BandInTheWay => "Does a papillary muscle or a band stand in the way of a disc?",
        Fact::MitralChordae => "Do mitral chordae insert on the edge of the defect?",
        Fact::TricuspidChordae => "Do tricuspid chordae insert on the edge of the defect?",
        Fact::Conduction => "What was the conduction before?",
    }
}

/// What comes of not knowing a fact.
pub(crate) const fn unsure(fact: Fact) -> &'static str {
    match fact {
        Fact::Round => "the other axis stays unmeasured",
        Fact::Prolapse => "treated as a prolapse, the safer assumption",
        Fact::MitralChordae | Fact::TricuspidChordae => "treated as yes, the safer assumption",
        Fact::AorticRegurgitation
        | Fact::PulmonaryRegurgitation
        | Fact::Pouch
        | Fact::Holes
        | Fact::BandInTheWay
        | Fact::Conduction => "the question stays open and nothing is assumed",
    }
}

/// What is to be seen before a fact is answered.
pub(crate) const fn how(fact: Fact) -> &'static str {
    match fact {
        Fact::Round => "one plane may miss the long axis; published ovals reach 2:1 and more",
        Fact::Prolapse => "\"none\" is an answer once the valve was seen in two planes",
        Fact::AorticRegurgitation | Fact::PulmonaryRegurgitation => {
            "by colour Doppler, in two planes"
        }
        Fact::Pouch => "aneurysmal tissue on the right side, with one exit or several",
        Fact::Holes => "by colour Doppler, swept from base to apex; 9 stands for 9 or more",
        Fact::BandInTheWay => "on either side, as far as a disc reaches",
        Fact::MitralChordae | Fact::TricuspidChordae => "on the edge of the defect, or across it",
        Fact::Conduction => "from a 12-lead ECG before the procedure",
    }
}

/// An answer to the question after a fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct FactChoice {
    /// Its key.
    pub(crate) key: char,
    /// What it answers, in a word or two.
    pub(crate) says: &'static str,
    /// The value.
    pub(crate) value: FactValue,
}

/// Every answer to the question after a fact, in the order in which they are
/// offered.
pub(crate) fn choices(fact: Fact) -> Vec<FactChoice> {
    let all = FactValue::all(fact).into_iter();
    all.filter_map(|value| {
        let (key, says) = on_key(value)?;
        Some(FactChoice { key, says, value })
    })
    .collect()
}

/// The key of a value and what it says there.
const fn on_key(value: FactValue) -> Option<(char, &'static str)> {
    Some(match value {
        FactValue::Prolapse(value) => match value {
            Prolapse::None => ('n', "none"),
            Prolapse::Mild => ('m', "mild"),
            Prolapse::Moderate => ('o', "moderate"),
            Prolapse::Severe => ('s', "severe"),
            Prolapse::Ungraded => ('y', "yes, not graded"),
            Prolapse::Unknown => ('?', "not known"),
        },
        FactValue::AorticRegurgitation(value) | FactValue::PulmonaryRegurgitation(value) => {
            match value {
                Regurgitation::None => ('n', "none"),
                Regurgitation::Trivial => ('t', "trivial"),
                Regurgitation::Mild => ('m', "mild"),
                Regurgitation::Moderate => ('o', "moderate"),
                Regurgitation::Severe => ('s', "severe"),
                Regurgitation::Unknown => ('?', "not known"),
            }
        }
        FactValue::Round(value)
        | FactValue::Pouch(value)
        | FactValue::BandInTheWay(value)
        | FactValue::MitralChordae(value)
        | FactValue::TricuspidChordae(value) => match value {
            Answer::Yes => ('y', "yes"),
            Answer::No => ('n', "no"),
            Answer::Unknown => ('?', "not known"),
        },
        FactValue::Holes(None) => ('?', "not known"),
        FactValue::Holes(Some(count)) => match count {
            1 => ('1', "one"),
            2 => ('2', "two"),
            3 => ('3', "three"),
            4 => ('4', "four"),
            5 => ('5', "five"),
            6 => ('6', "six"),
            7 => ('7', "seven"),
            8 => ('8', "eight"),
            9 => ('9', "nine or more"),
            _ => return None,
        },
        FactValue::Conduction(value) => match value {
            Conduction::Normal => ('n', "normal"),
            Conduction::FirstDegree => ('1', "1st-degree block"),
            Conduction::SecondDegree => ('2', "2nd-degree block"),
            Conduction::LeftBundle => ('l', "left bundle block"),
            Conduction::Bifascicular => ('b', "bifascicular block"),
            Conduction::Complete => ('c', "complete block"),
            Conduction::Abnormal => ('a', "abnormal, not specified"),
            Conduction::Unknown => ('?', "not known"),
        },
    })
}

/// The answer after this one in the round of all.
pub(crate) fn next_value(value: FactValue) -> FactValue {
    let all = FactValue::all(value.fact());
    let place = all.iter().position(|one| *one == value);
    let next = place.map_or(0, |place| (place + 1) % all.len().max(1));
    all.get(next).copied().unwrap_or(value)
}

/// The next answer in the round unknown, yes, no.
pub(crate) const fn next(answer: Answer) -> Answer {
    match answer {
        Answer::Unknown => Answer::Yes,
        Answer::Yes => Answer::No,
        Answer::No => Answer::Unknown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_value_has_a_key_of_its_own_and_not_known_is_always_a_question_mark() {
        for fact in Fact::ALL {
            let choices = choices(fact);
            assert_eq!(choices.len(), FactValue::all(fact).len(), "{fact:?}");
            let keys: BTreeSet<char> = choices.iter().map(|one| one.key).collect();
            assert_eq!(keys.len(), choices.len(), "{fact:?}");
            for one in &choices {
                assert_eq!(one.key == '?', one.value.is_unknown(), "{fact:?}");
            }
            assert!(question(fact).ends_with('?'));
            let round = choices
                .iter()
                .fold(choices[0].value, |value, _| next_value(value));
            assert_eq!(round, choices[0].value);
        }
    }
}
