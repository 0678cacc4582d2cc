use super::Condition;
use super::rows::names;
use measurement::Site;

/// What keeps every verdict, or that of some shapes, at `borderline` at best.
#[derive(Clone, Debug, PartialEq)]
pub struct CapRow {
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// All of these must hold.
    pub when: Vec<Condition>,
    /// What is said, as the reason of a verdict.
    pub says: String,
    /// Its source.
    pub source: String,
}

impl CapRow {
    /// Whether it is of a site.
    pub fn is_of(&self, site: Site) -> bool {
        names(&self.sites, site)
    }
}
