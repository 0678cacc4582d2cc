mod criteria;
mod defaults;
mod exclusions;
mod limits;
mod model_errors;
mod observations;
mod rated;
mod readings;
mod schedule;
mod sites;
mod wide_bounds;

use crate::document::Checked;
use crate::faults::Faults;
use crate::kind::RULES_CAP;
use crate::parameters::{self, ParameterForm};
use crate::place::FieldPlace;
use crate::{Diagnostic, FileError, FileKind, Source};
use criteria::CriterionRowForm;
use defaults::DefaultForm;
use exclusions::ExclusionForm;
use limits::LimitForm;
use measurement::ModelError;
use model_errors::ModelErrorForm;
use observations::ObservationRowForm;
use rated::{CapForm, MeasuredFirstForm};
use readings::{BiasForm, DoubtForm, PreferenceForm, ScaleForm};
use schedule::ScheduleForm;
use serde::Deserialize;
use sites::{DangerArcForm, NoteForm, RimRuleForm};
use sizing::HouseRules;
use sizing::house_rules::{
    CapRow, CriterionRow, MeasuredFirst, ModelErrorRow, NoteRow, ObservationRow, Parameter,
    ScheduleRow, Sourced, WideBoundRow,
};
use std::cell::LazyCell;
use std::path::Path;
use wide_bounds::WideBoundForm;

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
    schedule: Option<Vec<ScheduleForm>>,
    late: Option<Vec<NoteForm>>,
    model_errors: Option<Vec<ModelErrorForm>>,
    wide_bounds: Option<Vec<WideBoundForm>>,
}

fn house_rules(form: HouseRulesForm, at: &FieldPlace, faults: &mut Faults) -> HouseRules {
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
    let wide_bounds = form
        .wide_bounds
        .map(|forms| wide_bounds::rows(forms, &at.field("wide_bounds"), faults));
    let model_errors = form
        .model_errors
        .map(|forms| model_errors::rows(forms, &at.field("model_errors"), faults));
    let schedule = form
        .schedule
        .map(|forms| schedule::rows(forms, &at.field("schedule"), faults));
    let late = form
        .late
        .map(|forms| sites::notes(forms, &at.field("late"), faults));
    let later = Later {
        parameters: parameters::given::<Parameter>(
            form.parameters,
            &at.field("parameters"),
            faults,
        ),
        schedule,
        late,
        measured_first,
        caps,
        release_criteria,
        observations,
        wide_bounds,
        model_errors,
    };
    let title = faults.text(&at.field("title"), form.title);
    let mut rules = HouseRules {
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
        from_shipped: are_from_shipped,
        ..HouseRules::new(title)
    };
    later.fill(&mut rules);
    chances_are_in_order(&rules, at, faults);
    limits::are_told_apart(&rules, &at.field("limits"), faults);
    rules
}

/// What a file of an earlier version may not have: rows of parameters, and lists.
struct Later {
    parameters: Vec<Option<(f64, String)>>,
    schedule: Option<Vec<ScheduleRow>>,
    late: Option<Vec<NoteRow>>,
    measured_first: Option<Vec<MeasuredFirst>>,
    caps: Option<Vec<CapRow>>,
    release_criteria: Option<Vec<CriterionRow>>,
    observations: Option<Vec<ObservationRow>>,
    wide_bounds: Option<Vec<WideBoundRow>>,
    model_errors: Option<Vec<ModelErrorRow>>,
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
        let mut lend = |name| {
            missing.push(name);
            shipped.as_ref()
        };
        macro_rules! fill {
            ($($list:ident),+) => {$(
                rules.$list = self.$list.unwrap_or_else(|| {
                    let shipped = lend(stringify!($list));
                    shipped.map_or_else(Vec::new, |rules: &HouseRules| rules.$list.clone())
                });
            )+};
        }
        if self.parameters.iter().any(Option::is_none) {
            lend("parameters (some rows)");
        }
        let shipped_parameter = |index: usize| {
            let shipped: &Option<HouseRules> = &shipped;
            shipped.as_ref()?.parameters.get(index).cloned()
        };
        let given = self.parameters.into_iter().enumerate();
        rules.parameters = given
            .filter_map(|(index, given)| match given {
                Some((value, source)) => Some(Sourced { value, source }),
                None => shipped_parameter(index),
            })
            .collect();
        fill!(
            measured_first,
            caps,
            release_criteria,
            observations,
            schedule,
            late,
            wide_bounds
        );
        // Of these and of parameters a version may know more than the file.
        let name = model_errors::lent_name(self.model_errors.is_some());
        rules.model_errors = self.model_errors.unwrap_or_default();
        let has_all = (ModelError::ALL.iter()).all(|&error| rules.model_error(error).is_some());
        if !has_all && let Some(shipped) = lend(name) {
            let lacking = shipped.model_errors.iter();
            let lacking = lacking.filter(|row| rules.model_error(row.of).is_none());
            let lacking: Vec<ModelErrorRow> = lacking.cloned().collect();
            rules.model_errors.extend(lacking);
        }
        let (unit, takes_all) = (readings::LATER_UNIT, readings::takes_all_in);
        if !rules.doubts.iter().any(|row| takes_all(row, unit))
            && let Some(shipped) = lend(readings::LENT_DOUBTS)
        {
            let lacking = shipped.doubts.iter().filter(|row| row.unit == unit);
            rules.doubts.extend(lacking.cloned());
        }
        rules.from_shipped.extend(missing);
    }
}

/// A shape that fits is likelier to hold than one that does not.
fn chances_are_in_order(rules: &HouseRules, at: &FieldPlace, faults: &mut Faults) {
    if rules.parameters.len() == Parameter::ALL.len() && !rules.chances_are_in_order() {
        let fits = rules.parameter(Parameter::ChanceFits);
        let does_not = rules.parameter(Parameter::ChanceDoesNotFit);
        let found = format!("chance_does_not_fit {does_not}");
        let expected = format!("at most chance_fits, {fits}");
        faults.say(&at.field("parameters"), &found, expected, "");
    }
}
