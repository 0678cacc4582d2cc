use crate::house_rules::{Circumstances, DangerArc, NoteRow, Parameter};
use crate::resolve::{self, Basis, Resolved};
use crate::{Case, Guidance, HouseRules};
use measurement::{Feature, Quantity};
use std::sync::Arc;

/// A case under the rules that count for it, with the ground of every quantity.
#[derive(Clone, Debug)]
pub struct ResolvedCase {
    case: Arc<Case>,
    rules: Arc<HouseRules>,
    resolved: Vec<Resolved>,
    guidance: Guidance,
}

impl ResolvedCase {
    /// Resolves every quantity of a case under rules with its exceptions in their
    /// place.
    pub(crate) fn new(case: Arc<Case>, rules: Arc<HouseRules>) -> Self {
        Self {
            resolved: resolve::resolve(&case, &rules),
            case,
            rules,
            guidance: Guidance::default(),
        }
    }

    pub(crate) fn set_guidance(&mut self, guidance: Guidance) {
        self.guidance = guidance;
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

    /// What the work-up of the case says; nothing where nobody handed it over.
    pub const fn guidance(&self) -> &Guidance {
        &self.guidance
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
    pub fn nominal(&self, quantity: Quantity) -> Option<f64> {
        self.resolved[quantity.index()].law.map(|law| law.nominal())
    }

    /// Weight in kilograms, if it was read.
    pub fn weight(&self) -> Option<f64> {
        self.nominal(Quantity::PATIENT_WEIGHT)
    }

    /// Age in years, if it was read.
    pub fn age(&self) -> Option<f64> {
        self.nominal(Quantity::PATIENT_AGE)
    }

    /// What was published of later years at the site of the case: of cohorts, not of
    /// this child.
    pub fn late(&self) -> Vec<&NoteRow> {
        let (weight, qp_qs) = (self.weight(), self.nominal(Quantity::FLOW_QP_QS));
        let site = self.case.site;
        let all = self.rules.late.iter();
        all.filter(|row| row.applies(site, weight, qp_qs)).collect()
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

    /// Whether a quantity was not measured and, so, holds what rests on it at
    /// `borderline`.
    ///
    /// What stands in for a clock position, an angle of an annulus or the rotation
    /// of the defect does not hold; nor a cusp's depth while no cusp prolapses, an
    /// opening taken as equal to the defect, or an annulus taken as round.
    pub fn holds(&self, quantity: Quantity) -> bool {
        match self.basis(quantity) {
            Basis::Read(_) | Basis::Absent | Basis::Nil => false,
            Basis::Follows(other) => self.holds(*other),
            Basis::Missing(_) => true,
            Basis::Assumed { .. } => match quantity.info().feature {
                Feature::ClockPosition | Feature::AnnulusAngle | Feature::Rotation => false,
                Feature::CuspDepth => self.case.facts.prolapse.may_be(),
                _ => true,
            },
        }
    }

    /// Whether a reading of less than the preferred kind serves for a quantity,
    /// or for the one it follows.
    pub(crate) fn is_second_choice(&self, quantity: Quantity) -> bool {
        match self.basis(quantity) {
            Basis::Read(selection) => selection.pattern > 0,
            Basis::Follows(other) => self.is_second_choice(*other),
            _ => false,
        }
    }
}
