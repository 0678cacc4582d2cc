//! Every limit, default and exclusion of a house, each with its source.

mod address;
mod cap;
mod condition;
mod criterion;
mod excepted;
mod exception;
mod limit;
mod measured_first;
mod model_error;
mod observation;
mod parameter;
mod rows;
mod rule;
mod schedule;
mod settles;
mod stated;
mod wide_bound;

pub use address::{LimitsAddress, RowName, RuleAddress, RuleKind, UnknownRule};
pub use cap::CapRow;
pub use condition::{Circumstances, Condition};
pub use criterion::CriterionRow;
pub use exception::{Exception, ExceptionFault, ExceptionPart};
pub use limit::{Band, LimitRow};
pub use measured_first::{MeasuredFirst, Need};
pub use model_error::ModelErrorRow;
pub use observation::{ObservationLaw, ObservationRow};
pub use parameter::{Parameter, ParameterInfo};
pub use rows::{
    BiasRow, DangerArc, DefaultRow, DoubtRow, Exclusion, NoteRow, PreferenceRow, RimRule, ScaleRow,
    Sourced,
};
pub use rule::Rule;
pub use schedule::ScheduleRow;
pub use settles::{Evidence, FigureBounds, Grade, Settles};
pub use stated::Stated;
pub use wide_bound::{WideBound, WideBoundRow};

use measurement::{ModelError, Quantity, Site};

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
    /// What must be measured or answered before any size is rated.
    pub measured_first: Vec<MeasuredFirst>,
    /// What keeps a verdict at `borderline` at best.
    pub caps: Vec<CapRow>,
    /// What is looked at before a device is released.
    pub release_criteria: Vec<CriterionRow>,
    /// By which law what is seen in a trial weighs the draws.
    pub observations: Vec<ObservationRow>,
    /// Outside which a value is asked about.
    pub wide_bounds: Vec<WideBoundRow>,
    /// What is looked at after a device was released, and on which days.
    pub schedule: Vec<ScheduleRow>,
    /// What was published of later years, of cohorts and not of one child.
    pub late: Vec<NoteRow>,
    /// By how much the model is taken to be wrong in one child.
    pub model_errors: Vec<ModelErrorRow>,
    /// The lists that the file does not have and that come from the shipped
    /// rules, by their names in files.
    pub from_shipped: Vec<&'static str>,
}

impl HouseRules {
    /// Rules of a title without a row, each parameter the least it may be.
    pub fn new(title: String) -> Self {
        let least = |info: &ParameterInfo| Sourced {
            value: info.least,
            source: "assumption".into(),
        };
        Self {
            title,
            parameters: Parameter::ALL.iter().map(least).collect(),
            limits: Vec::new(),
            defaults: Vec::new(),
            doubts: Vec::new(),
            scales: Vec::new(),
            biases: Vec::new(),
            preferences: Vec::new(),
            exclusions: Vec::new(),
            danger_arcs: Vec::new(),
            rim_rules: Vec::new(),
            notes: Vec::new(),
            measured_first: Vec::new(),
            caps: Vec::new(),
            release_criteria: Vec::new(),
            observations: Vec::new(),
            wide_bounds: Vec::new(),
            schedule: Vec::new(),
            late: Vec::new(),
            model_errors: Vec::new(),
            from_shipped: Vec::new(),
        }
    }

    /// The row of a model error.
    pub fn model_error(&self, error: ModelError) -> Option<&ModelErrorRow> {
        self.model_errors.iter().find(|row| row.of == error)
    }

    /// The standard deviation of a model error: 0 where there is no row of it.
    pub fn model_error_sd(&self, error: ModelError) -> f64 {
        self.model_error(error).map_or(0.0, |row| row.sd)
    }

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

    /// What is assumed at a site of a quantity that nobody measured: a row for the
    /// site before one for all.
    pub fn default_at(&self, quantity: Quantity, site: Site) -> Option<&DefaultRow> {
        let of = || self.defaults.iter().filter(|row| row.of == quantity);
        let of_site = of().find(|row| row.sites.contains(&site));
        of_site.or_else(|| of().find(|row| row.sites.is_empty()))
    }

    /// The exclusions that are asked for a site.
    pub fn exclusions_for(&self, site: Site) -> impl Iterator<Item = &Exclusion> {
        self.exclusions
            .iter()
            .filter(move |exclusion| rows::names(&exclusion.sites, site))
    }
}
