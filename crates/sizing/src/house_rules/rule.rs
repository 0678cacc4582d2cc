use super::{
    Exception, HouseRules, LimitRow, LimitsAddress, Parameter, RowName, RuleAddress, Stated,
};
use crate::{check_name, words};
use measurement::{Site, Unit};
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
    pub unit: Unit,
    /// Its source.
    pub source: String,
    /// Its row among those of its kind.
    pub(super) row: usize,
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
        format!("exception for this case: {because} (your centre: {was}; {source})")
    }
}

/// Checks whose rows spoke of every site once: their old names name no site.
const NARROWED: [&str; 1] = ["waist_ratio"];

impl HouseRules {
    /// The rules that a case at a site may except, in the order of the house.
    pub fn rules_at(&self, site: Site) -> Vec<Rule> {
        let limits = self.limits.iter().enumerate();
        let mut rules: Vec<Rule> = limits
            .filter(|(_, row)| super::rows::names(&row.sites, site))
            .filter_map(|(index, row)| of_limit(row, index, site))
            .collect();
        // Rows of one description are told apart by their order; a file of format 2
        // gives them ids.
        let mut named = BTreeMap::new();
        for rule in &mut rules {
            let count = named.entry(rule.address.clone()).or_insert(0);
            *count += 1;
            if let RuleAddress::Limits(LimitsAddress {
                row: RowName::Described { number, .. },
                ..
            }) = &mut rule.address
            {
                *number = *count;
            }
        }
        let parameters = Parameter::ALL.iter().zip(&self.parameters).enumerate();
        rules.extend(parameters.map(|(row, (info, said))| Rule {
            address: RuleAddress::Parameter(info.parameter),
            about: info.label.to_owned(),
            when: String::new(),
            stated: Stated::Value(said.value),
            unit: info.unit,
            source: said.source.clone(),
            row,
        }));
        let defaults = self.defaults.iter().enumerate();
        let defaults = defaults.filter(|(_, row)| super::rows::names(&row.sites, site));
        rules.extend(defaults.map(|(row, said)| Rule {
            address: RuleAddress::Assumed(said.of),
            about: said.of.label().to_owned(),
            when: String::new(),
            stated: Stated::Assumed {
                value: said.value,
                sd: said.sd,
            },
            unit: said.of.unit(),
            source: said.source.clone(),
            row,
        }));
        rules
    }

    /// The rule of a name that a case at a site may except. A description names a row
    /// with an id too, where it is the only one of that description; a description
    /// from before its row was narrowed to sites is that of the row as it is now.
    pub fn rule(&self, address: &RuleAddress, site: Site) -> Option<Rule> {
        let mut rules = self.rules_at(site);
        let same = rules.iter().position(|rule| rule.address == *address);
        let index = same.or_else(|| {
            let RuleAddress::Limits(wanted) = address else {
                return None;
            };
            self.only_described(&rules, wanted, site)
                .or_else(|| self.narrowed(&rules, wanted, site))
        })?;
        Some(rules.swap_remove(index))
    }

    /// The indices of rows of limits without an id that cannot be told from another
    /// row by what they say of themselves at some site.
    pub fn limits_alike(&self) -> Vec<usize> {
        let without_id: Vec<usize> = (0..self.limits.len())
            .filter(|&index| self.limits[index].id.is_none())
            .collect();
        let is_alike = |&index: &usize, &other: &usize| {
            let (one, two) = (&self.limits[index], &self.limits[other]);
            index != other
                && one.check == two.check
                && Site::ALL.into_iter().any(|site| {
                    super::rows::names(&one.sites, site)
                        && super::rows::names(&two.sites, site)
                        && RowName::described(one, site) == RowName::described(two, site)
                })
        };
        without_id
            .iter()
            .filter(|index| without_id.iter().any(|other| is_alike(index, other)))
            .copied()
            .collect()
    }

    /// The index of the only row of a description.
    fn only_described(&self, rules: &[Rule], wanted: &LimitsAddress, site: Site) -> Option<usize> {
        let is_described = |rule: &Rule| {
            let row = self.limits.get(rule.row);
            matches!(rule.stated, Stated::Limits { .. })
                && row.is_some_and(|row| {
                    row.check == wanted.check && RowName::described(row, site) == wanted.row
                })
        };
        let mut all = rules
            .iter()
            .enumerate()
            .filter(|(_, rule)| is_described(rule));
        let (index, _) = all.next()?;
        all.next().is_none().then_some(index)
    }

    /// The index of a row that was described without a site once.
    fn narrowed(&self, rules: &[Rule], wanted: &LimitsAddress, site: Site) -> Option<usize> {
        let mut wanted = wanted.clone();
        match &mut wanted.row {
            RowName::Described { at, .. } if at.is_none() => *at = Some(site),
            _ => return None,
        }
        let is_narrowed = NARROWED.contains(&wanted.check);
        is_narrowed.then(|| self.only_described(rules, &wanted, site))?
    }
}

fn of_limit(row: &LimitRow, index: usize, site: Site) -> Option<Rule> {
    let of: Vec<&str> = row.of.iter().map(|of| of.label()).collect();
    let check = row.check.replace('_', " ").replace("av block", "AV block");
    let about = format!("{check} {}", words::list(&of));
    let when: Vec<String> = row.when.iter().map(|when| when.says()).collect();
    let when = match words::list(&when) {
        none if none.is_empty() => none,
        when => format!(" where {when}"),
    };
    Some(Rule {
        address: RuleAddress::of_limit(row, site)?,
        about: about.trim_end().to_owned(),
        when,
        stated: Stated::Limits {
            stop: row.stop,
            caution: row.caution,
        },
        unit: check_name::unit_of(&row.check).unwrap_or(Unit::Bare),
        source: row.source.clone(),
        row: index,
    })
}
