//! Cases and rows with nothing in them, for units that put in what they ask about.

use crate::house_rules::Band;
use crate::measure::Measure;
use crate::{Case, Harm, HouseRules, Outcome, Route, Row, Setting, State, Subject, checks};
use geometry::{Edge, Occluder, PerFace, Waist};
use measurement::{Quantity, Site, Unit};
use std::sync::Arc;

/// A case of a site of which nothing is known.
pub(crate) fn case(site: Site) -> Case {
    Case::new("a case".into(), site, Edge::Soft, Route::Antegrade)
}

/// A case under rules.
pub(crate) fn setting(case: Case, rules: HouseRules) -> Setting {
    Setting::new(Arc::new(case), Arc::new(rules))
}

/// A waist without discs.
pub(crate) fn occluder() -> Occluder {
    let waist = Waist {
        diameter: 5.0,
        length: 3.0,
    };
    Occluder::new(waist, PerFace::new(None, None))
}

/// A row without a limit that needs some quantities.
pub(crate) fn row(needs: &[Quantity]) -> Row {
    Row {
        check: checks::ALL[0],
        of: Subject::Shape,
        measure: Measure::Slack,
        stop: Band::NONE,
        caution: Band::NONE,
        missing: Vec::new(),
        second_choice: Vec::new(),
        unmeasured: Vec::new(),
        needs: needs.to_vec(),
    }
}

/// An outcome of a state with a sentence, without a value.
pub(crate) fn outcome(state: State, harm: Harm, says: &str) -> Outcome {
    Outcome {
        rotation: None,
        check: "clearance",
        title: "clearance",
        short: "clearance",
        below: None,
        harm,
        of: Subject::Shape,
        unit: Unit::Mm,
        scale: 1.0,
        state,
        value: None,
        stop: Band::NONE,
        caution: Band::NONE,
        chance: None,
        missing: Vec::new(),
        says: says.into(),
        aside: None,
    }
}
