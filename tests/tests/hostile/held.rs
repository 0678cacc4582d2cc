//! What holds of every result, whatever it was made from.

use files::Diagnostic;
use measurement::Chance;
use outside::sample::{scenario, shipped_catalogue, shipped_limits, shipped_rules};
use sizing::engine::{Engine, Fast};
use sizing::{Case, Catalogue, Draws, HouseRules, Ranking, Shape, Verdict, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use workup::{Limits, Workup};

/// Few draws: what they are made into is looked at, not how exact it is.
const DRAWS: usize = 64;

/// Faults of a file as they are shown.
pub(crate) fn faults(faults: &[Diagnostic]) {
    assert!(!faults.is_empty(), "refused without a word");
    warnings(faults);
}

/// Faults of a file that is read all the same.
pub(crate) fn warnings(faults: &[Diagnostic]) {
    for fault in faults {
        shown(&fault.to_string());
    }
}

/// A text that reaches a terminal: no control character but the end of a line, nothing
/// that turns the direction of writing.
pub(crate) fn shown(text: &str) {
    let is_hidden = |letter: char| {
        letter.is_control() && letter != '\n'
            || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
    };
    assert!(!text.contains(is_hidden), "shown raw: {text:?}");
}

/// One size of each shape that ships.
pub(crate) fn few_sizes() -> Catalogue {
    let mut catalogue = shipped_catalogue();
    for shape in &mut catalogue.shapes {
        let middle = shape.sizes.len() / 2;
        shape.sizes = vec![shape.sizes[middle].clone()];
    }
    catalogue
}

/// A ranking and the work-up of a case: every figure is a number, every chance lies
/// between 0 and 1, and no size fits for which a check says that it cannot be rated.
pub(crate) fn case(case: Case, rules: HouseRules, catalogue: Catalogue) -> Ranking {
    under(case, rules, catalogue, &shipped_limits())
}

/// The demonstration under published limits.
pub(crate) fn guidance(limits: &Limits) {
    under(
        scenario("outlet-infant"),
        shipped_rules(),
        few_sizes(),
        limits,
    );
}

fn under(case: Case, rules: HouseRules, catalogue: Catalogue, limits: &Limits) -> Ranking {
    let rules = Arc::new(rules);
    let setting = Arc::new(files::setting(Arc::new(case), rules, Some(limits)));
    let work = Work {
        threads: 1,
        cancel: &AtomicBool::new(false),
    };
    let draws = Draws::new(&setting, DRAWS, 1).unwrap();
    let counter = Fast.prepare(draws);
    let ranking = rank(&setting, &[catalogue], Some(&*counter), &work).unwrap();
    for candidate in &ranking.candidates {
        for outcome in &candidate.outcomes {
            let value = outcome.value.unwrap_or(0.0);
            assert!(!value.is_nan(), "{}: {}", outcome.check, outcome.says);
            assert!(
                !outcome.says.contains("NaN") && !outcome.says.contains("inf "),
                "{}: {}",
                outcome.check,
                outcome.says
            );
            chance(outcome.chance);
        }
        chance(candidate.chances.map(|chances| chances.chance));
        let unrated = candidate.judged.verdict == Verdict::Fits && !candidate.is_case_rated;
        assert!(!unrated, "{} fits, not rated", candidate.name());
    }
    let workup = Workup::new(&files::workup_input(&setting), limits, DRAWS, 1).unwrap();
    for line in workup.sections.iter().flat_map(|section| &section.lines) {
        let amount = line.amount.map_or(0.0, |amount| amount.value);
        assert!(amount.is_finite(), "{}: {amount}", line.id);
    }
    ranking
}

fn chance(chance: Option<Chance>) {
    let Some(chance) = chance else { return };
    assert!((0.0..=1.0).contains(&chance.value), "{chance:?}");
    assert!(chance.error >= 0.0, "{chance:?}");
}

/// A catalogue for the demonstration.
pub(crate) fn catalogue(catalogue: Catalogue) {
    let most = 20;
    let mut few: Vec<Shape> = catalogue.shapes;
    for shape in &mut few {
        shape.sizes.truncate(most);
    }
    let catalogue = Catalogue {
        shapes: few,
        ..catalogue
    };
    case(scenario("outlet-infant"), shipped_rules(), catalogue);
}
