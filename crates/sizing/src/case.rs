mod asked;

use crate::house_rules::Exception;
use crate::procedure::Procedure;
use crate::{Answer, Facts};
use geometry::Edge;
use measurement::{Finding, Findings, Reading, Site, Valve};
use std::collections::{BTreeMap, BTreeSet};

/// The way by which the sheath reaches the defect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Route {
    /// From a vein.
    Antegrade,
    /// From an artery.
    Retrograde,
    /// Through the free wall of the right ventricle, in the theatre.
    Perventricular,
}

/// Something that may or may not stand beside the defect.
///
/// "There is no such neighbour" is an answer; no reading of it is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Neighbour {
    /// A valve within reach of a disc.
    Valve(Valve),
    /// The left outflow tract, where a disc would stand in it.
    LeftOutflow,
    /// The right outflow tract, where a disc would stand in it.
    RightOutflow,
}

impl Neighbour {
    /// Every possible neighbour.
    pub const ALL: [Self; 6] = [
        Self::Valve(Valve::Aortic),
        Self::Valve(Valve::Mitral),
        Self::Valve(Valve::Tricuspid),
        Self::Valve(Valve::Pulmonary),
        Self::LeftOutflow,
        Self::RightOutflow,
    ];

    /// The word for it in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Valve(Valve::Aortic) => "aortic_valve",
            Self::Valve(Valve::Mitral) => "mitral_valve",
            Self::Valve(Valve::Tricuspid) => "tricuspid_valve",
            Self::Valve(Valve::Pulmonary) => "pulmonary_valve",
            Self::LeftOutflow => "left_outflow",
            Self::RightOutflow => "right_outflow",
        }
    }
}

/// One child's defect: what was read, what is known and what is not.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// Its title.
    pub title: String,
    /// What it teaches, for a case made for teaching.
    pub lesson: Option<String>,
    /// Where the defect lies.
    pub site: Site,
    /// How its edge answers to a waist.
    pub edge: Edge,
    /// The way to it.
    pub route: Route,
    /// Every reading, used or set aside.
    pub readings: Vec<Reading>,
    /// What is said not to stand beside the defect.
    pub absent: BTreeSet<Neighbour>,
    /// Facts that limits depend on.
    pub facts: Facts,
    /// Facts of the child and the examination that bear on whether to close. The
    /// rhythm before is a fact, not one of these.
    pub findings: Findings,
    /// Answers to the exclusions of the house rules, by their id.
    pub exclusions: BTreeMap<String, Answer>,
    /// Rules of the house overridden for this case, at most once each.
    pub exceptions: Vec<Exception>,
    /// Written before the procedure, seen in it and after it.
    pub procedure: Procedure,
}

impl Case {
    /// A case of which nothing is read, answered or planned yet.
    pub fn new(title: String, site: Site, edge: Edge, route: Route) -> Self {
        Self {
            title,
            lesson: None,
            site,
            edge,
            route,
            readings: Vec::new(),
            absent: BTreeSet::new(),
            facts: Facts::default(),
            findings: Findings::default(),
            exclusions: BTreeMap::new(),
            exceptions: Vec::new(),
            procedure: Procedure::default(),
        }
    }

    /// Whether a neighbour is said not to be there.
    pub fn is_absent(&self, neighbour: Neighbour) -> bool {
        self.absent.contains(&neighbour)
    }

    /// The answer to a finding.
    pub fn finding(&self, finding: Finding) -> Answer {
        match finding {
            Finding::NormalRhythm => self.facts.conduction.normal(),
            _ => self.findings.get(&finding).copied().unwrap_or_default(),
        }
    }
}
