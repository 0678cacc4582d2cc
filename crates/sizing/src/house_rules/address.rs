use super::{LimitRow, Parameter, ParameterInfo};
use crate::checks;
use measurement::{Quantity, Site, Unit};
use std::fmt;

/// The lasting name of a rule that a case may except, one of its kind among the
/// rules that count for a site.
///
/// A row of limits is named by what it limits, of what, whether for this site
/// alone and when: `hold_left`, `clearance of aortic_valve, mitral_valve`,
/// `waist_fit at inlet_muscular when weight_under(10)`. A parameter goes by its
/// name, what is assumed by the address of its quantity.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RuleAddress(pub String);

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
    /// What kind of rule it names, whether a house has it or not; `None` where no
    /// house could.
    pub fn kind(&self) -> Option<RuleKind> {
        if let Some(info) = Parameter::named(&self.0) {
            return Some(RuleKind::Parameter(info));
        }
        if let Some(quantity) = Quantity::from_address(&self.0) {
            return Some(RuleKind::Assumed(quantity));
        }
        checks::unit_of(self.check()).map(RuleKind::Limit)
    }

    /// The check whose limits it names, if it names any.
    pub fn check(&self) -> &str {
        self.0.split(' ').next().unwrap_or_default()
    }

    /// The address of a row of limits that counts for a site.
    pub(super) fn of_limit(row: &LimitRow, site: Site) -> Self {
        let mut of: Vec<&str> = row.of.iter().map(|of| of.name()).collect();
        let mut when: Vec<String> = row.when.iter().map(ToString::to_string).collect();
        // What is written in another order is the same.
        of.sort_unstable();
        when.sort_unstable();
        let here = (!row.sites.is_empty()).then(|| site.name());
        let parts = [
            (" of ", of.join(", ")),
            (" at ", here.unwrap_or_default().to_owned()),
            (" when ", when.join(", ")),
        ];
        let said = parts.into_iter().filter(|(_, what)| !what.is_empty());
        let said = said.flat_map(|(word, what)| [word.to_owned(), what]);
        Self(std::iter::once(row.check.clone()).chain(said).collect())
    }
}

impl fmt::Display for RuleAddress {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}
