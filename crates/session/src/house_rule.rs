use measurement::Site;
use sizing::house_rules::{Exception, Rule, Stated};
use sizing::{Case, HouseRules};

/// One rule of the house, as it is read for a case.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseRule {
    /// What kind of rule it is.
    pub kind: &'static str,
    /// What it is about.
    pub about: String,
    /// What counts for the case.
    pub says: String,
    /// Where that comes from.
    pub source: String,
    /// The rule as the house has it, where a case may except it.
    pub rule: Option<Rule>,
    /// The exception of the case from it.
    pub exception: Option<Exception>,
}

const SCALES: &str = "Scale errors";
const EXCLUSIONS: &str = "Exclusions";
const SCHEDULE: &str = "Follow-up, days after the procedure";
const LATE: &str = "Published of later years: of cohorts, not of this child";
const WIDE_BOUNDS: &str = "Wide bounds, outside which a value is asked about";
/// The same where the file of the rules has none.
const SHIPPED_BOUNDS: &str =
    "Wide bounds, outside which a value is asked about (as shipped: the file has none)";

/// What kind of source a rule has, so that it is said once over the rules it is
/// true of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SourceKind {
    /// A source of its own.
    Sourced,
    /// A fact of the trade that no source was found for.
    CommonPractice,
    /// An assumption of the program's.
    Assumption,
}

impl HouseRule {
    fn fixed(kind: &'static str, about: String, says: String, source: &str) -> Self {
        Self {
            kind,
            about,
            says,
            source: source.to_owned(),
            rule: None,
            exception: None,
        }
    }

    /// A rule that a case may except, with the exception of this one.
    fn of(rule: Rule, exception: Option<Exception>) -> Self {
        let kind = match rule.stated {
            Stated::Limits { .. } => "Limits",
            Stated::Value(_) => "Parameters",
            Stated::Assumed { .. } => "Assumed where nobody measured it",
        };
        let (says, source) = match &exception {
            Some(exception) => (rule.says_instead(exception), rule.source_of(exception)),
            None => (rule.says(), rule.source.clone()),
        };
        Self {
            kind,
            about: rule.about.clone(),
            says,
            source,
            rule: Some(rule),
            exception,
        }
    }

    /// What kind of source it has in the house, exception or not.
    pub fn source_kind(&self) -> SourceKind {
        let source = self.rule.as_ref().map_or(&self.source, |rule| &rule.source);
        match source.as_str() {
            "common practice, no source" => SourceKind::CommonPractice,
            "assumption" => SourceKind::Assumption,
            _ => SourceKind::Sourced,
        }
    }

    /// Why no case may except it, of a rule of which that is so.
    pub(crate) fn why_fixed(&self) -> &'static str {
        match self.kind {
            SCALES => {
                "a scale error is that of a way of reading, not of one child: \
                 give a reading an SD of its own instead"
            }
            WIDE_BOUNDS | SHIPPED_BOUNDS => "wide bounds judge no size: confirm the value instead",
            EXCLUSIONS => "an exclusion is answered at the end of the readings, not excepted",
            SCHEDULE => "the schedule is your centre's for every child: change its rules file",
            _ => "a note sets no limit, so there is nothing to except",
        }
    }
}

/// Every rule of the house that can count for a case, kind by kind, and within a
/// kind by what its source is.
pub(crate) fn house_rules(rules: &HouseRules, case: &Case) -> Vec<HouseRule> {
    let is_for = |sites: &[Site]| sites.is_empty() || sites.contains(&case.site);
    let exception = |rule: &Rule| {
        let mut all = case.exceptions.iter();
        let is_of = |one: &&Exception| {
            let its = rules.rule(&one.rule, case.site);
            its.is_some_and(|its| its.address == rule.address)
        };
        all.find(is_of).cloned()
    };
    let excepted = rules.rules_at(case.site).into_iter();
    let mut all: Vec<HouseRule> = excepted
        .map(|rule| {
            let exception = exception(&rule);
            HouseRule::of(rule, exception)
        })
        .collect();
    all.extend(rules.scales.iter().map(|row| {
        let about = row.modality.label().to_owned();
        let says = format!("{} % scale error of all its lengths", 100.0 * row.sd);
        HouseRule::fixed(SCALES, about, says, &row.source)
    }));
    all.extend(rules.exclusions_for(case.site).map(|row| {
        let says = "stops every shape".to_owned();
        HouseRule::fixed(EXCLUSIONS, row.fact.clone(), says, &row.source)
    }));
    let notes = rules.notes.iter().filter(|row| is_for(&row.sites));
    all.extend(
        notes.map(|row| HouseRule::fixed("Notes", row.says.clone(), String::new(), &row.source)),
    );
    all.extend(
        rules
            .schedule
            .iter()
            .filter(|row| row.is_of(case.site))
            .map(|row| {
                let of: Vec<&str> = row.of.iter().map(|of| of.label()).collect();
                let about = match of.join(", ") {
                    none if none.is_empty() => row.what.label().to_owned(),
                    of => format!("{}, {of}", row.what.label()),
                };
                let says = format!("{}; {}", row.says(), row.how);
                HouseRule::fixed(SCHEDULE, about, says, &row.source)
            }),
    );
    let late = rules.late.iter().filter(|row| is_for(&row.sites));
    all.extend(
        late.map(|row| HouseRule::fixed(LATE, row.says.clone(), String::new(), &row.source)),
    );
    let kind = if rules.from_shipped.contains(&"wide_bounds") {
        SHIPPED_BOUNDS
    } else {
        WIDE_BOUNDS
    };
    let bounds = rules.wide_bounds.iter();
    all.extend(bounds.filter(|row| is_for(&row.sites)).map(|row| {
        let labels: Vec<&str> = row.of.iter().map(|one| one.label()).collect();
        HouseRule::fixed(kind, labels.join("; "), row.says(), &row.source)
    }));
    let kinds: Vec<&str> = all.iter().map(|rule| rule.kind).collect();
    let place = |rule: &HouseRule| kinds.iter().position(|kind| *kind == rule.kind);
    all.sort_by_key(|rule| (place(rule), rule.source_kind()));
    all
}

#[cfg(test)]
mod tests {
    use crate::fixture;

    #[test]
    fn every_rule_names_its_source() {
        let session = fixture::infant();
        let rules = session.house_rules();
        assert!(rules.len() > 40);
        for rule in &rules {
            assert!(
                !rule.about.is_empty() && !rule.source.is_empty(),
                "{rule:?}"
            );
        }
    }
}
