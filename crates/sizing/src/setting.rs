use crate::anatomy::AnatomyPlan;
use crate::contradictions::contradictions;
use crate::resolve::{self, Basis};
use crate::{
    Anatomy, Case, Contradiction, Guidance, HouseRules, ModelErrors, Neighbour, NotRated,
    ResolvedCase, rotation,
};
use measurement::{Joint, Quantity, Values, Valve};
use std::borrow::Cow;
use std::fmt::Display;
use std::ops::Deref;
use std::sync::Arc;

/// A case under the rules of a house, made ready once for every shape.
///
/// It is a [`ResolvedCase`] with all that follows from it, and is asked what that is
/// asked.
#[derive(Clone, Debug)]
pub struct Setting {
    resolved: ResolvedCase,
    exceptions: Vec<String>,
    joint: Joint,
    plan: AnatomyPlan,
    anatomy: Anatomy,
    contradictions: Vec<Contradiction>,
    not_rated: Option<NotRated>,
    as_read: Values,
    rotated: Vec<(f64, Anatomy)>,
    /// What was seen in trials holds every verdict at borderline for these reasons.
    held: Vec<String>,
    /// Whether what was seen in trials is taken in.
    is_weighed: bool,
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
        let plan = AnatomyPlan::new(&case, &rules);
        let resolved = ResolvedCase::new(case, rules);
        let rules = resolved.rules();
        let judged = resolve::estimates(resolved.resolved(), rules)
            .into_iter()
            .filter(|estimate| !estimate.quantity.is_for_workup_alone())
            .collect();
        let joint = Joint::new(judged, resolve::scales(rules));
        let as_read = joint.nominal();
        let anatomy = plan.anatomy(&as_read);
        let mut setting = Self {
            resolved,
            exceptions,
            joint,
            plan,
            anatomy,
            contradictions: Vec::new(),
            not_rated: None,
            rotated: Vec::new(),
            as_read,
            held: Vec::new(),
            is_weighed: false,
        };
        setting.rotated = setting.each_rotation();
        setting.settle();
        setting
    }

    /// The setting with what the work-up of the case says.
    #[must_use]
    pub fn with_guidance(mut self, guidance: Guidance) -> Self {
        self.resolved.set_guidance(guidance);
        self.settle();
        self
    }

    fn settle(&mut self) {
        let mut all = contradictions(self);
        all.extend_from_slice(&self.guidance().contradictions);
        self.contradictions = all;
        self.not_rated = NotRated::find(self, &self.contradictions);
    }

    /// What the exceptions of the case change, a sentence for each: what counts,
    /// what the house says, and why.
    pub fn exceptions(&self) -> &[String] {
        &self.exceptions
    }

    /// The anatomy as read.
    pub const fn anatomy(&self) -> &Anatomy {
        &self.anatomy
    }

    /// The same case with the defect at a rotation in degrees, for a picture of it.
    #[must_use]
    pub fn pictured(&self, rotation: Option<f64>) -> Cow<'_, Self> {
        let Some(degrees) = rotation else {
            return Cow::Borrowed(self);
        };
        let mut there = self.clone();
        there.as_read.set(Quantity::DEFECT_ROTATION, degrees);
        there.anatomy = there.plan.anatomy(&there.as_read);
        there.rotated.clear();
        Cow::Owned(there)
    }

    /// The same case with the middle of some quantities moved by so much from what was
    /// measured, within what each can be, and the model wrong by so much.
    #[must_use]
    pub(crate) fn believed(&self, shifts: &[(Quantity, f64)], errors: ModelErrors) -> Self {
        let mut there = self.clone();
        there.plan.set_errors(errors);
        for &(quantity, by) in shifts {
            if let Some(value) = self.as_read.get(quantity) {
                let info = quantity.info();
                let value = (value + by).clamp(info.least, info.most);
                there.as_read.set(quantity, value);
            }
        }
        there.anatomy = there.plan.anatomy(&there.as_read);
        there.rotated = there.each_rotation();
        there.is_weighed = true;
        there
    }

    /// The same case with reasons that hold every verdict at borderline.
    #[must_use]
    pub(crate) fn held(mut self, reasons: Vec<String>) -> Self {
        self.held = reasons;
        self
    }

    /// The same case where its trials could not be taken in: every verdict is held at
    /// borderline, and the reason is said.
    #[must_use]
    pub fn without_trials(self, why: &impl Display) -> Self {
        self.held(vec![format!(
            "what was seen in trials could not be taken in: {why}"
        )])
    }

    /// Whether the case has trials of which nothing is taken in here.
    pub fn leaves_trials_out(&self) -> bool {
        let mut trials = self.case().procedure.trials.iter();
        !self.is_weighed && trials.any(|trial| trial.seen.iter().any(|seen| seen.what.is_weighed()))
    }

    /// Whether what was seen in trials is taken in.
    pub(crate) const fn is_weighed(&self) -> bool {
        self.is_weighed
    }

    /// What was seen in trials that holds every verdict at borderline.
    pub fn held_by_trials(&self) -> &[String] {
        &self.held
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
        let turn = Quantity::DEFECT_ROTATION;
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
        valves.iter().any(|valve| !self.case().is_absent(*valve))
            || self.danger_arc().is_some()
            || directed.into_iter().any(|of| !is_own(of))
    }

    pub(crate) const fn joint(&self) -> &Joint {
        &self.joint
    }

    pub(crate) const fn plan(&self) -> &AnatomyPlan {
        &self.plan
    }

    /// What is said of the case that cannot be so.
    pub fn contradictions(&self) -> &[Contradiction] {
        &self.contradictions
    }

    /// Why no size is rated; `None`: sizes are rated.
    pub const fn not_rated(&self) -> Option<&NotRated> {
        self.not_rated.as_ref()
    }
}

impl Deref for Setting {
    type Target = ResolvedCase;

    fn deref(&self) -> &ResolvedCase {
        &self.resolved
    }
}
