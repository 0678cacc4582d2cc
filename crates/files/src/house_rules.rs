mod criteria;
mod defaults;
mod exclusions;
mod limits;
mod observations;
mod rated;
mod readings;
mod sites;
mod wide_bounds;

use crate::document::{Checked, Place};
use crate::faults::Faults;
use crate::parameters::{ParameterForm, parameters};
use crate::{Diagnostic, FileError, FileKind, Source};
use criteria::CriterionRowForm;
use defaults::DefaultForm;
use exclusions::ExclusionForm;
use limits::LimitForm;
use observations::ObservationRowForm;
use rated::{CapForm, MeasuredFirstForm};
use readings::{BiasForm, DoubtForm, PreferenceForm, ScaleForm};
use serde::Deserialize;
use sites::{DangerArcForm, NoteForm, RimRuleForm};
use sizing::HouseRules;
use sizing::house_rules::{
    CapRow, CriterionRow, MeasuredFirst, ObservationRow, Parameter, Sourced,
};
use std::cell::LazyCell;
use std::path::Path;
use wide_bounds::WideBoundForm;

/// Largest file of house rules that is read, in bytes.
pub const RULES_CAP: u64 = 1024 * 1024;

/// House rules with the text they came from.
pub type HouseRulesFile = Checked<HouseRules>;

/// Reads house rules from a file.
pub fn read_house_rules(path: &Path) -> Result<HouseRulesFile, FileError> {
    Ok(Checked::read(
        FileKind::HouseRules,
        Source::read(path, RULES_CAP)?,
        house_rules,
    )?)
}

/// Reads house rules from a text; all faults at once where it is RON of the
/// right form, the first one otherwise.
pub fn parse_house_rules(name: &str, text: &str) -> Result<HouseRulesFile, Vec<Diagnostic>> {
    Checked::read(FileKind::HouseRules, Source::new(name, text), house_rules)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HouseRulesForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    parameters: Vec<ParameterForm>,
    limits: Vec<LimitForm>,
    defaults: Vec<DefaultForm>,
    doubts: Vec<DoubtForm>,
    scales: Vec<ScaleForm>,
    biases: Vec<BiasForm>,
    preferences: Vec<PreferenceForm>,
    exclusions: Vec<ExclusionForm>,
    danger_arcs: Vec<DangerArcForm>,
    rim_rules: Vec<RimRuleForm>,
    notes: Vec<NoteForm>,
    measured_first: Option<Vec<MeasuredFirstForm>>,
    caps: Option<Vec<CapForm>>,
    release_criteria: Option<Vec<CriterionRowForm>>,
    observations: Option<Vec<ObservationRowForm>>,
    wide_bounds: Option<Vec<WideBoundForm>>,
}

fn house_rules(form: HouseRulesForm, at: &Place, faults: &mut Faults) -> HouseRules {
    let (exclusions, are_from_shipped) =
        exclusions::exclusions(form.exclusions, &at.field("exclusions"), faults);
    let measured_first = form.measured_first.map(|forms| {
        rated::measured_first(forms, &exclusions, &at.field("measured_first"), faults)
    });
    let caps = form
        .caps
        .map(|forms| rated::caps(forms, &at.field("caps"), faults));
    let release_criteria = form
        .release_criteria
        .map(|forms| criteria::rows(forms, &at.field("release_criteria"), faults));
    let observations = form
        .observations
        .map(|forms| observations::rows(forms, &at.field("observations"), faults));
    let later = Later {
        measured_first,
        caps,
        release_criteria,
        observations,
    };
    let mut rules = HouseRules {
        title: faults.text(&at.field("title"), form.title),
        parameters: parameters::<Parameter>(form.parameters, &at.field("parameters"), faults)
            .into_iter()
            .map(|(value, source)| Sourced { value, source })
            .collect(),
        limits: limits::rows(form.limits, &at.field("limits"), faults),
        defaults: defaults::rows(form.defaults, &at.field("defaults"), faults),
        doubts: readings::doubts(form.doubts, &at.field("doubts"), faults),
        scales: readings::scales(form.scales, &at.field("scales"), faults),
        biases: readings::biases(form.biases, &at.field("biases"), faults),
        preferences: readings::preferences(form.preferences, &at.field("preferences"), faults),
        exclusions,
        danger_arcs: sites::danger_arcs(form.danger_arcs, &at.field("danger_arcs"), faults),
        rim_rules: sites::rim_rules(form.rim_rules, &at.field("rim_rules"), faults),
        notes: sites::notes(form.notes, &at.field("notes"), faults),
        measured_first: Vec::new(),
        caps: Vec::new(),
        release_criteria: Vec::new(),
        observations: Vec::new(),
        from_shipped: are_from_shipped,
        wide_bounds: wide_bounds::rows(form.wide_bounds, &at.field("wide_bounds"), faults),
    };
    later.fill(&mut rules);
    chances_are_in_order(&rules, at, faults);
    limits::are_told_apart(&rules, &at.field("limits"), faults);
    rules
}

/// The lists that a file of an earlier version does not have.
struct Later {
    measured_first: Option<Vec<MeasuredFirst>>,
    caps: Option<Vec<CapRow>>,
    release_criteria: Option<Vec<CriterionRow>>,
    observations: Option<Vec<ObservationRow>>,
}

impl Later {
    /// Gives the rules each list; one that the file does not have is that of the
    /// shipped rules, which have them all, and this is noted.
    fn fill(self, rules: &mut HouseRules) {
        let shipped = LazyCell::new(|| {
            let (name, text) = crate::shipped::HOUSE_RULES;
            parse_house_rules(name, text).ok().map(Checked::into_value)
        });
        let mut missing = Vec::new();
        let mut note = |name| {
            missing.push(name);
            shipped.as_ref()
        };
        rules.measured_first = self.measured_first.unwrap_or_else(|| {
            let shipped = note("measured_first");
            shipped.map_or_else(Vec::new, |rules| rules.measured_first.clone())
        });
        rules.caps = self
            .caps
            .unwrap_or_else(|| note("caps").map_or_else(Vec::new, |rules| rules.caps.clone()));
        rules.release_criteria = self.release_criteria.unwrap_or_else(|| {
            let shipped = note("release_criteria");
            shipped.map_or_else(Vec::new, |rules| rules.release_criteria.clone())
        });
        rules.observations = self.observations.unwrap_or_else(|| {
            let shipped = note("observations");
            shipped.map_or_else(Vec::new, |rules| rules.observations.clone())
        });
        rules.from_shipped.extend(missing);
    }
}

/// Each row of a list with its place.
pub(crate) fn each_row<'a, Form, Row>(
    forms: Vec<Form>,
    at: &'a Place,
    mut row: impl FnMut(Form, &Place<'a>) -> Row,
) -> Vec<Row> {
    forms
        .into_iter()
        .enumerate()
        .map(|(index, form)| row(form, &at.item(index)))
        .collect()
}

/// Where a row comes from: every row says it.
pub(crate) fn source(source: String, at: &Place, faults: &mut Faults) -> String {
    let at = at.field("source");
    if source.trim().is_empty() {
        faults.add(
            &at,
            "a citation, \"common practice, no source\" or \"assumption\"",
            "",
        );
    }
    source
}

/// A shape that fits is likelier to hold than one that does not.
fn chances_are_in_order(rules: &HouseRules, at: &Place, faults: &mut Faults) {
    if rules.parameters.len() == Parameter::ALL.len() && !rules.chances_are_in_order() {
        let fits = rules.parameter(Parameter::ChanceFits);
        let does_not = rules.parameter(Parameter::ChanceDoesNotFit);
        let found = format!("chance_does_not_fit {does_not}");
        let expected = format!("at most chance_fits, {fits}");
        faults.say(&at.field("parameters"), &found, expected, "");
    }
}
