use super::settled::holds;
use super::{answered, excluded, unanswered};
use crate::house_rules::{Evidence, Exclusion, FigureBounds, Grade};
use crate::{
    Answer, Case, Circulation, CirculationFigure, Fact, Guidance, HouseRules, ResolvedCase, bare,
};
use Answer::{No, Unknown, Yes};
use measurement::{Conduction, Finding, Prolapse, Regurgitation, Site};
use std::sync::Arc;

const SITE: Site = Site::TrabecularMuscular;
const ASKED: Finding = Finding::HeartFailure;
const OTHER: Finding = Finding::FailureToThrive;

fn case(findings: &[(Finding, Answer)]) -> Case {
    let mut case = bare::case(SITE);
    case.findings.extend(findings.iter().copied());
    case
}

/// An exclusion that one finding makes so and another not so.
fn exclusion() -> Exclusion {
    Exclusion {
        id: "one".into(),
        fact: "one is so".into(),
        sites: Vec::new(),
        yes_if: vec![vec![Evidence::Is(ASKED, Yes)]],
        no_if: vec![vec![Evidence::Is(OTHER, Yes)]],
        source: "assumption".into(),
    }
}

fn resolved(mut case: Case, typed: Answer) -> ResolvedCase {
    let mut rules = HouseRules::new("rules".into());
    rules.exclusions.push(exclusion());
    case.exclusions.insert("one".into(), typed);
    ResolvedCase::new(Arc::new(case), Arc::new(rules))
}

/// What is known counts before what was typed, and of two the graver.
#[test]
fn the_graver_of_what_is_typed_and_what_is_known_counts() {
    let settled = [
        (Unknown, vec![]),
        (Yes, vec![(ASKED, Yes)]),
        (No, vec![(OTHER, Yes)]),
    ];
    for (settles, findings) in settled {
        for typed in [Unknown, Yes, No] {
            let resolved = resolved(case(&findings), typed);
            let it = answered(&resolved, &exclusion());
            let expected = match (typed, settles) {
                (Yes, _) | (_, Yes) => Yes,
                (No, _) | (_, No) => No,
                _ => Unknown,
            };
            assert_eq!(
                (it.answer, it.typed, it.settled),
                (expected, typed, settles)
            );
            let denied = matches!((typed, settles), (Yes, No) | (No, Yes));
            assert_eq!(it.is_denied(), denied, "{typed:?} {settles:?}");
            assert_eq!(it.because.is_empty(), settles == Unknown);
            assert_eq!(excluded(&resolved).count(), usize::from(expected == Yes));
            let open = usize::from(expected == Unknown);
            assert_eq!(unanswered(&resolved).count(), open);
        }
    }
}

#[test]
fn what_settles_it_is_said_once_and_nothing_else() {
    let mut asked = exclusion();
    let (is, other) = (Evidence::Is(ASKED, Yes), Evidence::Is(OTHER, Yes));
    asked.yes_if = vec![vec![is, other], vec![is]];
    let resolved = resolved(case(&[(ASKED, Yes), (OTHER, No)]), Unknown);
    let it = answered(&resolved, &asked);
    assert_eq!(it.because, [format!("{}: {Yes}", ASKED.label())]);
}

#[test]
fn one_of_each_list_must_hold() {
    let (yes, no, open) = (
        Evidence::Is(ASKED, Yes),
        Evidence::Is(ASKED, No),
        Evidence::Is(OTHER, Yes),
    );
    let case = case(&[(ASKED, Yes)]);
    let of = |all: &[&[Evidence]]| {
        let all = all.iter().map(|any| any.to_vec()).collect();
        holds(&all, &case, &Guidance::default())
    };
    assert_eq!(of(&[]), Unknown, "nothing settles nothing");
    assert_eq!(of(&[&[yes]]), Yes);
    assert_eq!(of(&[&[no]]), No);
    assert_eq!(of(&[&[open]]), Unknown);
    assert_eq!(of(&[&[no, open, yes]]), Yes);
    assert_eq!(of(&[&[no, open]]), Unknown);
    assert_eq!(of(&[&[open, no]]), Unknown);
    assert_eq!(of(&[&[yes], &[open]]), Unknown);
    assert_eq!(of(&[&[open], &[no]]), No);
    assert_eq!(of(&[&[yes], &[yes]]), Yes);
}

#[test]
fn a_finding_that_nobody_knows_is_not_what_is_asked() {
    let of = |evidence: Evidence, answer| {
        evidence.holds(&case(&[(ASKED, answer)]), &Guidance::default())
    };
    let (is, is_not) = (Evidence::Is(ASKED, Yes), Evidence::IsNot(ASKED, Yes));
    assert_eq!([Yes, No, Unknown].map(|it| of(is, it)), [Yes, No, Unknown]);
    assert_eq!([Yes, No, Unknown].map(|it| of(is_not, it)), [No, Yes, Yes]);
}

/// At least moderate, at most trivial: where grades are open, unknown unless all of
/// them agree.
#[test]
fn a_grade_holds_where_every_grade_it_may_be_does() {
    let at_least = Evidence::AtLeast(Fact::Prolapse, Grade::Moderate);
    let at_most = Evidence::AtMost(Fact::Prolapse, Grade::None);
    let expected = [
        (Prolapse::None, No, Yes),
        (Prolapse::Mild, No, No),
        (Prolapse::Moderate, Yes, No),
        (Prolapse::Severe, Yes, No),
        (Prolapse::Ungraded, Unknown, No),
        (Prolapse::Unknown, Unknown, Unknown),
    ];
    let nothing = Guidance::default();
    for (grade, least, most) in expected {
        let mut case = case(&[]);
        case.facts.prolapse = grade;
        let found = (
            at_least.holds(&case, &nothing),
            at_most.holds(&case, &nothing),
        );
        assert_eq!(found, (least, most), "{grade:?}");
    }
    let expected = [
        (Regurgitation::None, No, Yes),
        (Regurgitation::Trivial, No, Yes),
        (Regurgitation::Mild, No, No),
        (Regurgitation::Moderate, Yes, No),
        (Regurgitation::Severe, Yes, No),
        (Regurgitation::Unknown, Unknown, Unknown),
    ];
    for (grade, least, most) in expected {
        for fact in [Fact::AorticRegurgitation, Fact::PulmonaryRegurgitation] {
            let mut case = case(&[]);
            match fact {
                Fact::AorticRegurgitation => case.facts.aortic_regurgitation = grade,
                _ => case.facts.pulmonary_regurgitation = grade,
            }
            let of = |evidence: Evidence| evidence.holds(&case, &nothing);
            let least_found = of(Evidence::AtLeast(fact, Grade::Moderate));
            let most_found = of(Evidence::AtMost(fact, Grade::Trivial));
            assert_eq!(
                (least_found, most_found),
                (least, most),
                "{fact:?} {grade:?}"
            );
        }
    }
    // What has no grades is known of no grade.
    let mut case = case(&[]);
    case.facts.conduction = Conduction::Normal;
    let open = Evidence::AtLeast(Fact::Conduction, Grade::Mild);
    assert_eq!(open.holds(&case, &nothing), Unknown);
}

#[test]
fn a_figure_holds_within_all_its_bounds() {
    let bounds = FigureBounds {
        over: Some(6.0),
        under: Some(8.0),
        ..FigureBounds::default()
    };
    let closed = FigureBounds {
        at_least: Some(6.0),
        at_most: Some(8.0),
        ..FigureBounds::default()
    };
    let of = |bounds, value: Option<f64>| {
        let guidance = Guidance {
            circulation: Circulation {
                resistance_indexed: value,
                ..Circulation::default()
            },
            ..Guidance::default()
        };
        Evidence::Figure(CirculationFigure::ResistanceIndexed, bounds).holds(&case(&[]), &guidance)
    };
    assert_eq!(of(bounds, None), Unknown);
    let values = [5.9, 6.0, 7.0, 8.0, 8.1].map(Some);
    assert_eq!(values.map(|value| of(bounds, value)), [No, No, Yes, No, No]);
    assert_eq!(
        values.map(|value| of(closed, value)),
        [No, Yes, Yes, Yes, No]
    );
}

#[test]
fn what_is_known_is_said_in_words() {
    let guidance = Guidance {
        circulation: Circulation {
            resistance_indexed: Some(7.126),
            ..Circulation::default()
        },
        ..Guidance::default()
    };
    let mut case = case(&[(ASKED, Yes)]);
    case.facts.prolapse = Prolapse::Mild;
    let says = |evidence: Evidence| evidence.says(&case, &guidance);
    let figure = CirculationFigure::ResistanceIndexed;
    let said = says(Evidence::Figure(figure, FigureBounds::default()));
    assert_eq!(said, format!("{} is 7.13", figure.label()));
    let graded = says(Evidence::AtLeast(Fact::Prolapse, Grade::Mild));
    let value = case.facts.get(Fact::Prolapse).says();
    assert_eq!(graded, format!("{} is {value}", Fact::Prolapse.label()));
    let found = says(Evidence::IsNot(ASKED, No));
    assert_eq!(found, format!("{}: {Yes}", ASKED.label()));
}

/// A grade that may be as grave as the one asked for is no no, and no yes.
#[test]
fn a_grade_that_may_reach_the_one_asked_for_leaves_it_open() {
    let severe = vec![vec![Evidence::AtLeast(Fact::Prolapse, Grade::Severe)]];
    let mild = vec![vec![Evidence::AtMost(Fact::Prolapse, Grade::Mild)]];
    let of = |settles: &Vec<Vec<Evidence>>, prolapse| {
        let mut case = case(&[]);
        case.facts.prolapse = prolapse;
        holds(settles, &case, &Guidance::default())
    };
    for (prolapse, is_severe, is_mild) in [
        (Prolapse::None, No, Yes),
        (Prolapse::Mild, No, Yes),
        (Prolapse::Moderate, No, No),
        (Prolapse::Severe, Yes, No),
        (Prolapse::Ungraded, Unknown, Unknown),
        (Prolapse::Unknown, Unknown, Unknown),
    ] {
        assert_eq!(of(&severe, prolapse), is_severe, "{prolapse:?}");
        assert_eq!(of(&mild, prolapse), is_mild, "{prolapse:?}");
    }
}
