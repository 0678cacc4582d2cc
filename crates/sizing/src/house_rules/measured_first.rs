use super::rows::names;
use crate::{Answer, Case};
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
    Fact(FactNeed),
    /// A yes or no to an exclusion, by its id.
    Exclusion(String),
}

/// A fact that may have to be answered first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FactNeed {
    /// Whether a cusp prolapses.
    Prolapse,
    /// That no cusp prolapses: any other answer is not enough.
    NoProlapse,
    /// Whether mitral chordae insert on the edge.
    MitralChordae,
    /// Whether tricuspid chordae insert on the edge.
    TricuspidChordae,
}

impl FactNeed {
    /// Each with its name in files and the question it answers.
    pub const ALL: [(Self, &'static str, &'static str); 4] = [
        (Self::Prolapse, "prolapse", "whether a cusp prolapses"),
        (Self::NoProlapse, "no_prolapse", "that no cusp prolapses"),
        (
            Self::MitralChordae,
            "mitral_chordae_on_edge",
            "whether mitral chordae insert on the edge",
        ),
        (
            Self::TricuspidChordae,
            "tricuspid_chordae_on_edge",
            "whether tricuspid chordae insert on the edge",
        ),
    ];

    /// The question, as the end of a sentence.
    pub fn question(self) -> &'static str {
        let mut all = Self::ALL.iter();
        all.find(|(one, ..)| *one == self)
            .map_or("", |(_, _, question)| question)
    }

    /// Whether a case answers it.
    pub fn is_answered(self, case: &Case) -> bool {
        let facts = &case.facts;
        match self {
            Self::Prolapse => facts.prolapse != Answer::Unknown,
            Self::NoProlapse => !facts.prolapse.may_be(),
            Self::MitralChordae => facts.mitral_chordae_on_edge != Answer::Unknown,
            Self::TricuspidChordae => facts.tricuspid_chordae_on_edge != Answer::Unknown,
        }
    }
}
