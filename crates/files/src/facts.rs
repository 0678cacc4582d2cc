//! The facts of a case, as its file has them.

use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::ron_text::Field;
use crate::words::Word;
use measurement::{Answer, Conduction, Finding, Findings, Prolapse, Regurgitation, whole};
use serde::Deserialize;
use sizing::{Fact, FactValue, Facts, MOST_HOLES};

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FactsForm {
    round: Option<BareWord>,
    prolapse: Option<BareWord>,
    aortic_regurgitation: Option<BareWord>,
    pulmonary_regurgitation: Option<BareWord>,
    pouch: Option<BareWord>,
    defects: Option<f64>,
    band_in_the_way: Option<BareWord>,
    mitral_chordae_on_edge: Option<BareWord>,
    tricuspid_chordae_on_edge: Option<BareWord>,
    conduction: Option<BareWord>,
}

pub(crate) fn facts(form: &FactsForm, at: &FieldPlace, faults: &mut Faults) -> Facts {
    let at = |fact: Fact| at.field(fact.name());
    Facts {
        round: faults.word_or(&at(Fact::Round), form.round.as_ref(), Answer::Unknown),
        prolapse: prolapse(form.prolapse.as_ref(), &at(Fact::Prolapse), faults),
        aortic_regurgitation: faults.word_or(
            &at(Fact::AorticRegurgitation),
            form.aortic_regurgitation.as_ref(),
            Regurgitation::Unknown,
        ),
        pulmonary_regurgitation: faults.word_or(
            &at(Fact::PulmonaryRegurgitation),
            form.pulmonary_regurgitation.as_ref(),
            Regurgitation::Unknown,
        ),
        pouch: faults.word_or(&at(Fact::Pouch), form.pouch.as_ref(), Answer::Unknown),
        holes: holes(form.defects, &at(Fact::Holes), faults),
        band_in_the_way: faults.word_or(
            &at(Fact::BandInTheWay),
            form.band_in_the_way.as_ref(),
            Answer::Unknown,
        ),
        mitral_chordae_on_edge: faults.word_or(
            &at(Fact::MitralChordae),
            form.mitral_chordae_on_edge.as_ref(),
            Answer::Unknown,
        ),
        tricuspid_chordae_on_edge: faults.word_or(
            &at(Fact::TricuspidChordae),
            form.tricuspid_chordae_on_edge.as_ref(),
            Answer::Unknown,
        ),
        conduction: faults.word_or(
            &at(Fact::Conduction),
            form.conduction.as_ref(),
            Conduction::Unknown,
        ),
    }
}

/// The prolapse; older files answer it by yes or no.
fn prolapse(word: Option<&BareWord>, at: &FieldPlace, faults: &mut Faults) -> Prolapse {
    match word {
        Some(word) if word.0 == Answer::No.word() => Prolapse::None,
        word => faults.word_or(at, word, Prolapse::Unknown),
    }
}

fn holes(count: Option<f64>, at: &FieldPlace, faults: &mut Faults) -> Option<u8> {
    let count = count?;
    let known = whole(1..=MOST_HOLES, count);
    if known.is_none() {
        let expected = format!("a whole number from 1 to {MOST_HOLES}");
        let remedy = format!("{MOST_HOLES} stands for {MOST_HOLES} or more; left out, unknown.");
        faults.add(at, expected, remedy);
    }
    known
}

/// Takes the rhythm before out of the findings, where older files answer it, and
/// into the facts: a case says it in one place.
pub(crate) fn rhythm(
    facts: &mut Facts,
    findings: &mut Findings,
    at: &FieldPlace,
    faults: &mut Faults,
) {
    let Some(answer) = findings.remove(&Finding::NormalRhythm) else {
        return;
    };
    let said = facts.conduction.normal();
    if said == Answer::Unknown {
        facts.conduction = Conduction::from_normal(answer);
    } else if answer != Answer::Unknown && answer != said {
        let name = Finding::NormalRhythm.name();
        let findings = at.field("findings");
        let mut entries = findings.entries();
        if let Some((_, entry)) = entries.find(|(key, _)| key == name) {
            let line = at.field("facts").field(Fact::Conduction.name()).line();
            let expected = format!("{said}, as the conduction in line {line} says");
            faults.add(&entry, expected, "Take it out here.");
        }
    }
}

/// The text of each fact; an unknown number is left out.
pub(crate) fn fact_fields(facts: &Facts) -> Vec<Field> {
    let each = Fact::ALL.into_iter();
    each.map(|fact| (fact.name(), written(facts.get(fact))))
        .collect()
}

fn written(value: FactValue) -> Option<String> {
    Some(match value {
        FactValue::Prolapse(value) => value.word().to_owned(),
        FactValue::AorticRegurgitation(value) | FactValue::PulmonaryRegurgitation(value) => {
            value.word().to_owned()
        }
        // An answer to what is asked of few cases is written where it was given.
        FactValue::Round(Answer::Unknown) => return None,
        FactValue::Round(value)
        | FactValue::Pouch(value)
        | FactValue::BandInTheWay(value)
        | FactValue::MitralChordae(value)
        | FactValue::TricuspidChordae(value) => value.word().to_owned(),
        FactValue::Holes(count) => return count.map(|count| count.to_string()),
        FactValue::Conduction(value) => value.word().to_owned(),
    })
}

/// The words that a file may have for a fact, for its comments.
pub(crate) fn choices(fact: Fact) -> String {
    if fact == Fact::Holes {
        return format!("a whole number from 1 to {MOST_HOLES}, left out where unknown");
    }
    let all = FactValue::all(fact).into_iter();
    let words: Vec<String> = all.filter_map(written).collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use crate::{parse_case, shipped};
    use measurement::{Conduction, Finding, Prolapse, Regurgitation};
    use sizing::{Fact, FactValue, Facts};

    fn with(facts: &str, findings: &str) -> Result<(Facts, bool), Vec<String>> {
        let text = format!(
            "(format: 2, title: \"x\", site: trabecular_muscular, edge: soft, access: antegrade,
             readings: [], facts: ({facts}), findings: {{{findings}}})"
        );
        let faults = |faults: Vec<crate::Diagnostic>| -> Vec<String> {
            faults.iter().map(ToString::to_string).collect()
        };
        let case = parse_case("x", &text).map_err(faults)?.into_value();
        Ok((
            case.facts,
            case.findings.contains_key(&Finding::NormalRhythm),
        ))
    }

    #[test]
    fn old_answers_read_as_the_grades_they_are() {
        let prolapse = |word: &str| with(&format!("prolapse: {word}"), "").unwrap().0.prolapse;
        assert_eq!(prolapse("no"), Prolapse::None);
        assert_eq!(prolapse("yes"), Prolapse::Ungraded);
        assert_eq!(prolapse("unknown"), Prolapse::Unknown);
        assert_eq!(prolapse("severe"), Prolapse::Severe);
        let rhythm = |word: &str| {
            let (facts, stays) = with("", &format!("\"normal_rhythm\": {word}")).unwrap();
            assert!(!stays, "the rhythm before is said in one place");
            facts.conduction
        };
        assert_eq!(rhythm("yes"), Conduction::Normal);
        assert_eq!(rhythm("no"), Conduction::Abnormal);
        assert_eq!(rhythm("unknown"), Conduction::Unknown);
    }

    #[test]
    fn what_cannot_be_is_said_with_its_line() {
        let faults = |facts: &str, findings: &str| with(facts, findings).unwrap_err().join("\n");
        let twice = faults("conduction: complete_block", "\"normal_rhythm\": yes");
        assert!(
            twice.contains("no, as the conduction in line 2 says"),
            "{twice}"
        );
        assert!(with("conduction: complete_block", "\"normal_rhythm\": no").is_ok());
        for wrong in ["0", "10", "-1", "1e300", "2.5", "NaN"] {
            let holes = faults(&format!("defects: {wrong}"), "");
            assert!(holes.contains("a whole number from 1 to 9"), "{holes}");
        }
        let grade = faults("aortic_regurgitation: modrate", "");
        assert!(grade.contains("Did you mean moderate?"), "{grade}");
        let unknown = faults("pulmonary_regurgitation: yes", "");
        assert!(unknown.contains("none, trivial, mild"), "{unknown}");
    }

    #[test]
    fn every_fact_is_written_and_read_again() {
        let (name, text) = shipped::SCENARIOS[0];
        let file = parse_case(name, text).unwrap();
        for fact in Fact::ALL {
            for value in FactValue::all(fact) {
                let mut case = file.value().clone();
                case.facts.set(value);
                let spliced = file.with(&case).unwrap();
                assert_eq!(spliced.value().facts, case.facts);
                let anew = crate::new_case(&case);
                assert_eq!(parse_case(name, &anew).unwrap().value().facts, case.facts);
            }
        }
        assert_eq!(Regurgitation::default(), Regurgitation::Unknown);
    }

    #[test]
    fn an_old_answer_about_the_rhythm_goes_when_the_conduction_is_said() {
        let text = "(format: 2, title: \"x\", site: inlet_muscular, edge: soft, access: antegrade,
            readings: [], findings: {\n    \"arch_seen\": yes,\n    \"normal_rhythm\": yes, // seen\n})";
        let file = parse_case("x", text).unwrap();
        let mut case = file.value().clone();
        case.facts.conduction = Conduction::SecondDegree;
        let spliced = file.with(&case).unwrap();
        assert_eq!(spliced.value(), &case);
        assert!(!spliced.source().text().contains("normal_rhythm"));
        case.facts.conduction = Conduction::Unknown;
        assert_eq!(file.with(&case).unwrap().value(), &case);
    }
}
