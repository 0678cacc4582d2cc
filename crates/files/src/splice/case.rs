use super::list::Named;
use super::procedure::procedure;
use super::{Splice, SpliceError, faithful, names};
use crate::Word;
use crate::case::{CASE_FIELDS, CaseFile, parse_case};
use crate::document::Step;
use crate::exceptions::{band_fields, exception_fields};
use crate::facts::fact_fields;
use crate::kind::CASE_CAP;
use crate::reading_text::reading_fields;
use crate::ron_text::{Field, quoted, record};
use measurement::{Finding, Reading};
use sizing::house_rules::{Exception, Stated};
use sizing::{Answer, Case, Facts, Neighbour};
use std::borrow::Cow;
use std::collections::BTreeMap;

const READINGS: Named<Reading> = Named {
    name: |reading| Cow::Borrowed(&reading.id.0),
    write: |reading, style| record(&reading_fields(reading), style),
};

const EXCEPTIONS: Named<Exception> = Named {
    name: |exception| Cow::Owned(exception.rule.to_string()),
    write: |exception, style| record(&exception_fields(exception), style),
};

impl CaseFile {
    /// The file changed to another case: comments, order and layout stay where the two
    /// agree.
    pub fn with(&self, case: &Case) -> Result<Self, SpliceError> {
        let was = self.value();
        if was == case {
            return Ok(self.clone());
        }
        let mut splice = Splice::new(self.source().text());
        splice.set_fields(&[], &head(was), &head(case), &CASE_FIELDS);
        READINGS.sync(
            &mut splice,
            &[Step::Field("readings")],
            &was.readings,
            &case.readings,
            |splice, at, was, wanted| {
                splice.set_record(at, &reading_fields(was), &reading_fields(wanted));
            },
        );
        absent(&mut splice, was, case);
        facts(&mut splice, &was.facts, &case.facts);
        let by_name = |case: &Case| -> BTreeMap<String, Answer> {
            let answers = case.findings.iter();
            answers
                .map(|(finding, answer)| (finding.name().to_owned(), *answer))
                .collect()
        };
        answers(&mut splice, "findings", &by_name(was), &by_name(case));
        answers(&mut splice, "exclusions", &was.exclusions, &case.exclusions);
        exceptions(&mut splice, &was.exceptions, &case.exceptions);
        procedure(&mut splice, &was.procedure, &case.procedure);
        let text = self.source().marked(splice.text);
        faithful(parse_case(self.source().name(), &text), case, CASE_CAP)
    }

    /// The file as it is saved for another case: like
    /// [`with`](Self::with), and in today's words even where nothing is changed.
    pub fn saved_with(&self, case: &Case) -> Result<Self, SpliceError> {
        let file = self.with(case)?;
        if file.source().is_in_other_words() {
            let text = file.in_todays_words();
            return faithful(parse_case(self.source().name(), &text), case, CASE_CAP);
        }
        Ok(file)
    }
}

fn head(case: &Case) -> [Field; 5] {
    [
        ("title", Some(quoted(&case.title))),
        ("lesson", case.lesson.as_deref().map(quoted)),
        ("site", Some(case.site.word().to_owned())),
        ("edge", Some(case.edge.word().to_owned())),
        ("access", Some(case.route.word().to_owned())),
    ]
}

fn absent(splice: &mut Splice, was: &Case, wanted: &Case) {
    const LIST: &str = "out_of_reach";
    let list = [Step::Field(LIST)];
    for gone in was.absent.difference(&wanted.absent) {
        // A word may stand twice.
        while let Some(index) = splice.index_of_word(&list, gone.word()) {
            splice.remove(&list, index);
        }
    }
    for new in wanted.absent.difference(&was.absent) {
        splice.ensure_field(&[], LIST, "[]", &CASE_FIELDS);
        splice.push(&list, Neighbour::word(*new));
    }
}

fn facts(splice: &mut Splice, was: &Facts, wanted: &Facts) {
    if was != wanted {
        splice.ensure_field(&[], "facts", "()", &CASE_FIELDS);
        let group = [Step::Field("facts")];
        splice.set_record(&group, &fact_fields(was), &fact_fields(wanted));
    }
    if was.conduction != wanted.conduction {
        // An older file answers it among the findings, where it would contradict.
        let findings = [Step::Field("findings")];
        splice.set_entry(&findings, Finding::NormalRhythm.name(), None);
    }
}

fn answers(
    splice: &mut Splice,
    map: &str,
    was: &BTreeMap<String, Answer>,
    wanted: &BTreeMap<String, Answer>,
) {
    let group = [Step::Field(map)];
    for gone in was.keys().filter(|key| !wanted.contains_key(*key)) {
        splice.set_entry(&group, gone, None);
    }
    for (key, answer) in wanted {
        if was.get(key) != Some(answer) {
            splice.ensure_field(&[], map, "{}", &CASE_FIELDS);
            splice.set_entry(&group, key, Some(answer.word()));
        }
    }
}

fn exceptions(splice: &mut Splice, was: &[Exception], wanted: &[Exception]) {
    const LIST: &str = "exceptions";
    if was != wanted {
        splice.ensure_field(&[], LIST, "[]", &CASE_FIELDS);
    }
    EXCEPTIONS.sync(
        splice,
        &[Step::Field(LIST)],
        was,
        wanted,
        |splice, at, was, wanted| {
            let (mut before, mut after) = (exception_fields(was), exception_fields(wanted));
            let order = names(&after);
            if let (
                Stated::Limits { stop, caution },
                Stated::Limits {
                    stop: wanted_stop,
                    caution: wanted_caution,
                },
            ) = (was.instead, wanted.instead)
            {
                for (name, was, wanted) in [
                    ("limit", stop, wanted_stop),
                    ("warning", caution, wanted_caution),
                ] {
                    let band: Vec<Step> = at.iter().copied().chain([Step::Field(name)]).collect();
                    let (was, wanted) = (band_fields(was), band_fields(wanted));
                    splice.set_record(&band, &was, &wanted);
                }
                // They are written, limit by limit.
                for fields in [&mut before, &mut after] {
                    fields.retain(|(name, _)| !matches!(*name, "limit" | "warning"));
                }
            }
            splice.set_fields(at, &before, &after, &order);
        },
    );
}
