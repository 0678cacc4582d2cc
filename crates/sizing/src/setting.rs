use crate::anatomy::AnatomyPlan;
use crate::contradiction::{Contradiction, contradictions};
use crate::house_rules::{Circumstances, DangerArc, Parameter};
use crate::resolve::{self, Basis, Resolved};
use crate::rotation::{self, rotation_of_defect};
use crate::{Anatomy, Case, Guidance, HouseRules, Neighbour, NotRated};
use measurement::{Feature, Joint, Quantity, Values, Valve};
use std::borrow::Cow;
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
    contradictions: Vec<Contradiction>,
    not_rated: Option<NotRated>,
    guidance: Guidance,
    as_read: Values,
    rotated: Vec<(f64, Anatomy)>,
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
        let as_read = joint.nominal();
        let anatomy = plan.anatomy(&as_read);
        let mut setting = Self {
            case,
            rules,
            exceptions,
            resolved,
            joint,
            plan,
            anatomy,
            contradictions: Vec::new(),
            not_rated: None,
            guidance: Guidance::default(),
            rotated: Vec::new(),
            as_read,
        };
        setting.rotated = setting.each_rotation();
        setting.settle();
        setting
    }

    /// The setting with what the work-up of the case says.
    #[must_use]
    pub fn with_guidance(mut self, guidance: Guidance) -> Self {
        self.guidance = guidance;
        self.settle();
        self
    }

    /// What the work-up of the case says; nothing where nobody handed it over.
    pub const fn guidance(&self) -> &Guidance {
        &self.guidance
    }

    fn settle(&mut self) {
        self.contradictions = contradictions(self);
        let found = self.guidance.contradictions.iter().cloned();
        self.contradictions.extend(found);
        self.not_rated = NotRated::find(self);
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
    pub fn nominal(&self, quantity: Quantity) -> Option<f64> {
        self.resolved[quantity.index()].law.map(|law| law.nominal())
    }

    /// The anatomy as read.
    pub const fn anatomy(&self) -> &Anatomy {
        &self.anatomy
    }

    /// The same case with the defect at a rotation in degrees, for a picture of it.
    #[must_use]
    pub fn pictured(&self, rotation: Option<f64>) -> Cow<'_, Self> {
        let (Some(degrees), Some(turn)) = (rotation, rotation_of_defect()) else {
            return Cow::Borrowed(self);
        };
        let mut there = self.clone();
        there.as_read.set(turn, degrees);
        there.anatomy = there.plan.anatomy(&there.as_read);
        there.rotated.clear();
        Cow::Owned(there)
    }

    /// The values as read.
    pub(crate) const fn as_read(&self) -> &Values {
        &self.as_read
    }

    /// The anatomy at each rotation that is looked at where the rotation was not
    /// read; empty where it was.
    pub(crate) fn rotated(&self) -> &[(f64, Anatomy)] {
        &self.rotated
    }

    fn each_rotation(&self) -> Vec<(f64, Anatomy)> {
        let Some(turn) = rotation_of_defect() else {
            return Vec::new();
        };
        if matches!(self.basis(turn), Basis::Read(_)) || !self.has_direction() {
            return Vec::new();
        }
        rotation::grid()
            .map(|degrees| {
                let mut values = self.as_read.clone();
                values.set(turn, degrees);
                (degrees, self.plan.anatomy(&values))
            })
            .collect()
    }

    /// Whether anything but the defect itself has a direction in the wall: a valve,
    /// the bundle, or an opening that is not the defect's own. Otherwise a rotation
    /// turns all there is, and changes nothing.
    fn has_direction(&self) -> bool {
        let valves = Valve::ALL.map(Neighbour::Valve);
        let is_own = |of| !matches!(self.basis(of), Basis::Read(_));
        let directed = [
            Quantity::LEFT_OPENING_OFFSET_TOWARD_12,
            Quantity::LEFT_OPENING_OFFSET_TOWARD_3,
            Quantity::LEFT_OPENING_ROTATION,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_12,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_3,
            Quantity::RIGHT_OPENING_ROTATION,
        ];
        valves.iter().any(|valve| !self.case.is_absent(*valve))
            || self.danger_arc().is_some()
            || directed.into_iter().any(|of| !is_own(of))
    }

    pub(crate) const fn joint(&self) -> &Joint {
        &self.joint
    }

    pub(crate) const fn plan(&self) -> &AnatomyPlan {
        &self.plan
    }

    /// Weight in kilograms, if it was read.
    pub fn weight(&self) -> Option<f64> {
        self.nominal(Quantity::PATIENT_WEIGHT)
    }

    /// Age in years, if it was read.
    pub fn age(&self) -> Option<f64> {
        self.nominal(Quantity::PATIENT_AGE)
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

    /// What is said of the case that cannot be so.
    pub fn contradictions(&self) -> &[Contradiction] {
        &self.contradictions
    }

    /// Why no size is rated; `None`: sizes are rated.
    pub const fn not_rated(&self) -> Option<&NotRated> {
        self.not_rated.as_ref()
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
    pub fn is_second_choice(&self, quantity: Quantity) -> bool {
        match self.basis(quantity) {
            Basis::Read(selection) => selection.place > 0,
            Basis::Follows(other) => self.is_second_choice(*other),
            _ => false,
        }
    }
}
