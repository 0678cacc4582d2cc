//! Every limit, default and exclusion of a house, each with its source.

mod address;
mod condition;
mod excepted;
mod exception;
mod limit;
mod parameter;
mod rows;
mod rule;
mod wide_bound;

pub use address::{RuleAddress, RuleKind};
pub use condition::{Circumstances, Condition};
pub use exception::{Exception, ExceptionFault, ExceptionPart};
pub use limit::{Band, LimitRow};
pub use parameter::{Parameter, ParameterInfo};
pub use rows::{
    BiasRow, DangerArc, DefaultRow, DoubtRow, Exclusion, NoteRow, PreferenceRow, RimRule, ScaleRow,
    Sourced,
};
pub use rule::{Rule, Stated};
pub use wide_bound::{WideBound, WideBoundRow, WideBounds};

use measurement::Site;

/// The rules of a house: no limit of the program stands anywhere else.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseRules {
    /// Their title.
    pub title: String,
    /// Single numbers, one for each [`Parameter`], in its order.
    pub parameters: Vec<Sourced<f64>>,
    /// Stops and cautions of the checks.
    pub limits: Vec<LimitRow>,
    /// What is assumed where nothing was read.
    pub defaults: Vec<DefaultRow>,
    /// The standard deviation of a reading that carries none.
    pub doubts: Vec<DoubtRow>,
    /// Scale errors shared by all lengths of a modality.
    pub scales: Vec<ScaleRow>,
    /// Known bias of a way of reading.
    pub biases: Vec<BiasRow>,
    /// Which like readings a quantity uses; the first row that names it counts.
    pub preferences: Vec<PreferenceRow>,
    /// Facts that stop every shape.
    pub exclusions: Vec<Exclusion>,
    /// Where the bundle runs, by site.
    pub danger_arcs: Vec<DangerArc>,
    /// Published rim rules said beside aortic clearance.
    pub rim_rules: Vec<RimRule>,
    /// What is said of a site or a weight.
    pub notes: Vec<NoteRow>,
    /// Outside which a value is asked about.
    pub wide_bounds: WideBounds,
}

impl HouseRules {
    /// The value of a parameter.
    pub fn parameter(&self, parameter: Parameter) -> f64 {
        self.parameters[parameter.index()].value
    }

    /// The arc in which the bundle runs for a site, if it has one.
    pub fn danger_arc(&self, site: Site) -> Option<&DangerArc> {
        self.danger_arcs
            .iter()
            .find(|arc| arc.sites.contains(&site))
    }

    /// The exclusions that are asked for a site.
    pub fn exclusions_for(&self, site: Site) -> impl Iterator<Item = &Exclusion> {
        self.exclusions
            .iter()
            .filter(move |exclusion| rows::names(&exclusion.sites, site))
    }
}
