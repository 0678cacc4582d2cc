use super::{Exception, HouseRules, Parameter, Rule, Stated};
use measurement::Site;

impl HouseRules {
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
    pub(crate) fn exceptions_said(&self, exceptions: &[Exception], site: Site) -> Vec<String> {
        let each = exceptions.iter();
        each.map(|exception| {
            let because = exception.because.trim();
            match self.rule(&exception.rule, site) {
                Some(rule) => format!(
                    "{}: {}. Your centre: {} ({}). Because: {because}",
                    rule.about,
                    rule.says_instead(exception),
                    rule.stated.says(rule.unit),
                    rule.source,
                ),
                None => format!(
                    "{}: your centre has no such rule at this site; nothing is changed. \
                     Because: {because}",
                    exception.rule,
                ),
            }
        })
        .collect()
    }

    /// Whether the chance asked of what fits is no lower than that of what does not.
    pub fn chances_are_in_order(&self) -> bool {
        self.parameter(Parameter::ChanceDoesNotFit) <= self.parameter(Parameter::ChanceFits)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house_rules::{Band, Condition, LimitRow};

    fn low(low: f64) -> Band {
        Band {
            low: Some(low),
            high: None,
        }
    }

    fn row(sites: &[Site], when: &[Condition], stop: Band) -> LimitRow {
        LimitRow {
            id: None,
            check: "rim_overlap_left".into(),
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
            limits,
            ..HouseRules::new("rules".into())
        }
    }

    fn exception(rule: &str, stop: Band, caution: Band) -> Exception {
        Exception {
            rule: rule.parse().unwrap(),
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
        let names: Vec<String> = limits.map(|rule| rule.address.to_string()).collect();
        let here = "rim_overlap_left at inlet_muscular";
        assert_eq!(
            names,
            [
                "rim_overlap_left",
                here,
                &format!("{here} when prolapse, weight_under(10)"),
                "rim_overlap_left #2",
            ]
        );
    }

    #[test]
    fn a_row_with_an_id_is_found_wherever_it_stands() {
        let with_id = |id: &str, stop| LimitRow {
            id: Some(id.into()),
            ..row(&[], &[], stop)
        };
        let (one, other) = (with_id("one", low(0.5)), with_id("other", low(0.9)));
        let except = exception("rim_overlap_left.other", low(2.0), Band::NONE);
        let changed = |house: HouseRules| {
            let here = house.with(std::slice::from_ref(&except), SITE).limits;
            let mut changed = here.into_iter().filter(|row| row.stop == low(2.0));
            let row = changed.next().unwrap();
            assert_eq!(changed.next(), None);
            row.id
        };
        let in_order = rules(vec![one.clone(), other.clone()]);
        let turned = rules(vec![other.clone(), one]);
        assert_eq!(changed(in_order.clone()), Some("other".to_owned()));
        assert_eq!(changed(turned), Some("other".to_owned()));
        // Of two rows alike the description names neither, and none by its order.
        for text in ["rim_overlap_left", "rim_overlap_left #2"] {
            assert_eq!(in_order.rule(&text.parse().unwrap(), SITE), None);
        }
        let alone = rules(vec![other]);
        assert!(
            alone
                .rule(&"rim_overlap_left".parse().unwrap(), SITE)
                .is_some()
        );
    }

    #[test]
    fn an_exception_changes_one_rule_and_says_so_in_its_source() {
        let house = rules(vec![
            row(&[], &[], low(0.5)),
            row(&[], &[Condition::Prolapse], low(0.5)),
        ]);
        let except = exception("rim_overlap_left", low(2.0), Band::NONE);
        let here = house.with(std::slice::from_ref(&except), SITE);
        assert_eq!(
            (here.limits[0].stop, here.limits[0].caution),
            (low(2.0), Band::NONE)
        );
        assert_eq!(
            here.limits[0].source,
            "exception for this case: a thin septum (your centre: limit under 0.5 mm; warning \
             under 3 mm; common practice, no source)"
        );
        assert_eq!(here.limits[1], house.limits[1]);
        assert_eq!(here.parameters, house.parameters);
        assert_eq!(
            house.exceptions_said(&[except], SITE),
            [
                "rim overlap left: limit under 2 mm; no warning. Your centre: limit under 0.5 mm; warning \
              under 3 mm (common practice, no source). Because: a thin septum"
            ]
        );
    }

    #[test]
    fn an_exception_from_before_a_row_was_narrowed_to_sites_still_counts() {
        let except = exception("waist_ratio", low(2.0), Band::NONE);
        let mut narrowed = rules(vec![row(&[SITE], &[], low(0.5))]);
        narrowed.limits[0].check = "waist_ratio".into();
        let here = narrowed.with(std::slice::from_ref(&except), SITE);
        assert_eq!(here.limits[0].stop, low(2.0));
        let elsewhere = Site::TrabecularMuscular;
        assert!(narrowed.rule(&except.rule, elsewhere).is_none());
        // What was never said of every site has no such name.
        let other = rules(vec![row(&[SITE], &[], low(0.5))]);
        assert!(
            other
                .rule(&"rim_overlap_left".parse().unwrap(), SITE)
                .is_none()
        );
    }

    #[test]
    fn an_exception_from_no_rule_changes_nothing_and_is_said() {
        let house = rules(vec![row(&[Site::TrabecularMuscular], &[], low(0.5))]);
        let except = exception(
            "rim_overlap_left at trabecular_muscular",
            low(2.0),
            Band::NONE,
        );
        assert_eq!(house.with(std::slice::from_ref(&except), SITE), house);
        let said = house.exceptions_said(&[except], SITE);
        assert!(said[0].contains("nothing is changed"), "{said:?}");
    }
}
