use super::{Condition, LimitRow, Parameter, ParameterInfo};
use crate::{Subject, check_name};
use measurement::{Quantity, Site, Unit};
use std::fmt;
use std::str::FromStr;

/// The lasting name of a rule that a case may except.
///
/// A parameter goes by its word, what is assumed by the address of its quantity, a
/// row of limits by its check and its own id: `waist_fit.small_child`. A row without
/// an id is named by what it limits, of what, whether for this site alone and when:
/// `clearance of aortic_valve, mitral_valve`,
/// `waist_fit at inlet_muscular when weight_under(10)`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleAddress {
    /// A parameter.
    Parameter(Parameter),
    /// What is assumed of a quantity.
    Assumed(Quantity),
    /// A row of limits.
    Limits(LimitsAddress),
}

/// The name of a row of limits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LimitsAddress {
    /// The id of its check.
    pub check: &'static str,
    /// Which of the rows of that check it is.
    pub row: RowName,
}

/// Which row of a check an address names.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RowName {
    /// The row with this id.
    Id(String),
    /// A row without an id.
    Described {
        /// The subjects it names, in alphabetical order; empty: every subject.
        of: Vec<&'static str>,
        /// The site of the case, where the row is for some sites alone.
        at: Option<Site>,
        /// The conditions as house rules write them, in alphabetical order.
        when: Vec<String>,
        /// Which of the rows of this description it is, from 1. More than one have
        /// it in files of format 1 alone.
        number: usize,
    },
}

/// A text that names no rule a house could have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no centre has a rule \"{0}\"")]
pub struct UnknownRule(pub String);

/// What kind of rule an address names.
#[derive(Clone, Copy, Debug)]
pub enum RuleKind {
    /// A row of limits of a check, in this unit.
    Limit(Unit),
    /// A parameter.
    Parameter(&'static ParameterInfo),
    /// What is assumed of a quantity.
    Assumed(Quantity),
}

impl RuleAddress {
    /// What kind of rule it names, whether a house has it or not.
    pub fn kind(&self) -> RuleKind {
        match self {
            Self::Parameter(parameter) => RuleKind::Parameter(parameter.info()),
            Self::Assumed(quantity) => RuleKind::Assumed(*quantity),
            Self::Limits(limits) => {
                RuleKind::Limit(check_name::unit_of(limits.check).unwrap_or(Unit::Bare))
            }
        }
    }

    /// The check, parameter or quantity that it is about, as files name it.
    pub fn about(&self) -> &'static str {
        match self {
            Self::Parameter(parameter) => parameter.info().name,
            Self::Assumed(quantity) => quantity.address(),
            Self::Limits(limits) => limits.check,
        }
    }

    /// The address of a row of limits that counts for a site; `None` for a row of a
    /// check that there is not.
    pub(super) fn of_limit(row: &LimitRow, site: Site) -> Option<Self> {
        let check = check_name::check_ids()
            .into_iter()
            .find(|id| *id == row.check)?;
        let row = match &row.id {
            Some(id) => RowName::Id(id.clone()),
            None => RowName::described(row, site),
        };
        Some(Self::Limits(LimitsAddress { check, row }))
    }
}

impl RowName {
    /// What a row says of itself at a site, whether it has an id or not.
    pub(super) fn described(row: &LimitRow, site: Site) -> Self {
        let mut of: Vec<&str> = row.of.iter().map(|of| of.name()).collect();
        let mut when: Vec<String> = row.when.iter().map(ToString::to_string).collect();
        // What is written in another order is the same.
        of.sort_unstable();
        when.sort_unstable();
        Self::Described {
            of,
            at: (!row.sites.is_empty()).then_some(site),
            when,
            number: 1,
        }
    }
}

impl FromStr for RuleAddress {
    type Err = UnknownRule;

    fn from_str(text: &str) -> Result<Self, UnknownRule> {
        if let Some(info) = Parameter::named(text) {
            return Ok(Self::Parameter(info.parameter));
        }
        if let Some(quantity) = Quantity::from_address(text) {
            return Ok(Self::Assumed(quantity));
        }
        limits(text)
            .map(Self::Limits)
            .ok_or_else(|| UnknownRule(text.to_owned()))
    }
}

/// The row of limits that a text names.
fn limits(text: &str) -> Option<LimitsAddress> {
    let known = |name: &str| check_name::check_ids().into_iter().find(|id| *id == name);
    let (name, said) = text.split_once(' ').unwrap_or((text, ""));
    if let Some((check, id)) = name.split_once('.') {
        let row = RowName::Id(id.to_owned());
        let check = known(check).filter(|_| said.is_empty() && !id.is_empty())?;
        return Some(LimitsAddress { check, row });
    }
    let (said, number) = match said.rsplit_once('#') {
        Some((said, number)) => (said, number.parse().ok().filter(|number| *number > 1)?),
        None => (said, 1),
    };
    let said = said.trim_end();
    let (said, when) = cut(said, "when ");
    let (said, at) = cut(said, "at ");
    let (rest, of) = cut(said, "of ");
    let mut of = each(of)
        .map(|name| {
            let subject = Subject::ALL.into_iter().find(|of| of.name() == name);
            subject.map(Subject::name)
        })
        .collect::<Option<Vec<_>>>()?;
    let mut when = each(when)
        .map(|when| Condition::is_word(when).then(|| when.to_owned()))
        .collect::<Option<Vec<_>>>()?;
    of.sort_unstable();
    when.sort_unstable();
    let at = match at {
        Some(name) => Some(Site::ALL.into_iter().find(|site| site.name() == name)?),
        None => None,
    };
    let row = RowName::Described {
        of,
        at,
        when,
        number,
    };
    let check = known(name).filter(|_| rest.is_empty())?;
    Some(LimitsAddress { check, row })
}

/// What stands before a word and what stands behind it.
fn cut<'a>(said: &'a str, word: &str) -> (&'a str, Option<&'a str>) {
    match said.find(word) {
        Some(0) => ("", Some(&said[word.len()..])),
        Some(at) if said[..at].ends_with(' ') => {
            (said[..at].trim_end(), Some(&said[at + word.len()..]))
        }
        _ => (said, None),
    }
}

fn each(list: Option<&str>) -> impl Iterator<Item = &str> {
    list.into_iter().flat_map(|list| list.split(", "))
}

impl fmt::Display for RuleAddress {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self::Limits(LimitsAddress { check, row }) = self else {
            return formatter.write_str(self.about());
        };
        formatter.write_str(check)?;
        match row {
            RowName::Id(id) => write!(formatter, ".{id}"),
            RowName::Described {
                of,
                at,
                when,
                number,
            } => {
                if !of.is_empty() {
                    write!(formatter, " of {}", of.join(", "))?;
                }
                if let Some(at) = at {
                    write!(formatter, " at {}", at.name())?;
                }
                if !when.is_empty() {
                    write!(formatter, " when {}", when.join(", "))?;
                }
                if *number > 1 {
                    write!(formatter, " #{number}")?;
                }
                Ok(())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_name_is_read_as_it_is_written() {
        for text in [
            "tie",
            "aortic.rim",
            "waist_fit",
            "waist_fit.small_child",
            "clearance of aortic_valve, mitral_valve",
            "waist_fit at inlet_muscular when prolapse, weight_under(10)",
            "leaflet_chordae of mitral_valve when chordae_on_edge",
            "length_fit #2",
            "clearance of aortic_valve #3",
        ] {
            let address: RuleAddress = text.parse().unwrap();
            assert_eq!(address.to_string(), text);
        }
    }

    #[test]
    fn what_no_house_could_have_is_refused() {
        for text in [
            "",
            "waist",
            "waist_fit.",
            "waist_fit.a b",
            "waist_fit of nobody",
            "waist_fit at the_apex",
            "waist_fit when raining",
            "waist_fit #1",
            "waist_fit #x",
            "waist_fit something of vein",
        ] {
            assert_eq!(
                text.parse::<RuleAddress>(),
                Err(UnknownRule(text.to_owned()))
            );
        }
    }
}
