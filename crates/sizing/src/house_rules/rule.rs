use super::{Band, Exception, HouseRules, LimitRow, Parameter, RuleAddress};
use crate::{checks, words};
use measurement::Site;
use std::collections::BTreeMap;

/// A rule that a case may except, as it counts for a site.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Its lasting name.
    pub address: RuleAddress,
    /// What it is about, in a phrase.
    pub about: String,
    /// When it counts, as the end of a sentence; empty: always.
    pub when: String,
    /// What it states.
    pub stated: Stated,
    /// The unit of what it states.
    pub unit: &'static str,
    /// Its source.
    pub source: String,
    row: usize,
}

/// What a rule states.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stated {
    /// What stops and what calls for caution.
    Limits {
        /// What stops.
        stop: Band,
        /// What calls for caution.
        caution: Band,
    },
    /// The value of a parameter.
    Value(f64),
    /// What is assumed of a quantity that nobody read.
    Assumed {
        /// The value.
        value: f64,
        /// Its standard deviation.
        sd: f64,
    },
}

impl Stated {
    /// What it states, in words.
    pub fn says(self, unit: &str) -> String {
        self.says_against(self, unit)
    }

    /// The same where it replaces another: a limit that only the other has is
    /// said to be gone.
    pub fn says_against(self, other: Self, unit: &str) -> String {
        match self {
            Self::Limits { stop, caution } => {
                let (was_stop, was_caution) = match other {
                    Self::Limits { stop, caution } => (stop, caution),
                    _ => (Band::NONE, Band::NONE),
                };
                let bands = [("stop", stop, was_stop), ("caution", caution, was_caution)];
                let said = bands.into_iter().filter_map(|(word, band, was)| {
                    match (band.is_none(), was.is_none()) {
                        (false, _) => Some(format!("{word} {}", band.says(unit))),
                        (true, false) => Some(format!("no {word}")),
                        (true, true) => None,
                    }
                });
                said.collect::<Vec<_>>().join("; ")
            }
            Self::Value(value) => format!("{value} {unit}"),
            Self::Assumed { value, sd } => format!("{value} ± {sd} {unit}"),
        }
    }
}

impl Rule {
    /// What it says, and when.
    pub fn says(&self) -> String {
        format!("{}{}", self.stated.says(self.unit), self.when)
    }

    /// What an exception puts in its place, and when that counts.
    pub fn says_instead(&self, exception: &Exception) -> String {
        let instead = exception.instead.says_against(self.stated, self.unit);
        format!("{instead}{}", self.when)
    }

    /// Where the figures of an exception come from.
    pub fn source_of(&self, exception: &Exception) -> String {
        let (because, source) = (exception.because.trim(), &self.source);
        let was = self.stated.says(self.unit);
        format!("exception for this case: {because} (the house: {was}; {source})")
    }
}

impl HouseRules {
    /// The rules that a case at a site may except, in the order of the house.
    pub fn rules_at(&self, site: Site) -> Vec<Rule> {
        let limits = self.limits.iter().enumerate();
        let mut rules: Vec<Rule> = limits
            .filter(|(_, row)| super::rows::names(&row.sites, site))
            .map(|(index, row)| of_limit(row, index, site))
            .collect();
        // Rows of one name are told apart by their order.
        let mut named = BTreeMap::new();
        for rule in &mut rules {
            let count = named.entry(rule.address.clone()).or_insert(0);
            *count += 1;
            if *count > 1 {
                rule.address = RuleAddress(format!("{} #{count}", rule.address));
            }
        }
        let parameters = Parameter::ALL.iter().zip(&self.parameters).enumerate();
        rules.extend(parameters.map(|(row, (info, said))| Rule {
            address: RuleAddress(info.name.to_owned()),
            about: info.label.to_owned(),
            when: String::new(),
            stated: Stated::Value(said.value),
            unit: info.unit,
            source: said.source.clone(),
            row,
        }));
        let defaults = self.defaults.iter().enumerate();
        rules.extend(defaults.map(|(row, said)| Rule {
            address: RuleAddress(said.of.address().to_owned()),
            about: said.of.label().to_owned(),
            when: String::new(),
            stated: Stated::Assumed {
                value: said.value,
                sd: said.sd,
            },
            unit: said.of.unit().symbol(),
            source: said.source.clone(),
            row,
        }));
        rules
    }

    /// The rule of a name that a case at a site may except.
    pub fn rule(&self, address: &RuleAddress, site: Site) -> Option<Rule> {
        let mut rules = self.rules_at(site).into_iter();
        rules.find(|rule| rule.address == *address)
    }

    /// The rules with the exceptions of a case at a site in their place. An
    /// exception from a rule that the house does not have changes nothing.
    #[must_use]
    pub fn with(&self, exceptions: &[Exception], site: Site) -> Self {
        let mut rules = self.clone();
        for exception in exceptions {
            if let Some(rule) = self.rule(&exception.rule, site) {
                rules.except(&rule, exception);
            }
        }
        rules
    }

    fn except(&mut self, rule: &Rule, exception: &Exception) {
        let source = rule.source_of(exception);
        match (rule.stated, exception.instead) {
            (Stated::Limits { .. }, Stated::Limits { stop, caution }) => {
                let row = &mut self.limits[rule.row];
                (row.stop, row.caution, row.source) = (stop, caution, source);
            }
            (Stated::Value(_), Stated::Value(value)) => {
                let row = &mut self.parameters[rule.row];
                (row.value, row.source) = (value, source);
            }
            (Stated::Assumed { .. }, Stated::Assumed { value, sd }) => {
                let row = &mut self.defaults[rule.row];
                (row.value, row.sd, row.source) = (value, sd, source);
            }
            _ => {}
        }
    }

    /// What the exceptions of a case at a site change, a sentence for each: what
    /// counts, what the house says, and why.
    pub fn exceptions_said(&self, exceptions: &[Exception], site: Site) -> Vec<String> {
        let each = exceptions.iter();
        each.map(|exception| {
            let because = exception.because.trim();
            match self.rule(&exception.rule, site) {
                Some(rule) => format!(
                    "{}: {}. The house: {} ({}). Because: {because}",
                    rule.about,
                    rule.says_instead(exception),
                    rule.stated.says(rule.unit),
                    rule.source,
                ),
                None => format!(
                    "{}: the house has no such rule at this site; nothing is changed. \
                     Because: {because}",
                    exception.rule,
                ),
            }
        })
        .collect()
    }

    /// Whether a shape that fits must be likelier to hold than one that does not.
    pub fn chances_are_in_order(&self) -> bool {
        self.parameter(Parameter::ChanceDoesNotFit) <= self.parameter(Parameter::ChanceFits)
    }
}

fn of_limit(row: &LimitRow, index: usize, site: Site) -> Rule {
    let of: Vec<&str> = row.of.iter().map(|of| of.label()).collect();
    let about = format!("{} {}", row.check.replace('_', " "), words::list(&of));
    let when: Vec<String> = row.when.iter().map(|when| when.says()).collect();
    let when = match words::list(&when) {
        none if none.is_empty() => none,
        when => format!(" where {when}"),
    };
    Rule {
        address: RuleAddress::of_limit(row, site),
        about: about.trim_end().to_owned(),
        when,
        stated: Stated::Limits {
            stop: row.stop,
            caution: row.caution,
        },
        unit: checks::unit_of(&row.check).unwrap_or_default(),
        source: row.source.clone(),
        row: index,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house_rules::{Condition, Sourced};

    fn low(low: f64) -> Band {
        Band {
            low: Some(low),
            high: None,
        }
    }

    fn row(sites: &[Site], when: &[Condition], stop: Band) -> LimitRow {
        LimitRow {
            check: "hold_left".into(),
            of: Vec::new(),
            sites: sites.to_vec(),
            when: when.to_vec(),
            stop,
            caution: low(3.0),
            source: "common practice, no source".into(),
        }
    }

    fn rules(limits: Vec<LimitRow>) -> HouseRules {
        HouseRules {
            title: "rules".into(),
            parameters: Parameter::ALL
                .iter()
                .map(|info| Sourced {
                    value: info.least,
                    source: "assumption".into(),
                })
                .collect(),
            limits,
            defaults: Vec::new(),
            doubts: Vec::new(),
            scales: Vec::new(),
            biases: Vec::new(),
            preferences: Vec::new(),
            exclusions: Vec::new(),
            danger_arcs: Vec::new(),
            rim_rules: Vec::new(),
            notes: Vec::new(),
        }
    }

    fn exception(rule: &str, stop: Band, caution: Band) -> Exception {
        Exception {
            rule: RuleAddress(rule.into()),
            instead: Stated::Limits { stop, caution },
            because: "a thin septum".into(),
        }
    }

    const SITE: Site = Site::InletMuscular;

    #[test]
    fn rows_of_one_check_have_names_of_their_own() {
        let small = Condition::WeightUnder(10.0);
        let rules = rules(vec![
            row(&[], &[], low(0.5)),
            row(&[Site::TrabecularMuscular], &[], low(0.6)),
            row(&[SITE], &[], low(0.7)),
            row(&[SITE], &[small, Condition::Prolapse], low(0.8)),
            row(&[], &[], low(0.9)),
        ]);
        let limits = rules.rules_at(SITE).into_iter();
        let limits = limits.filter(|rule| matches!(rule.stated, Stated::Limits { .. }));
        let names: Vec<String> = limits.map(|rule| rule.address.0).collect();
        let here = "hold_left at inlet_muscular";
        assert_eq!(
            names,
            [
                "hold_left",
                here,
                &format!("{here} when prolapse, weight_under(10)"),
                "hold_left #2",
            ]
        );
    }

    #[test]
    fn an_exception_changes_one_rule_and_says_so_in_its_source() {
        let house = rules(vec![
            row(&[], &[], low(0.5)),
            row(&[], &[Condition::Prolapse], low(0.5)),
        ]);
        let except = exception("hold_left", low(2.0), Band::NONE);
        let here = house.with(std::slice::from_ref(&except), SITE);
        assert_eq!(
            (here.limits[0].stop, here.limits[0].caution),
            (low(2.0), Band::NONE)
        );
        assert_eq!(
            here.limits[0].source,
            "exception for this case: a thin septum (the house: stop under 0.5 mm; caution \
             under 3 mm; common practice, no source)"
        );
        assert_eq!(here.limits[1], house.limits[1]);
        assert_eq!(here.parameters, house.parameters);
        assert_eq!(
            house.exceptions_said(&[except], SITE),
            [
                "hold left: stop under 2 mm; no caution. The house: stop under 0.5 mm; caution \
              under 3 mm (common practice, no source). Because: a thin septum"
            ]
        );
    }

    #[test]
    fn an_exception_from_no_rule_changes_nothing_and_is_said() {
        let house = rules(vec![row(&[Site::TrabecularMuscular], &[], low(0.5))]);
        let except = exception("hold_left at trabecular_muscular", low(2.0), Band::NONE);
        assert_eq!(house.with(std::slice::from_ref(&except), SITE), house);
        let said = house.exceptions_said(&[except], SITE);
        assert!(said[0].contains("nothing is changed"), "{said:?}");
    }

    #[test]
    fn a_band_that_neither_has_is_not_spoken_of() {
        let stated = |stop, caution| Stated::Limits { stop, caution };
        let (none, some) = (stated(Band::NONE, Band::NONE), stated(low(1.0), Band::NONE));
        assert_eq!(some.says("mm"), "stop under 1 mm");
        assert_eq!(none.says_against(some, "mm"), "no stop");
        assert_eq!(Stated::Value(0.5).says("share"), "0.5 share");
    }
}
