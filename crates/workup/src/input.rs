use measurement::{
    Answer, Feature, Finding, Findings, Fused, GroupKey, Joint, Method, Modality, Quantity, Site,
    Structure,
};

/// The case that a work-up is about: readings with their doubt, and findings.
#[derive(Clone, Debug)]
pub struct Input {
    /// The title of the case.
    pub title: String,
    /// Where the defect lies.
    pub site: Site,
    /// The evidence of each quantity that has a value of its own.
    pub evidence: Vec<Evidence>,
    /// The joint law of the same quantities, for draws.
    pub joint: Joint,
    /// Facts of the child and the examination.
    pub findings: Findings,
    /// Notes of your centre's rules on this site and weight.
    pub notes: Vec<String>,
    /// The contradictions that were found before the work-up.
    pub contradictions: Vec<KnownContradiction>,
}

/// A contradiction that was found before the work-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownContradiction {
    /// The id of its kind, the same in every run.
    pub id: String,
    /// The kind of contradiction in a few words.
    pub label: &'static str,
    /// The contradiction in plain words, with its numbers.
    pub says: String,
}

/// The value of one quantity, and the ground it stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The quantity.
    pub quantity: Quantity,
    /// The value in the quantity's unit.
    pub value: f64,
    /// The standard deviation of the value.
    pub sd: f64,
    /// The ground of the value.
    pub ground: Ground,
    /// Unlike readings of the same quantity, which do not count.
    pub others: Vec<(GroupKey, Fused)>,
    /// Whether like readings of the quantity contradict each other.
    pub is_disputed: bool,
}

/// The ground on which a value stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Ground {
    /// The quantity was measured.
    Read(GroupKey, Vec<Modality>),
    /// Nobody measured it: the assumption of your centre's rules, with its source.
    Assumed(String),
}

impl Input {
    /// The answer to a finding.
    pub fn finding(&self, finding: Finding) -> Answer {
        self.findings.get(&finding).copied().unwrap_or_default()
    }

    /// The evidence of a quantity that was measured.
    pub(crate) fn read(&self, quantity: Quantity) -> Option<&Evidence> {
        self.evidence
            .iter()
            .find(|one| one.quantity == quantity && matches!(one.ground, Ground::Read(..)))
    }

    /// Whether a quantity was measured.
    pub(crate) fn is_read(&self, quantity: Quantity) -> bool {
        self.read(quantity).is_some()
    }

    /// The method by which a quantity was measured.
    pub(crate) fn method(&self, quantity: Quantity) -> Option<Method> {
        match self.read(quantity)?.ground {
            Ground::Read(key, _) => Some(key.method),
            Ground::Assumed(_) => None,
        }
    }
}

/// Whether the work-up uses a quantity.
pub fn bears(quantity: Quantity) -> bool {
    let info = quantity.info();
    match info.structure {
        Structure::Defect => matches!(
            info.feature,
            Feature::Velocity | Feature::LongAxis | Feature::ShortAxis
        ),
        Structure::Valve(_) => info.feature == Feature::Diameter,
        Structure::LeftVentricle | Structure::RightVentricle => info.feature != Feature::Length,
        Structure::LeftOpening
        | Structure::RightOpening
        | Structure::Wall
        | Structure::LeftOutflow
        | Structure::RightOutflow
        | Structure::Vein
        | Structure::Artery => false,
        _ => true,
    }
}
