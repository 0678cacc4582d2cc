use crate::document::Checked;
use crate::exceptions::{self, ExceptionForm};
use crate::facts::{self, FactsForm};
use crate::faults::{Faults, LineOfName, did_you_mean, one_of};
use crate::form::{BareWord, Entries};
use crate::kind::CASE_CAP;
use crate::place::FieldPlace;
use crate::procedure::{self, ProcedureForm};
use crate::{Diagnostic, FileError, FileKind, Source, Word, excerpt};
use measurement::{
    Answer, Finding, Findings, Method, Phase, Quantity, Reading, ReadingId, Side, Structure, Unit,
};
use serde::Deserialize;
use sizing::resolve::neighbour_of;
use sizing::{Case, Catalogue, HouseRules, Neighbour};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A case with the text it came from.
pub type CaseFile = Checked<Case>;

/// Reads a case from a file.
pub fn read_case(path: &Path) -> Result<CaseFile, FileError> {
    Ok(Checked::read(
        FileKind::Case,
        Source::read(path, CASE_CAP)?,
        case,
    )?)
}

/// Reads a case from a text; all faults at once where it is RON of the right
/// form, the first one otherwise.
pub fn parse_case(name: &str, text: &str) -> Result<CaseFile, Vec<Diagnostic>> {
    Checked::read(FileKind::Case, Source::new(name, text), case)
}

impl CaseFile {
    /// Finds the sizes of criteria and trials that no catalogue has.
    pub fn faults_among(&self, catalogues: &[Catalogue]) -> Vec<Diagnostic> {
        let known: BTreeSet<String> = catalogues
            .iter()
            .flat_map(|catalogue| &catalogue.shapes)
            .flat_map(|shape| {
                let sizes = shape.sizes.iter();
                sizes.map(|size| format!("{}/{}", shape.id, size.label))
            })
            .collect();
        let mut faults = Faults::default();
        let procedure = &self.value().procedure;
        let criteria = procedure.criteria.iter().map(|one| one.size.as_str());
        let trials = procedure.trials.iter().map(|one| one.size.as_str());
        let mut look = |list, sizes: &mut dyn Iterator<Item = &str>| {
            for (index, size) in sizes.enumerate() {
                if !known.contains(size) {
                    let at = self.root().field(list).item(index).field("size");
                    let known = known.iter().map(String::as_str);
                    faults.unknown(&at, size, known, "a size of the catalogue");
                }
            }
        };
        look("criteria", &mut criteria.into_iter());
        look("trials", &mut trials.into_iter());
        faults.none().err().unwrap_or_default()
    }

    /// Finds answers that your centre's rules do not ask for, and exceptions from rules
    /// that they do not have.
    pub fn faults_under(&self, rules: &HouseRules) -> Vec<Diagnostic> {
        let known = || {
            rules
                .exclusions
                .iter()
                .map(|exclusion| exclusion.id.as_str())
        };
        let mut faults = Faults::default();
        for (id, at) in self.root().field("exclusions").entries() {
            if !known().any(|one| one == id) {
                let remedy = did_you_mean(&id, known());
                let remedy = if remedy.is_empty() {
                    format!("They ask {}.", one_of(known()))
                } else {
                    remedy
                };
                let found = format!("\"{id}\"");
                faults.say(
                    &at,
                    &found,
                    "an exclusion that your centre's rules ask",
                    remedy,
                );
            }
        }
        let at = self.root().field("exceptions");
        exceptions::under(rules, self.value(), &at, &mut faults);
        faults.none().err().unwrap_or_default()
    }
}

/// The fields of a case, in the order of a file that is written anew.
pub(crate) const CASE_FIELDS: [&str; 20] = [
    "format",
    "title",
    "lesson",
    "site",
    "edge",
    "access",
    "readings",
    "out_of_reach",
    "facts",
    "findings",
    "exclusions",
    "exceptions",
    "case_id",
    "before",
    "planned_on",
    "criteria",
    "trials",
    "used",
    "follow_up",
    "room",
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    lesson: Option<String>,
    site: BareWord,
    edge: BareWord,
    access: BareWord,
    readings: Vec<ReadingForm>,
    #[serde(default)]
    out_of_reach: Vec<BareWord>,
    #[serde(default)]
    facts: FactsForm,
    #[serde(default)]
    findings: Entries<BareWord>,
    #[serde(default)]
    exclusions: Entries<BareWord>,
    #[serde(default)]
    exceptions: Vec<ExceptionForm>,
    case_id: Option<String>,
    #[serde(default)]
    before: Vec<procedure::Before>,
    planned_on: Option<String>,
    #[serde(default)]
    criteria: Vec<procedure::Criterion>,
    #[serde(default)]
    trials: Vec<procedure::Trial>,
    #[serde(default)]
    used: procedure::Used,
    #[serde(default)]
    follow_up: Vec<procedure::FollowUp>,
    #[serde(default)]
    room: Vec<procedure::Room>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReadingForm {
    id: String,
    of: String,
    value: f64,
    unit: String,
    sd: Option<f64>,
    by: BareWord,
    side: Option<BareWord>,
    phase: Option<BareWord>,
    method: Option<BareWord>,
    image: Option<String>,
    set_aside: Option<String>,
}

fn case(form: CaseForm, at: &FieldPlace, faults: &mut Faults) -> Case {
    let readings = readings(form.readings, &at.field("readings"), faults);
    let absent = absent(&form.out_of_reach, &readings, at, faults);
    let mut facts = facts::facts(&form.facts, &at.field("facts"), faults);
    let mut findings = findings(form.findings, &at.field("findings"), faults);
    facts::rhythm(&mut facts, &mut findings, at, faults);
    Case {
        title: faults.text(&at.field("title"), form.title),
        lesson: form
            .lesson
            .map(|lesson| faults.text(&at.field("lesson"), lesson)),
        site: faults.word(&at.field("site"), &form.site.0),
        edge: faults.word(&at.field("edge"), &form.edge.0),
        route: faults.word(&at.field("access"), &form.access.0),
        readings,
        absent,
        facts,
        findings,
        exclusions: exclusions(form.exclusions, &at.field("exclusions"), faults),
        exceptions: exceptions::exceptions(form.exceptions, &at.field("exceptions"), faults),
        procedure: procedure::procedure(
            ProcedureForm {
                case_id: form.case_id,
                before: form.before,
                planned_on: form.planned_on,
                criteria: form.criteria,
                trials: form.trials,
                used: form.used,
                follow_up: form.follow_up,
                room: form.room,
            },
            at,
            faults,
        ),
    }
}

/// Readings, each under a name of its own.
pub(crate) fn readings(
    forms: Vec<ReadingForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Reading> {
    let mut ids = LineOfName::new();
    let each = forms.into_iter().enumerate();
    each.filter_map(|(index, form)| {
        let at = at.item(index);
        faults.once(&mut ids, &form.id, &at.field("id"));
        reading(form, &at, faults)
    })
    .collect()
}

/// Reads a reading; `None` where its quantity is not known.
fn reading(form: ReadingForm, at: &FieldPlace, faults: &mut Faults) -> Option<Reading> {
    let id = faults.name(&at.field("id"), form.id);
    let modality = faults.word(&at.field("by"), &form.by.0);
    let side = faults.word_or(&at.field("side"), form.side.as_ref(), Side::NoSide);
    let phase = faults.word_or(&at.field("phase"), form.phase.as_ref(), Phase::AnyPhase);
    let method = faults.word_or(&at.field("method"), form.method.as_ref(), Method::Direct);
    let image = form
        .image
        .map(|image| faults.text(&at.field("image"), image));
    let set_aside = form
        .set_aside
        .map(|why| faults.text(&at.field("set_aside"), why));

    let quantity = faults.quantity(&at.field("of"), &form.of)?;
    let info = quantity.info();
    let unit = info.unit.symbol();
    faults.unit_of(&at.field("unit"), &form.unit, quantity);
    if form.method.is_none() && needs_method(quantity) {
        let expected = format!("how the {} was measured", quantity.label());
        let remedy = format!("Add `method: edge_to_edge`, or {}.", one_of(OTHER_METHODS));
        faults.say(at, "no method", expected, remedy);
    }
    Some(Reading {
        id: ReadingId(id),
        quantity,
        value: faults.number(&at.field("value"), form.value, info.least..=info.most, unit),
        sd: form
            .sd
            .map(|sd| faults.above_zero(&at.field("sd"), sd, info.most - info.least, unit)),
        modality,
        side,
        phase,
        method,
        image,
        set_aside,
    })
}

/// Methods of measuring a length in the heart other than from edge to edge.
const OTHER_METHODS: [&str; 3] = ["colour_jet", "contrast_stream", "balloon"];

/// Whether the method decides if a reading is like another: lengths in the
/// heart, which a jet or a balloon makes wider or narrower than its edges are.
pub(crate) fn needs_method(quantity: Quantity) -> bool {
    let info = quantity.info();
    info.unit == Unit::Mm && !matches!(info.structure, Structure::Vein | Structure::Artery)
}

fn absent(
    words: &[BareWord],
    readings: &[Reading],
    at: &FieldPlace,
    faults: &mut Faults,
) -> BTreeSet<Neighbour> {
    let at_words = at.field("out_of_reach");
    let mut absent = BTreeSet::new();
    for (index, word) in words.iter().enumerate() {
        let at_word = at_words.item(index);
        let Some(neighbour) = faults.known_word::<Neighbour>(&at_word, &word.0) else {
            continue;
        };
        absent.insert(neighbour);
        let read = readings.iter().position(|reading| {
            reading.set_aside.is_none()
                && neighbour_of(reading.quantity.info().structure) == Some(neighbour)
        });
        if let Some(read) = read {
            let reading = &readings[read];
            let line = at.field("readings").item(read).line();
            let expected = format!(
                "none of its readings in use; \"{}\" in line {line} is of the {}",
                excerpt(&reading.id.0),
                reading.quantity.label(),
            );
            let remedy = "Take it out here, or set the reading aside.";
            faults.add(&at_word, expected, remedy);
        }
    }
    absent
}

fn findings(form: Entries<BareWord>, at: &FieldPlace, faults: &mut Faults) -> Findings {
    let mut seen = LineOfName::new();
    let each = form.0.into_iter().enumerate();
    each.filter_map(|(index, (name, answer))| {
        let at = at.item(index);
        faults.once(&mut seen, &name, &at);
        let answer = faults.word(&at, &answer.0);
        let finding = Finding::from_word(&name);
        if finding.is_none() {
            let known = || Finding::ALL.into_iter().map(Finding::name);
            let found = format!("\"{name}\"");
            faults.say(&at, &found, one_of(known()), did_you_mean(&name, known()));
        }
        Some((finding?, answer))
    })
    .collect()
}

fn exclusions(
    form: Entries<BareWord>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> BTreeMap<String, Answer> {
    let mut seen = LineOfName::new();
    let each = form.0.into_iter().enumerate();
    each.map(|(index, (id, answer))| {
        let at = at.item(index);
        faults.once(&mut seen, &id, &at);
        (id, faults.word(&at, &answer.0))
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Step;
    use crate::shipped;
    use sizing::Facts;

    #[test]
    fn a_reading_knows_where_each_of_its_fields_stands() {
        let (name, text) = shipped::SCENARIOS[0];
        let case = parse_case(name, text).unwrap();
        let field = |id: &str, field| {
            let readings = &case.value().readings;
            let index = readings.iter().position(|reading| reading.id.0 == id)?;
            let span = case.span(&[
                Step::Field("readings"),
                Step::Item(index),
                Step::Field(field),
            ])?;
            Some(case.source().slice(&span))
        };
        assert_eq!(field("aortic-rim-long", "value"), Some("1.5"));
        assert_eq!(field("aortic-rim-long", "sd"), Some("0.5"));
        assert_eq!(
            field("aortic-rim-long", "image"),
            Some("\"parasternal long axis, end-diastole\"")
        );
        assert_eq!(field("weight", "sd"), None);
        assert_eq!(field("nobody", "value"), None);
        let prolapse = case
            .span(&[Step::Field("facts"), Step::Field("prolapse")])
            .unwrap();
        assert_eq!(case.source().slice(&prolapse), "none");
    }

    #[test]
    fn what_is_left_out_does_not_apply() {
        let text = r#"(
            format: 2, title: "x", site: inlet_muscular, edge: soft, access: antegrade,
            readings: [(id: "w", of: "patient.weight", value: -0.0e0, unit: "kg", by: bedside)],
        )"#;
        let case = parse_case("x", &text.replace("-0.0e0", "4"))
            .unwrap()
            .into_value();
        let reading = &case.readings[0];
        assert_eq!(
            (reading.side, reading.phase, reading.method, reading.sd),
            (Side::NoSide, Phase::AnyPhase, Method::Direct, None),
        );
        assert_eq!(case.facts, Facts::default());
        assert!(case.absent.is_empty() && case.exclusions.is_empty() && case.exceptions.is_empty());
        assert!(parse_case("x", text).is_err());
    }

    #[test]
    fn a_reading_set_aside_does_not_contradict_a_missing_neighbour() {
        let text = r#"(
            format: 2, title: "x", site: inlet_muscular, edge: soft, access: antegrade,
            readings: [(id: "r", of: "aortic.rim", value: 9, unit: "mm", by: angiography, method: edge_to_edge ASIDE)],
            out_of_reach: [aortic_valve],
        )"#;
        assert!(parse_case("x", &text.replace("ASIDE", ", set_aside: \"misread\"")).is_ok());
        assert!(parse_case("x", &text.replace("ASIDE", "")).is_err());
    }
}
