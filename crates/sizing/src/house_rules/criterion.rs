use super::Condition;
use super::rows::names;
use crate::Subject;
use crate::procedure::{Bounds, ObservationKind};
use measurement::Site;

/// A row of release criteria of a house: what is looked at before a device is released,
/// and where its bounds lie.
#[derive(Clone, Debug, PartialEq)]
pub struct CriterionRow {
    /// What is looked at.
    pub row: ObservationKind,
    /// Of which subjects; empty: of each that it can be asked of.
    pub of: Vec<Subject>,
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// All of these must hold.
    pub when: Vec<Condition>,
    /// Who looks.
    pub who: String,
    /// How: views, scales and when again.
    pub view: String,
    /// Its bounds.
    pub bounds: Bounds,
    /// Its source.
    pub source: String,
}

impl CriterionRow {
    /// Whether it is of a site.
    pub fn is_of(&self, site: Site) -> bool {
        names(&self.sites, site)
    }
}
