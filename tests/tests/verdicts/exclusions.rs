//! Exclusions are states of the patient, never of the form: what was measured
//! answers them. Common practice, no source.

use measurement::{Answer, Finding, Prolapse, Regurgitation, Site};
use outside::page::{exact, set as setting};
use outside::sample::{rank_all, scenario, shipped_catalogue, shipped_rules};
use proptest::prelude::*;
use sizing::engine::{Engine, Fast};
use sizing::{Case, Draws, Setting, Verdict, Work, answered};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// A value in place of what was read.
fn read(case: &mut Case, address: &str, value: f64) {
    case.readings
        .retain(|one| one.quantity.address() != address);
    case.readings.push(exact(address, value));
}

/// The pressures of both circulations alike, no net shunt, cyanosis, and vessels
/// that were tested and did not yield. Every exclusion is answered no.
fn fixed_disease() -> Case {
    let mut case = scenario("mid-muscular");
    for (address, value) in [
        ("pulmonary_artery.systolic", 85.0),
        ("pulmonary_artery.diastolic", 48.0),
        ("pulmonary_artery.mean", 62.0),
        ("aorta.systolic", 85.0),
        ("aorta.diastolic", 48.0),
        ("aorta.mean", 62.0),
        ("right_ventricle.systolic", 85.0),
        ("left_ventricle.systolic", 85.0),
        ("pulmonary_artery.saturation", 70.0),
        ("superior_vena_cava.saturation", 58.0),
        ("pulmonary_vein.saturation", 98.0),
        ("aorta.saturation", 86.0),
        ("flow.qp_qs", 1.0),
    ] {
        read(&mut case, address, value);
    }
    case.findings.insert(Finding::Cyanosis, Answer::Yes);
    case.findings.insert(Finding::Reactive, Answer::No);
    case
}

fn best(case: Case) -> Verdict {
    rank_all(case).candidates[0].judged.verdict
}

#[test]
fn no_chance_is_told_of_a_size_of_an_excluded_case() {
    let setting = Arc::new(setting(fixed_disease()));
    let counter = Fast.prepare(Draws::new(&setting, 256, 1).expect("draws"));
    let work = Work {
        threads: 1,
        cancel: &AtomicBool::new(false),
    };
    let ranking = sizing::rank(&setting, &[shipped_catalogue()], Some(&*counter), &work);
    let ranking = ranking.expect("nobody cancels it");
    assert!(ranking.candidates.iter().any(|one| one.chances.is_some()));
    for candidate in &ranking.candidates {
        assert_eq!(candidate.chance_in_per_cent(), None, "{}", candidate.name());
        assert_eq!(candidate.chance_in_hundred(), None, "{}", candidate.name());
    }
}

#[test]
fn no_size_fits_a_child_with_fixed_pulmonary_vascular_disease() {
    let ranking = rank_all(fixed_disease());
    let excluded: Vec<&str> = ranking.excluded.iter().map(|it| it.id.as_str()).collect();
    assert_eq!(
        excluded,
        ["resistance_without_answer", "right_to_left_shunt"]
    );
    assert_eq!(ranking.candidates[0].judged.verdict, Verdict::DoesNotFit);
    // What was typed against the readings is said.
    let denied = ranking.contradictions.iter();
    let denied = denied.filter(|one| one.id == "exclusion_denied");
    assert_eq!(denied.count(), 2);
    assert!(ranking.against.len() > 1, "{:?}", ranking.against);
}

/// The gravest answer never passes where no answer would not.
#[test]
fn tested_and_not_reactive_is_never_better_than_not_tested() {
    for name in ["mid-muscular", "small-defect", "outlet-infant"] {
        for resistance in [20.0, 60.0] {
            let with = |reactive: Answer| {
                let mut case = scenario(name);
                read(&mut case, "pulmonary_artery.mean", resistance);
                case.findings.insert(Finding::Reactive, reactive);
                best(case)
            };
            assert!(with(Answer::No) >= with(Answer::Unknown), "{name}");
            assert!(with(Answer::Unknown) >= with(Answer::Yes), "{name}");
        }
    }
}

/// What is known of a case and what it makes of each exclusion: settled to yes, to
/// no, or by nothing.
type Known = fn(&mut Case);

fn evidence(id: &str) -> (Option<Known>, Option<Known>, Known) {
    let nothing: Known = |case| {
        case.facts.prolapse = Prolapse::Unknown;
        case.facts.aortic_regurgitation = Regurgitation::Unknown;
        case.findings.clear();
        case.readings
            .retain(|one| !one.quantity.is_for_workup_alone());
        case.readings
            .retain(|one| one.quantity.address() != "flow.qp_qs");
    };
    let (yes, no): (Option<Known>, Option<Known>) = match id {
        "cusp_in_defect" => (None, Some(|case| case.facts.prolapse = Prolapse::None)),
        "prolapse_with_regurgitation" => (
            Some(|case| {
                case.facts.prolapse = Prolapse::Ungraded;
                case.facts.aortic_regurgitation = Regurgitation::Mild;
            }),
            Some(|case| {
                case.facts.prolapse = Prolapse::Severe;
                case.facts.aortic_regurgitation = Regurgitation::Trivial;
            }),
        ),
        "aortic_regurgitation" => (
            Some(|case| case.facts.aortic_regurgitation = Regurgitation::Moderate),
            Some(|case| case.facts.aortic_regurgitation = Regurgitation::Mild),
        ),
        "infection_or_thrombus" => (
            Some(|case| {
                case.findings.insert(Finding::SignsOfInfection, Answer::Yes);
            }),
            None,
        ),
        "resistance_without_answer" => (
            Some(|case| *case = fixed_disease()),
            Some(|case| {
                let healthy = scenario("mid-muscular");
                case.readings = healthy.readings;
            }),
        ),
        "right_to_left_shunt" => (
            Some(|case| {
                case.findings.insert(Finding::Cyanosis, Answer::Yes);
            }),
            Some(|case| {
                case.findings.insert(Finding::Cyanosis, Answer::No);
                read(case, "flow.qp_qs", 1.4);
            }),
        ),
        _ => (None, None),
    };
    (yes, no, nothing)
}

/// Every exclusion of the shipped rules with yes, no, unknown and with what is known
/// for and against each answer.
#[test]
fn every_exclusion_is_answered_by_the_patient_first() {
    let rules = shipped_rules();
    assert_eq!(rules.exclusions.len(), 13);
    for exclusion in &rules.exclusions {
        use Answer::{No, Unknown, Yes};
        let id = exclusion.id.as_str();
        let (yes, no, nothing) = evidence(id);
        let says = |known: Option<Known>, typed: Answer| {
            let mut case = scenario("mid-muscular");
            case.site = *exclusion.sites.first().unwrap_or(&Site::TrabecularMuscular);
            nothing(&mut case);
            if let Some(known) = known {
                known(&mut case);
            }
            case.exclusions.insert(id.to_owned(), typed);
            let setting = setting(case);
            let own = setting.rules().exclusions.iter().find(|it| it.id == id);
            let answered = answered(&setting, own.expect("the row"));
            let is_said = sizing::contradictions(&setting)
                .iter()
                .any(|one| one.id == "exclusion_denied" && one.says.contains(&exclusion.fact));
            assert_eq!(answered.is_denied(), is_said, "{id}");
            (answered.answer, is_said)
        };
        assert_eq!(says(None, Yes), (Yes, false), "{id}");
        assert_eq!(says(None, No), (No, false), "{id}");
        assert_eq!(says(None, Unknown), (Unknown, false), "{id}");
        assert_eq!(yes.is_some(), !exclusion.yes_if.is_empty(), "{id}");
        assert_eq!(no.is_some(), !exclusion.no_if.is_empty(), "{id}");
        if yes.is_some() {
            assert_eq!(says(yes, Yes), (Yes, false), "{id}");
            assert_eq!(
                says(yes, No),
                (Yes, true),
                "{id}: a no against what is known"
            );
            assert_eq!(says(yes, Unknown), (Yes, false), "{id}");
        }
        if no.is_some() {
            assert_eq!(says(no, Yes), (Yes, true), "{id}: the graver counts");
            assert_eq!(says(no, No), (No, false), "{id}");
            assert_eq!(says(no, Unknown), (No, false), "{id}");
        }
    }
}

/// An exclusion that nothing answers, and guidance against closing that is met, hold
/// every size at borderline.
#[test]
fn an_open_exclusion_and_guidance_against_closing_hold_every_size() {
    let mut case = scenario("mid-muscular");
    case.exclusions.remove("no_access");
    let ranking = rank_all(case);
    for one in &ranking.candidates {
        assert_ne!(one.judged.verdict, Verdict::Fits);
        let why = "not answered: no vessel is open for the sheath";
        let is_held = one.judged.verdict == Verdict::Borderline;
        assert_eq!(one.judged.because.iter().any(|it| it == why), is_held);
    }
    let ranking = rank_all(scenario("small-defect"));
    let against: Vec<&str> = ranking.against.iter().map(|it| it.id.as_str()).collect();
    assert_eq!(against, ["aha2011_likely_to_shrink"]);
    let held = ranking
        .candidates
        .iter()
        .filter(|one| one.judged.verdict == Verdict::Borderline);
    assert!(held.clone().count() > 0);
    for one in held {
        let mut because = one.judged.because.iter();
        assert!(because.any(|it| it.starts_with("guidance against closing is met")));
    }
    assert!(
        ranking
            .headline()
            .contains("guidance speaks against closing"),
        "{}",
        ranking.headline()
    );
}

/// A file of rules of an earlier version has nine rows, and none of them says what
/// settles it.
#[test]
fn an_old_file_of_rules_takes_what_it_cannot_have_from_the_shipped_one() {
    let (name, text) = files::shipped::HOUSE_RULES;
    let mut old = String::new();
    let mut skipped = false;
    for block in text.split_inclusive("        ),\n") {
        let later = [
            "right_to_left_shunt",
            "outflow_needs",
            "anticoagulation",
            "no_access",
        ];
        if later
            .iter()
            .any(|id| block.contains(&format!("id: \"{id}")))
        {
            skipped = true;
            continue;
        }
        for line in block.split_inclusive('\n') {
            let line_start = line.trim_start();
            if !(line_start.starts_with("yes_if:") || line_start.starts_with("no_if:")) {
                old.push_str(line);
            }
        }
    }
    assert!(skipped);
    let rules = files::parse_house_rules(name, &old)
        .expect("it reads")
        .into_value();
    let mut own = rules.exclusions.clone();
    let mut shipped = shipped_rules().exclusions;
    own.sort_by(|one, other| one.id.cmp(&other.id));
    shipped.sort_by(|one, other| one.id.cmp(&other.id));
    assert_eq!(own, shipped);
    assert_eq!(
        rules.from_shipped.len(),
        2,
        "it is said: {:?}",
        rules.from_shipped
    );
    assert!(shipped_rules().from_shipped.is_empty());
}

fn answer() -> impl Strategy<Value = Answer> {
    prop::sample::select(vec![Answer::Yes, Answer::No, Answer::Unknown])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Taking an answer away never lifts an exclusion that readings settle, and a
    /// typed yes always counts.
    #[test]
    fn what_is_known_counts_whatever_is_typed(
        typed in answer(), cyanosis in answer(), reactive in answer(), qp_qs in 0.5..3.0_f64,
    ) {
        let rules = shipped_rules();
        let mut case = scenario("mid-muscular");
        read(&mut case, "flow.qp_qs", qp_qs);
        case.findings.insert(Finding::Cyanosis, cyanosis);
        case.findings.insert(Finding::Reactive, reactive);
        for exclusion in &rules.exclusions {
            case.exclusions.insert(exclusion.id.clone(), typed);
        }
        let setting: Setting = setting(case);
        for exclusion in &setting.rules().exclusions {
            let answered = answered(&setting, exclusion);
            if typed == Answer::Yes || answered.settled == Answer::Yes {
                prop_assert_eq!(answered.answer, Answer::Yes);
            }
            if answered.settled == Answer::Unknown {
                prop_assert_eq!(answered.answer, typed);
            }
        }
    }
}
