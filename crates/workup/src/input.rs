use measurement::{
    Answer, Feature, Finding, Findings, Fused, GroupKey, Joint, Method, Modality, Quantity, Site,
    Structure,
};

/// A case as the work-up sees it: what was read, with its doubt, and what is
/// known.
#[derive(Clone, Debug)]
pub struct Input {
    /// Its title.
    pub title: String,
    /// Where the defect lies.
    pub site: Site,
    /// What is believed of each quantity that has a value of its own.
    pub evidence: Vec<Evidence>,
    /// The same, ready to be drawn together.
    pub joint: Joint,
    /// Facts of the child and the examination.
    pub findings: Findings,
    /// What the house says of this site and weight.
    pub notes: Vec<String>,
    /// What was found in the case before the work-up that does not add up.
    pub contradictions: Vec<Found>,
}

/// A contradiction that was found before the work-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// A short name of its kind, the same in every run.
    pub id: String,
    /// What kind of contradiction it is, in a few words.
    pub label: &'static str,
    /// The contradiction in plain words, with its numbers.
    pub says: String,
}

/// What is believed of one quantity, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The quantity.
    pub quantity: Quantity,
    /// Its value, in the quantity's unit.
    pub value: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// Its ground.
    pub ground: Ground,
    /// Unlike readings of the same quantity, which were left out.
    pub others: Vec<(GroupKey, Fused)>,
    /// Whether like readings of it contradict each other.
    pub is_disputed: bool,
}

/// The ground on which a value stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Ground {
    /// It was read.
    Read(GroupKey, Vec<Modality>),
    /// Nobody read it: the house's assumption and its source.
    Assumed(String),
}

impl Input {
    /// The answer to a finding.
    pub fn finding(&self, finding: Finding) -> Answer {
        self.findings.get(&finding).copied().unwrap_or_default()
    }

    /// What is believed of a quantity that was read.
    pub(crate) fn read(&self, quantity: Quantity) -> Option<&Evidence> {
        self.evidence
            .iter()
            .find(|one| one.quantity == quantity && matches!(one.ground, Ground::Read(..)))
    }

    /// Whether a quantity was read.
    pub(crate) fn is_read(&self, quantity: Quantity) -> bool {
        self.read(quantity).is_some()
    }

    /// How a quantity was read.
    pub(crate) fn method(&self, quantity: Quantity) -> Option<Method> {
        match self.read(quantity)?.ground {
            Ground::Read(key, _) => Some(key.method),
            Ground::Assumed(_) => None,
        }
    }
}

/// Whether a quantity bears on the work-up.
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
