use crate::{CaseFile, Diagnostic, new_case, parse_case, shipped};
use measurement::Regurgitation;
use sizing::trial::{Cable, CameOfIt, ObservationKind, Seen};

const PROCEDURE: &str = r#"
    case_id: "case-17",
    // Looked at before the sheath was in.
    before: [(row: regurgitation, of: aortic_valve, seen: none), (row: leaflet, of: mitral_valve, seen: no)],
    criteria: [
        (size: "long-waist/8x5", row: edge_jet, inside: 1, beyond: 2, source: "s"), // at the huddle
        (size: "long-waist/8x5", row: regurgitation, of: aortic_valve, inside: none, beyond: mild, source: "s"),
        (size: "long-waist/8x5", row: rhythm, who: "anaesthetist", view: "twelve leads", inside: left_anterior_fascicle, beyond: left_bundle, source: "s"),
        (size: "long-waist/8x5", row: gradient, of: left, inside: 10, beyond: 25, source: "s", changes: [(min: 47, old: (inside: 10, beyond: 20), new: (inside: 10, beyond: 25), reason: "agreed")]),
        (size: "long-waist/8x5", row: weave_jet, source: "s", after_opening: true),
    ],
    trials: [
        (id: "t1", size: "long-waist/8x5", rotation_deg: 0, opened_min: 44, closed_min: 52,
            wire_across: no, cable: slack, seat_as_modelled: yes, view: "long axis",
            seen: [
                (id: "s1", what: slips, answer: yes, by: transoesophageal_echo, min: 50), // clearly
                (id: "s2", what: gradient, side: left, value: 8, sd: 4, min: 51),
                (id: "s3", what: regurgitation, of: aortic_valve, grade: mild, set_aside: "wire"),
                (id: "s4", what: edge_jet, value: 0.5, clock_position: 90),
                (id: "s5", what: rhythm, grade: as_before),
                (id: "s6", what: misshapen, answer: cannot_tell),
            ],
            came_of_it: recaptured, because: "it slipped", forecast: (opened: (ess: 4096, inside_before: 0.81, inside: 0.74, limits: [(check: "clearance", of: aortic_valve, chance: 0.93), (check: "waist_fit", chance: 1)], seen: [(what: touches, of: aortic_valve, yes: 0.13), (what: gradient, side: left, yes: 0.02, over: 20, by_readings: 4.2, at_zero: 0.2, percentiles: [0, 0, 0, 0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 9, 10, 12])]), closed: (ess: 900.5, inside: 0.2))),
        (id: "t2", size: "long-waist/10x5", opened_min: 60, closed_min: 70, came_of_it: released),
    ],
    used: (contrast_ml: 9, dose_area_gy_cm2: 3.1, fluoroscopy_min: 14),
    follow_up: [(day: 1, seen: [(id: "f1", what: edge_jet, value: 0)])],
    room: [(what: heparin, min: 12), (what: clotting_time, min: 30, value: 250)],
"#;

fn text(procedure: &str) -> String {
    format!(
        "(\n    format: 2, title: \"x\", site: central_perimembranous, edge: soft, access: antegrade,\n    \
         readings: [],\n{procedure})\n"
    )
}

fn file(text: &str) -> CaseFile {
    parse_case("case.ron", text).unwrap_or_else(|faults| panic!("{} in\n{text}", faults[0]))
}

fn faults(procedure: &str) -> Vec<String> {
    let said = |faults: Vec<Diagnostic>| faults.iter().map(ToString::to_string).collect();
    parse_case("c", &text(procedure)).map_or_else(said, |_| Vec::new())
}

#[test]
fn all_of_a_procedure_is_read() {
    let file = file(&text(PROCEDURE));
    let procedure = &file.value().procedure;
    assert_eq!(procedure.case_id.as_deref(), Some("case-17"));
    assert_eq!(procedure.criteria.len(), 5);
    assert_eq!(procedure.criteria[3].changes.len(), 1);
    let [first, second] = procedure.trials.as_slice() else {
        panic!("two trials");
    };
    assert_eq!(
        (first.cable, first.came_of_it),
        (Cable::Slack, Some(CameOfIt::Recaptured))
    );
    assert_eq!(first.seen[3].seen, Seen::Value(0.5));
    assert_eq!(first.seen[3].clock_position, Some(90.0));
    assert_eq!(second.came_of_it, Some(CameOfIt::Released));
    let opened = first.forecast.opened.as_ref().unwrap();
    assert_eq!((opened.effective, opened.inside), (4096.0, 0.74));
    assert_eq!(opened.limits[1].check, "waist_fit");
    let gradient = opened.of(ObservationKind::Gradient, opened.seen[1].of);
    let value = gradient.unwrap().value.as_ref().unwrap();
    assert_eq!((value.at_zero, value.percentiles[18]), (0.2, 12.0));
    assert_eq!((value.twentieth(0.0), value.twentieth(40.0)), (4, 19));
    let closed = first.forecast.closed.as_ref().unwrap();
    assert_eq!((closed.inside_before, closed.effective), (None, 900.5));
    assert!(second.forecast.is_empty());
    assert!(procedure.open().is_none() && procedure.is_locked());
    assert_eq!(
        procedure.follow_up[0].seen[0].what,
        ObservationKind::EdgeJet
    );
    assert_eq!(procedure.used.contrast_ml, Some(9.0));
}

#[test]
fn a_procedure_written_anew_says_the_same() {
    let mut case = file(&text(PROCEDURE)).into_value();
    let again = parse_case("x", &new_case(&case)).unwrap();
    assert_eq!(again.value(), &case);
    case.procedure = sizing::trial::Procedure::default();
    let written = new_case(&case);
    assert!(!written.contains("trials") && !written.contains("criteria"));
}

/// Each edit touches its own place, and the comments stay.
#[test]
fn an_edit_of_a_procedure_is_spliced() {
    let whole = text(PROCEDURE);
    let with = |change: &dyn Fn(&mut sizing::trial::Procedure)| {
        let file = file(&whole);
        let mut case = file.value().clone();
        change(&mut case.procedure);
        let spliced = file.with(&case).unwrap();
        assert_eq!(spliced.value(), &case);
        spliced.source().text().to_owned()
    };
    assert_eq!(with(&|_| {}), whole);
    let closed = with(&|it| it.trials[1].because = Some("inside all".into()));
    assert_eq!(
        closed,
        whole.replace(
            "came_of_it: released",
            "came_of_it: released, because: \"inside all\""
        )
    );
    let seen = with(&|it| it.trials[0].seen[1].seen = Seen::Value(12.0));
    assert_eq!(seen, whole.replace("value: 8, sd", "value: 12, sd"));
    let aside = with(&|it| it.trials[0].seen[0].set_aside = Some("a slip of the key".into()));
    assert_eq!(
        aside,
        whole.replace("min: 50)", "min: 50, set_aside: \"a slip of the key\")")
    );
    let fewer = with(&|it| {
        it.trials[0].seen.pop();
    });
    assert!(fewer.contains("// clearly") && !fewer.contains("misshapen"));
    let more = with(&|it| {
        let mut seen = it.trials[0].seen[2].clone();
        seen.id = "s9".into();
        seen.seen = Seen::Grade(Regurgitation::None);
        it.trials[1].seen.push(seen);
    });
    assert!(more.contains("opened_min: 60, closed_min: 70, seen: [") && more.contains("s9"));
    let bounds = with(&|it| it.criteria[0].bounds.beyond = Some(Seen::Value(3.0)));
    assert_eq!(bounds, whole.replacen("beyond: 2, ", "beyond: 3, ", 1));
    let foretold = with(&|it| it.trials[1].forecast = it.trials[0].forecast.clone());
    assert!(foretold.contains("came_of_it: released, forecast: (opened: (ess: 4096, "));
    let undone = with(&|it| it.trials[0].forecast.closed = None);
    assert_eq!(
        undone,
        whole.replace(", closed: (ess: 900.5, inside: 0.2)", "")
    );
    let gone = with(&|it| *it = sizing::trial::Procedure::default());
    assert!(gone.contains("// Looked at before") && !gone.contains("t1"));
}

#[test]
fn a_procedure_comes_into_a_case_without_one() {
    let bare = file(&text(""));
    let mut case = bare.value().clone();
    case.procedure = file(&text(PROCEDURE)).into_value().procedure;
    let spliced = bare.with(&case).unwrap();
    assert_eq!(spliced.value(), &case);
}

/// What a procedure may not say is refused at its line and column, with a remedy
/// where one helps.
#[test]
#[expect(clippy::too_many_lines, reason = "a list of faults, one after another")]
fn what_cannot_be_is_said_at_its_place() {
    let says = |procedure: &str, expected: &str| {
        let found = faults(procedure);
        assert!(
            found.iter().any(|one| one.contains(expected)),
            "{expected:?} not in {found:#?}"
        );
        // Line 4 holds the first line of the procedure.
        assert!(
            found.iter().all(|one| one.starts_with("c:4:")),
            "{found:#?}"
        );
    };
    let trial =
        |inside: &str| format!("trials: [(id: \"t\", size: \"a/1\", opened_min: 5{inside})],\n");
    let seen = |inside: &str| trial(&format!(", seen: [(id: \"s\", {inside})]"));
    assert_eq!(faults(&trial("")), Vec::<String>::new());
    assert_eq!(
        faults(&seen("what: slips, answer: no")),
        Vec::<String>::new()
    );
    says(&seen("what: slip, answer: no"), "Did you mean slips?");
    says(
        &seen("what: slips, value: 3"),
        "no value for slips, which takes an answer",
    );
    says(&seen("what: slips"), "no answer");
    says(
        &seen("what: slips, answer: maybe"),
        "yes, no or cannot_tell",
    );
    says(
        &seen("what: regurgitation, of: aortic_valve, grade: sever"),
        "Did you mean severe?",
    );
    says(&seen("what: regurgitation, grade: mild"), "no of");
    says(
        &seen("what: distance, of: left, value: 1"),
        "aortic_valve, mitral_valve",
    );
    says(
        &seen("what: distance, of: aortic_valve, value: 11"),
        "a number from 0 to 10 mm",
    );
    says(
        &seen("what: distance, of: aortic_valve, value: NaN"),
        "a number from 0 to 10 mm",
    );
    says(
        &seen("what: distance, of: aortic_valve, value: 1, sd: 0"),
        "a number above 0",
    );
    says(
        &seen("what: waist, of: aortic_valve, value: 1"),
        "nothing here: waist is of the device",
    );
    says(
        &seen("what: gradient, of: left, value: 1"),
        "no of for gradient",
    );
    says(
        &seen("what: slips, answer: no, min: 4"),
        "a minute while it was open, from 5",
    );
    says(
        &seen("what: slips, answer: no, clock_position: 90"),
        "no clock_position for slips",
    );
    says(&trial(", closed_min: 9"), "closed without outcome");
    says(&trial(", came_of_it: released"), "no closed_min");
    says(
        &trial(", closed_min: 3, came_of_it: released"),
        "minute 5 or later",
    );
    says(
        &trial(", closed_min: 3000, came_of_it: released"),
        "a number from 0 to 1440 min",
    );
    says(
        &trial(", closed_min: 9, came_of_it: kept"),
        "released, recaptured, changed or abandoned",
    );
    says(
        "trials: [(id: \"t\", size: \"a\", opened_min: 5)],\n",
        "a shape and a size",
    );
    let two = |first: &str| {
        format!(
            "trials: [(id: \"t\", size: \"a/1\", opened_min: 5{first}), \
             (id: \"u\", size: \"a/1\", opened_min: 8)],\n"
        )
    };
    says(&two(""), "an open trial");
    says(
        &two(", closed_min: 9, came_of_it: changed"),
        "minute 9 or later, when the trial of line 4",
    );
    foretold_wrongly(&says);
    says("follow_up: [(day: 1, seen: [])],\n", "nothing released");
    says("case_id: \"Smith 2020\",\n", "3 to 32 small letters");
    says("planned_on: \"abc\",\n", "64 digits");
    says(
        "before: [(row: waist, seen: 3)],\n",
        "It is no row of release criteria.",
    );
    says(
        "before: [(row: edge_jet, seen: none)],\n",
        "a number from 0 to 10 mm",
    );
    let criterion = |inside: &str| {
        format!("criteria: [(size: \"a/1\", row: edge_jet, source: \"s\", {inside})],\n")
    };
    assert_eq!(faults(&criterion("inside: 1")), Vec::<String>::new());
    says(&criterion("inside: mild"), "a number from 0 to 10 mm");
    says(
        &criterion("inside: 3, beyond: 2"),
        "no better than inside, 3",
    );
    says(
        &criterion(
            "inside: 1, changes: [(min: 3, old: (inside: 1), new: (inside: 2), reason: \"r\")]",
        ),
        "the bounds of its last change, inside 2",
    );
    says(
        &criterion(
            "inside: 2, changes: [(min: 3, old: (inside: 1), new: (inside: 2), reason: \" \")]",
        ),
        "some text",
    );
    says(
        "room: [(what: heparin, value: 3)],\n",
        "no figure for heparin",
    );
    says("room: [(what: snare), (what: snare)],\n", "snare again");
    says("used: (contrast_ml: -1),\n", "a number from 0 to 2000 mL");
}

/// Forecasts that cannot be.
fn foretold_wrongly(says: &dyn Fn(&str, &str)) {
    let forecast = |inside: &str| {
        format!("trials: [(id: \"t\", size: \"a/1\", opened_min: 5, forecast: ({inside}))],\n")
    };
    let opened = |inside: &str| forecast(&format!("opened: (ess: 9, inside: 0.5, {inside})"));
    let seen = |inside: &str| opened(&format!("seen: [({inside})]"));
    assert_eq!(faults(&opened("")), Vec::<String>::new());
    let closed = forecast("closed: (ess: 9, inside: 0.5)");
    says(&closed, "none while the trial is open");
    let many = forecast("opened: (ess: 0, inside: 0.5)");
    says(&many, "a number from 1 to");
    let sure = forecast("opened: (ess: 9, inside: 1.5)");
    says(&sure, "a number from 0 to 1");
    let misspelt = opened("limits: [(check: \"clearence\", chance: 0)]");
    says(&misspelt, "Did you mean clearance?");
    let twice = "(check: \"clearance\", of: aortic_valve, chance: 0)";
    let twice = opened(&format!("limits: [{twice}, {twice}]"));
    says(&twice, "clearance aortic_valve again");
    says(
        &seen("what: rhythm, yes: 0.5"),
        "an observation of geometry",
    );
    says(&seen("what: touches, yes: 0.5"), "no of");
    says(&seen("what: slips"), "Add `yes: …`.");
    let answer = seen("what: slips, yes: 0, at_zero: 1");
    says(&answer, "no at_zero for slips, which is an answer");
    let value = |inside: &str| seen(&format!("what: gradient, side: left, {inside}"));
    says(&value("at_zero: 0"), "Add `percentiles: …`.");
    says(&value("percentiles: [0, 1]"), "19 values");
    let falling = "percentiles: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 8, 11, 12, 13, 14, 15, 16, 17, 18]";
    says(&value(falling), "none less than the one before it");
    let none = falling.replace("9, 8,", "9, NaN,");
    says(&value(&none), "a number from 0 to 100 mmHg");
    let rising = falling.replace("9, 8,", "9, 10,");
    assert_eq!(faults(&value(&rising)), Vec::<String>::new());
    says(
        &value(&format!("yes: 0.5, {rising}")),
        "one of yes and over",
    );
    says(&value(&format!("by_readings: 1e9, {rising}")), "to 1000");
}

#[test]
fn a_size_that_no_catalogue_has_is_said_with_the_nearest() {
    let (name, catalogue) = shipped::SHAPES;
    let catalogue = crate::parse_catalogue(name, catalogue)
        .unwrap()
        .into_value();
    let shape = &catalogue.shapes[0];
    let known = format!("{}/{}", shape.id, shape.sizes[0].label);
    let trial = |size: &str| {
        let text = text(&format!(
            "trials: [(id: \"t\", size: \"{size}\", opened_min: 5)],\n"
        ));
        file(&text).faults_among(std::slice::from_ref(&catalogue))
    };
    assert_eq!(trial(&known), []);
    let found = trial(&format!("{known}x"))[0].to_string();
    assert!(found.starts_with("case.ron:4:"), "{found}");
    assert!(found.contains(&format!("Did you mean {known}?")), "{found}");
}

#[test]
fn shipped_release_criteria_are_of_every_site_and_read() {
    let (name, rules) = shipped::HOUSE_RULES;
    let rules = crate::parse_house_rules(name, rules).unwrap().into_value();
    let rows: Vec<&str> = rules
        .release_criteria
        .iter()
        .map(|one| one.row.name())
        .collect();
    for kind in ObservationKind::ALL
        .into_iter()
        .filter(|kind| kind.is_row())
    {
        assert!(rows.contains(&kind.name()), "{}", kind.name());
    }
}

#[test]
fn wrong_criteria_of_a_house_are_said_at_their_place() {
    let (name, rules) = shipped::HOUSE_RULES;
    let with = |was: &str, is: &str| {
        let text = rules.replacen(was, is, 1);
        assert_ne!(text, rules);
        let faults = crate::parse_house_rules(name, &text).unwrap_err();
        faults[0].to_string()
    };
    let swapped = with(
        "id: edge_jet, inside: 1, beyond: 2",
        "id: edge_jet, inside: 2, beyond: 1",
    );
    assert!(swapped.contains("no better than inside, 2"), "{swapped}");
    let waist = with(
        "id: edge_jet, inside: 1, beyond: 2",
        "id: waist, inside: 1, beyond: 2",
    );
    assert!(
        waist.contains("It is no row of release criteria."),
        "{waist}"
    );
    let grade = with(
        "inside: none, beyond: mild",
        "inside: nothing, beyond: mild",
    );
    assert!(grade.contains("none, trivial, mild"), "{grade}");
}

#[test]
fn wrong_rows_of_the_schedule_are_said_at_their_place() {
    let (name, rules) = shipped::HOUSE_RULES;
    let with = |was: &str, is: &str| {
        let text = rules.replacen(was, is, 1);
        assert_ne!(text, rules);
        let faults = crate::parse_house_rules(name, &text).unwrap_err();
        faults[0].to_string()
    };
    let row = "what: holter, days: [30, 365]";
    for (is, says) in [
        ("what: holter, days: [365, 30]", "a day after 365"),
        ("what: holter, days: [30, 30]", "a day after 30"),
        ("what: holter, days: []", "at least one day"),
        ("what: holter, days: [0.5]", "a whole number of days"),
        ("what: holter, days: [-1]", "from 0 to 36525"),
        ("what: holter, days: [30], then_every: 1", "from 7 to 36525"),
        ("what: holtr, days: [30]", "Did you mean holter?"),
        (
            "what: holter, of: [left], days: [30]",
            "what holter can be of",
        ),
    ] {
        let fault = with(row, is);
        assert!(fault.contains(says), "{fault}");
    }
}

#[test]
fn what_is_of_a_follow_up_alone_is_no_observation_of_a_trial() {
    let said = |procedure: &str, expected: &str| {
        let found = faults(procedure);
        assert!(found.iter().any(|one| one.contains(expected)), "{found:?}");
    };
    said(
        "trials: [(id: \"t\", size: \"a/1\", opened_min: 5, seen: [\n\
         (id: \"s\", what: haemoglobin, value: 11)])],\n",
        "It is seen in a follow-up alone.",
    );
    said(
        "before: [(row: holter, seen: as_before)],\n",
        "It is no row of release criteria.",
    );
    // It says nothing of the geometry.
    assert!(!ObservationKind::Displaced.is_weighed());
}
