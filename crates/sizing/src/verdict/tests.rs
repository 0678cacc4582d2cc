use super::{Judged, Verdict, judge};
use crate::house_rules::{
    CapRow, Condition, Exclusion, MeasuredFirst, Need, Parameter, PreferenceRow,
};
use crate::{
    Against, Answer, Contradiction, Guidance, Harm, HouseRules, Outcome, Row, State, bare,
};
use measurement::{
    Choose, GroupPattern, Method, Modality, Phase, Quantity, Reading, ReadingId, Side, Site,
};

const SITE: Site = Site::TrabecularMuscular;

/// Rules under which 0.9 fits and less than 0.5 does not.
fn rules() -> HouseRules {
    let mut rules = HouseRules::new("rules".into());
    rules.parameters[Parameter::ChanceFits.index()].value = 0.9;
    rules.parameters[Parameter::ChanceDoesNotFit.index()].value = 0.5;
    rules
}

/// What is said of a size whose rows and outcomes are these, under these rules.
fn of(rules: HouseRules, rows: &[Row], outcomes: &[Outcome], chance: Option<f64>) -> Judged {
    let setting = bare::setting(bare::case(SITE), rules);
    judge(&setting, &bare::occluder(), rows, outcomes, chance)
}

fn held(judged: &Judged) -> (Verdict, Vec<&str>) {
    let because = judged.because.iter().map(String::as_str);
    (judged.verdict, because.collect())
}

fn broken() -> Vec<Outcome> {
    vec![bare::outcome(State::Stop, Harm::Vessel, "too large")]
}

#[test]
fn the_chance_alone_says_how_far_it_fits() {
    let verdict = |chance| of(rules(), &[], &[], chance);
    assert_eq!(held(&verdict(Some(0.9))), (Verdict::Fits, vec![]));
    let less = verdict(Some(0.89));
    let says = "inside every limit in 89 % of the simulated variations";
    assert_eq!(held(&less), (Verdict::Borderline, vec![says]));
    assert_eq!(verdict(Some(0.5)).verdict, Verdict::Borderline);
    let says = "a limit is broken in 51 % of the simulated variations";
    let none = verdict(Some(0.49));
    assert_eq!(held(&none), (Verdict::DoesNotFit, vec![says]));
    let says = "chances were not computed";
    assert_eq!(held(&verdict(None)), (Verdict::Borderline, vec![says]));
}

#[test]
fn a_broken_limit_does_not_fit_and_the_gravest_is_said_first() {
    let outcomes = [
        bare::outcome(State::Ok, Harm::AorticOrMitralValve, "clear"),
        bare::outcome(State::Stop, Harm::Vessel, "too large"),
        bare::outcome(State::Caution, Harm::AorticOrMitralValve, "near"),
        bare::outcome(State::Stop, Harm::AvBlock, "too tight"),
    ];
    let judged = of(rules(), &[], &outcomes, Some(1.0));
    let says = vec!["too tight", "too large"];
    assert_eq!(held(&judged), (Verdict::DoesNotFit, says));
}

#[test]
fn a_warning_and_what_is_not_assessed_hold_at_borderline() {
    let state = |state| {
        of(
            rules(),
            &[],
            &[bare::outcome(state, Harm::Vessel, "said")],
            Some(1.0),
        )
    };
    assert_eq!(held(&state(State::Ok)), (Verdict::Fits, vec![]));
    let judged = state(State::Caution);
    assert_eq!(held(&judged), (Verdict::Borderline, vec!["said"]));
    let judged = state(State::NotAssessed);
    let says = "clearance of the shape: said";
    assert_eq!(judged.verdict, Verdict::Borderline);
    assert_eq!(judged.because.len(), 1, "{says}: {:?}", judged.because);
    assert!(
        judged.because[0].starts_with("clearance of "),
        "{:?}",
        judged.because
    );
}

#[test]
fn what_was_not_measured_or_not_so_is_said_once_and_holds() {
    let quantity = Quantity::AORTIC_RIM;
    let unmeasured = Row {
        unmeasured: vec![quantity],
        ..bare::row(&[quantity])
    };
    let second_choice = Row {
        second_choice: vec![quantity],
        ..bare::row(&[quantity])
    };
    let rows = [
        unmeasured.clone(),
        second_choice.clone(),
        unmeasured,
        second_choice,
    ];
    let judged = of(rules(), &rows, &[], Some(1.0));
    assert_eq!(judged.verdict, Verdict::Borderline);
    let says = [
        format!("the {quantity} was not measured"),
        format!("{quantity} was not measured the preferred way"),
    ];
    assert_eq!(judged.because, says);
}

fn exclusion(id: &str, sites: &[Site]) -> Exclusion {
    Exclusion {
        id: id.into(),
        fact: format!("{id} is so"),
        sites: sites.to_vec(),
        yes_if: Vec::new(),
        no_if: Vec::new(),
        source: "assumption".into(),
    }
}

#[test]
fn an_exclusion_stops_every_size_and_an_open_one_holds_it() {
    let answered = |site: &[Site], answer: Option<Answer>, chance| {
        let mut rules = rules();
        rules.exclusions.push(exclusion("thrombus", site));
        let mut case = bare::case(SITE);
        case.exclusions
            .extend(answer.map(|answer| ("thrombus".into(), answer)));
        let setting = bare::setting(case, rules);
        judge(&setting, &bare::occluder(), &[], &[], chance)
    };
    let yes = answered(&[], Some(Answer::Yes), Some(1.0));
    assert_eq!(held(&yes), (Verdict::DoesNotFit, vec!["thrombus is so"]));
    let open = answered(&[], None, Some(1.0));
    let says = vec!["not answered: thrombus is so"];
    assert_eq!(held(&open), (Verdict::Borderline, says));
    let no = answered(&[], Some(Answer::No), Some(1.0));
    assert_eq!(held(&no), (Verdict::Fits, vec![]));
    // What another site asks is not asked here; a yes counts all the same.
    let elsewhere = [Site::OutletMuscular];
    assert_eq!(answered(&elsewhere, None, Some(1.0)).verdict, Verdict::Fits);
    let yes = answered(&elsewhere, Some(Answer::Yes), Some(1.0));
    assert_eq!(yes.verdict, Verdict::DoesNotFit);
}

fn contradiction(on: &[Quantity], is_impossible: bool) -> Contradiction {
    Contradiction {
        id: "made_up".into(),
        says: "both cannot be".into(),
        on: on.to_vec(),
        is_impossible,
    }
}

#[test]
fn a_contradiction_holds_what_rests_on_it_and_nothing_else() {
    let setting = |on: &[Quantity]| {
        bare::setting(bare::case(SITE), rules()).with_guidance(Guidance {
            contradictions: vec![contradiction(on, false)],
            ..Guidance::default()
        })
    };
    let rows = [bare::row(&[Quantity::AORTIC_RIM]), bare::row(&[])];
    let verdict = |on: &[Quantity]| judge(&setting(on), &bare::occluder(), &rows, &[], Some(1.0));
    let judged = verdict(&[Quantity::WALL_THICKNESS, Quantity::AORTIC_RIM]);
    assert_eq!(held(&judged), (Verdict::Borderline, vec!["both cannot be"]));
    assert_eq!(verdict(&[Quantity::WALL_THICKNESS]).verdict, Verdict::Fits);
    // On nothing: every verdict rests on it.
    assert_eq!(verdict(&[]).verdict, Verdict::Borderline);
}

#[test]
fn guidance_against_closing_and_what_trials_say_hold() {
    let setting = bare::setting(bare::case(SITE), rules());
    let guided = setting.clone().with_guidance(Guidance {
        against: vec![Against {
            id: "small".into(),
            says: "too small a shunt".into(),
            source: "assumption".into(),
        }],
        ..Guidance::default()
    });
    let judged = judge(&guided, &bare::occluder(), &[], &[], Some(1.0));
    let says = vec!["guidance against closing is met: too small a shunt"];
    assert_eq!(held(&judged), (Verdict::Borderline, says));
    let tried = setting.held(vec!["what was seen is unlikely".into()]);
    let judged = judge(&tried, &bare::occluder(), &[], &[], Some(1.0));
    let says = vec!["what was seen is unlikely"];
    assert_eq!(held(&judged), (Verdict::Borderline, says));
}

#[test]
fn a_cap_holds_at_its_sites_and_where_its_conditions_are_met() {
    let capped = |sites: &[Site], when: &[Condition]| {
        let mut rules = rules();
        rules.caps.push(CapRow {
            sites: sites.to_vec(),
            when: when.to_vec(),
            says: "never done".into(),
            source: "assumption".into(),
        });
        of(rules, &[], &[], Some(1.0))
    };
    let says = vec!["borderline at best: never done"];
    assert_eq!(held(&capped(&[], &[])), (Verdict::Borderline, says));
    assert_eq!(capped(&[SITE], &[]).verdict, Verdict::Borderline);
    assert_eq!(capped(&[Site::OutletMuscular], &[]).verdict, Verdict::Fits);
    // The waist has no discs, and nobody knows of a prolapse.
    let both = [Condition::MissingDisc, Condition::Prolapse];
    assert_eq!(capped(&[], &both).verdict, Verdict::Borderline);
    let one = [Condition::MissingDisc, Condition::ChordaeOnEdge];
    assert_eq!(capped(&[], &one).verdict, Verdict::Fits);
}

/// Rules that want the wall measured first.
fn wanting() -> HouseRules {
    let mut rules = rules();
    rules.measured_first.push(MeasuredFirst {
        sites: Vec::new(),
        all: vec![Need::Reading(Quantity::WALL_THICKNESS)],
        one_of: Vec::new(),
        source: "assumption".into(),
    });
    rules
}

#[test]
fn a_case_that_is_not_rated_does_not_fit_where_measured_values_break_a_limit() {
    let row = bare::row(&[Quantity::AORTIC_RIM]);
    let verdict = |row: &Row, outcomes: &[Outcome]| {
        of(wanting(), std::slice::from_ref(row), outcomes, Some(1.0))
    };
    let fine = bare::outcome(State::Ok, Harm::Vessel, "fine");
    let judged = verdict(&row, &[fine]);
    assert_eq!(judged.verdict, Verdict::NotRated);
    assert!(
        judged.because[0].starts_with("not measured: "),
        "{judged:?}"
    );
    let stopped = verdict(&row, &broken());
    assert_eq!(held(&stopped), (Verdict::DoesNotFit, vec!["too large"]));
    // A limit broken by what is assumed says nothing of such a case.
    let assumed = Row {
        unmeasured: vec![Quantity::AORTIC_RIM],
        ..row
    };
    assert_eq!(verdict(&assumed, &broken()).verdict, Verdict::NotRated);
    // Nor does the chance, which rests on it.
    let unlikely = of(wanting(), &[], &[], Some(0.0));
    assert_eq!(unlikely.verdict, Verdict::NotRated);
}

#[test]
fn what_no_defect_can_be_breaks_no_limit() {
    let setting = |on: &[Quantity]| {
        bare::setting(bare::case(SITE), rules()).with_guidance(Guidance {
            contradictions: vec![contradiction(on, true)],
            ..Guidance::default()
        })
    };
    let rows = [bare::row(&[Quantity::AORTIC_RIM])];
    let verdict = |on: &[Quantity]| judge(&setting(on), &bare::occluder(), &rows, &broken(), None);
    assert_eq!(verdict(&[Quantity::AORTIC_RIM]).verdict, Verdict::NotRated);
    let elsewhere = verdict(&[Quantity::WALL_THICKNESS]);
    assert_eq!(elsewhere.verdict, Verdict::DoesNotFit);
}

/// A case with readings of the long axis, under rules that take any reading.
fn with_long_axes(values: &[f64], round: Answer) -> Judged {
    let mut case = bare::case(SITE);
    case.facts.round = round;
    case.readings.extend(values.iter().map(|&value| Reading {
        id: ReadingId(value.to_string()),
        quantity: Quantity::DEFECT_LONG_AXIS,
        value,
        sd: Some(0.5),
        modality: Modality::TransthoracicEcho,
        side: Side::Within,
        phase: Phase::EndDiastole,
        method: Method::EdgeToEdge,
        image: None,
        set_aside: None,
    }));
    let mut rules = rules();
    rules.parameters[Parameter::Dispute.index()].value = 2.0;
    rules.preferences.push(PreferenceRow {
        of: Vec::new(),
        when_prolapse: false,
        prefer: vec![GroupPattern::default()],
        choose: Choose::Largest,
        source: "assumption".into(),
    });
    let setting = bare::setting(case, rules);
    judge(&setting, &bare::occluder(), &[], &[], Some(1.0))
}

#[test]
fn readings_that_contradict_each_other_hold_at_borderline() {
    // 1.3 and 2 mm apart, of combined deviations of 0.71: 1.8 and 2.8 of them.
    assert_eq!(
        with_long_axes(&[5.0, 6.3], Answer::No).verdict,
        Verdict::Fits
    );
    let judged = with_long_axes(&[5.0, 7.0], Answer::No);
    let says = format!(
        "readings of {} contradict each other",
        Quantity::DEFECT_LONG_AXIS
    );
    assert_eq!(held(&judged), (Verdict::Borderline, vec![says.as_str()]));
}

#[test]
fn one_axis_for_both_holds_at_borderline() {
    let judged = with_long_axes(&[5.0], Answer::Yes);
    assert_eq!(judged.verdict, Verdict::Borderline);
    assert!(judged.because[0].starts_with("one axis of the defect stands for both"));
    assert_eq!(judged.because.len(), 1, "{:?}", judged.because);
}
