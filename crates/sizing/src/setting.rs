use crate::anatomy::AnatomyPlan;
use crate::house_rules::{Circumstances, DangerArc, Parameter};
use crate::resolve::{self, Basis, Resolved};
use crate::{Anatomy, Case, HouseRules};
use measurement::{Feature, Joint, Quantity, Structure};
use std::sync::Arc;

/// A case under the rules of a house, made ready once for every shape.
#[derive(Clone, Debug)]
pub struct Setting {
    case: Arc<Case>,
    rules: Arc<HouseRules>,
    exceptions: Vec<String>,
    resolved: Vec<Resolved>,
    joint: Joint,
    plan: AnatomyPlan,
    anatomy: Anatomy,
}

impl Setting {
    /// Resolves every quantity of a case under the rules of a house and the
    /// exceptions of the case from them.
    pub fn new(case: Arc<Case>, house: Arc<HouseRules>) -> Self {
        let exceptions = house.exceptions_said(&case.exceptions, case.site);
        let rules = if case.exceptions.is_empty() {
            house
        } else {
            Arc::new(house.with(&case.exceptions, case.site))
        };
        let resolved = resolve::resolve(&case, &rules);
        let judged = resolve::estimates(&resolved, &rules)
            .into_iter()
            .filter(|estimate| !estimate.quantity.is_for_workup_alone())
            .collect();
        let joint = Joint::new(judged, resolve::scales(&rules));
        let plan = AnatomyPlan::new(&case, &rules);
        let anatomy = plan.anatomy(&joint.nominal());
        Self {
            case,
            rules,
            exceptions,
            resolved,
            joint,
            plan,
            anatomy,
        }
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// The rules that count for the case: those of the house, with the exceptions
    /// of the case in their place.
    pub fn rules(&self) -> &HouseRules {
        &self.rules
    }

    /// What the exceptions of the case change, a sentence for each: what counts,
    /// what the house says, and why.
    pub fn exceptions(&self) -> &[String] {
        &self.exceptions
    }

    /// Every quantity, in the order of [`Quantity::all`].
    pub fn resolved(&self) -> &[Resolved] {
        &self.resolved
    }

    /// The ground on which a quantity stands.
    pub fn basis(&self, quantity: Quantity) -> &Basis {
        &self.resolved[quantity.index()].basis
    }

    /// The nominal value of a quantity of its own.
    pub fn nominal(&self, structure: Structure, feature: Feature) -> Option<f64> {
        let quantity = Quantity::find(structure, feature)?;
        self.resolved[quantity.index()].law.map(|law| law.nominal())
    }

    /// The anatomy as read.
    pub const fn anatomy(&self) -> &Anatomy {
        &self.anatomy
    }

    pub(crate) const fn joint(&self) -> &Joint {
        &self.joint
    }

    pub(crate) const fn plan(&self) -> &AnatomyPlan {
        &self.plan
    }

    /// Weight in kilograms, if it was read.
    pub fn weight(&self) -> Option<f64> {
        self.nominal(Structure::Patient, Feature::Weight)
    }

    /// Age in years, if it was read.
    pub fn age(&self) -> Option<f64> {
        self.nominal(Structure::Patient, Feature::Age)
    }

    /// A parameter of the house rules.
    pub fn parameter(&self, parameter: Parameter) -> f64 {
        self.rules.parameter(parameter)
    }

    /// The arc in which the bundle runs, if the site has one.
    pub fn danger_arc(&self) -> Option<&DangerArc> {
        self.rules.danger_arc(self.case.site)
    }

    /// What the conditions of limits are held against.
    pub fn circumstances(&self) -> Circumstances<'_> {
        Circumstances {
            facts: &self.case.facts,
            weight: self.weight(),
            age: self.age(),
            stiff_below: self.parameter(Parameter::StiffBelow),
        }
    }

    /// Whether a quantity has a value, its own or one it follows.
    pub fn is_known(&self, quantity: Quantity) -> bool {
        match self.basis(quantity) {
            Basis::Read(_) | Basis::Assumed { .. } | Basis::Nil => true,
            Basis::Follows(other) => self.is_known(*other),
            Basis::Absent | Basis::Missing(_) => false,
        }
    }

    /// The quantities whose readings contradict each other.
    pub fn disputed(&self) -> impl Iterator<Item = &Resolved> {
        self.resolved
            .iter()
            .filter(|one| one.selection().is_some_and(|it| it.fused.dispute.is_some()))
    }

    /// Whether a reading of less than the preferred kind serves for a quantity,
    /// or for the one it follows.
    pub fn is_second_choice(&self, quantity: Quantity) -> bool {
        match self.basis(quantity) {
            Basis::Read(selection) => selection.place > 0,
            Basis::Follows(other) => self.is_second_choice(*other),
            _ => false,
        }
    }
}
