use super::rows::names;
use crate::Fact;
use measurement::{Quantity, Site};

/// What must be measured or answered before any size is rated at a site.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredFirst {
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// Each of these is needed.
    pub all: Vec<Need>,
    /// One of these is enough; empty: none is asked.
    pub one_of: Vec<Need>,
    /// Its source.
    pub source: String,
}

impl MeasuredFirst {
    /// Whether it is asked at a site.
    pub fn is_asked_at(&self, site: Site) -> bool {
        names(&self.sites, site)
    }
}

/// One thing that must be measured or answered first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// A reading of a quantity; a structure said to be out of reach answers it.
    Reading(Quantity),
    /// An answer to a fact of the case.
    Fact(Fact),
    /// That no cusp prolapses: any other answer is not enough.
    NoProlapse,
    /// A yes or no to an exclusion, by its id.
    Exclusion(String),
}

impl Need {
    /// The word of files for [`NoProlapse`](Self::NoProlapse), after `facts.`.
    pub const NO_PROLAPSE: &'static str = "no_prolapse";
}
