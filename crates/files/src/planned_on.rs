use crate::{Digest, Source, new_case};
use sizing::Case;
use sizing::trial::Procedure;

/// The digest of all that release criteria are based on: the readings, answers and
/// exceptions of a case in canonical order, then the bytes of rules, catalogues and
/// guidance, in the order in which they are given.
///
/// Title, lesson and procedure are not in it, nor the order in which readings stand: a
/// trial entered later does not change what was planned on.
pub fn planned_on<'a>(case: &Case, others: impl IntoIterator<Item = &'a Source>) -> String {
    let mut plan = Case {
        title: "plan".to_owned(),
        lesson: None,
        procedure: Procedure::default(),
        ..case.clone()
    };
    plan.readings.sort_by(|one, other| one.id.cmp(&other.id));
    plan.exceptions
        .sort_by_key(|exception| exception.rule.to_string());
    let digest = Digest::of(new_case(&plan).as_bytes());
    let others = others.into_iter();
    others
        .fold(digest, |digest, source| {
            digest.and(source.original().as_bytes())
        })
        .to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_case, shipped};
    use sizing::trial::Used;

    #[test]
    fn only_what_is_planned_on_changes_it() {
        let (name, text) = shipped::SCENARIOS[0];
        let case = parse_case(name, text).unwrap().into_value();
        let rules = Source::new(shipped::HOUSE_RULES.0, shipped::HOUSE_RULES.1);
        let digest = |case: &Case| planned_on(case, [&rules]);
        let planned = digest(&case);
        assert_eq!(planned.len(), 64);
        let mut same = case.clone();
        same.title = "another".into();
        same.lesson = None;
        same.readings.reverse();
        same.procedure.used = Used {
            contrast_ml: Some(3.0),
            ..Used::default()
        };
        assert_eq!(digest(&same), planned);
        let mut other = case.clone();
        other.readings[0].value += 0.5;
        assert_ne!(digest(&other), planned);
        assert_ne!(planned_on(&case, []), planned);
    }
}
