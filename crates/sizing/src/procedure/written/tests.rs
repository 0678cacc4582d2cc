use super::*;
use crate::procedure::{Before, Cable, Observation, Rhythm, Seen};
use measurement::{Answer, Regurgitation, Valve};

const AORTIC: Subject = Subject::Valve(Valve::Aortic);

fn values(inside: f64, beyond: f64) -> Bounds {
    Bounds {
        inside: Some(Seen::Value(inside)),
        beyond: Some(Seen::Value(beyond)),
    }
}

fn grades(inside: Regurgitation, beyond: Regurgitation) -> Bounds {
    Bounds {
        inside: Some(Seen::Grade(inside)),
        beyond: Some(Seen::Grade(beyond)),
    }
}

#[test]
fn a_width_is_inside_between_or_beyond() {
    let state = |seen| values(1.0, 2.0).state(ObservationKind::EdgeJet, None, seen);
    let at = |value| state(Some(Seen::Value(value)));
    assert_eq!(at(0.0), CriterionState::Inside);
    assert_eq!(at(1.0), CriterionState::Inside);
    assert_eq!(at(1.5), CriterionState::Between);
    assert_eq!(at(2.0), CriterionState::Between);
    assert_eq!(at(2.1), CriterionState::Beyond);
    assert_eq!(state(None), CriterionState::NotLookedAt);
}

#[test]
fn a_pressure_is_beyond_from_below() {
    let at = |share| {
        let seen = Some(Seen::Value(share));
        values(80.0, 70.0).state(ObservationKind::Pressure, None, seen)
    };
    assert_eq!(at(95.0), CriterionState::Inside);
    assert_eq!(at(80.0), CriterionState::Inside);
    assert_eq!(at(75.0), CriterionState::Between);
    assert_eq!(at(70.0), CriterionState::Between);
    assert_eq!(at(69.0), CriterionState::Beyond);
}

/// What a valve leaked before is no harm of the device; what nobody looked at before
/// counts as new.
#[test]
fn regurgitation_is_judged_against_what_was_there_before() {
    use Regurgitation::{Mild, Moderate, None as Nothing, Trivial, Unknown};
    let state = |before: Option<Regurgitation>, seen: Regurgitation| {
        grades(Nothing, Mild).state(
            ObservationKind::Regurgitation,
            before.map(Seen::Grade),
            Some(Seen::Grade(seen)),
        )
    };
    assert_eq!(state(Some(Nothing), Nothing), CriterionState::Inside);
    assert_eq!(state(Some(Nothing), Trivial), CriterionState::Between);
    assert_eq!(state(Some(Nothing), Mild), CriterionState::Beyond);
    assert_eq!(state(Some(Mild), Mild), CriterionState::Inside);
    assert_eq!(state(Some(Mild), Moderate), CriterionState::Beyond);
    assert_eq!(state(None, Mild), CriterionState::Beyond);
    assert_eq!(state(Some(Unknown), Mild), CriterionState::Beyond);
    assert_eq!(state(Some(Nothing), Unknown), CriterionState::NotLookedAt);
}

#[test]
fn a_block_that_passes_is_beyond_all_the_same() {
    let bounds = Bounds {
        inside: Some(Seen::Rhythm(Rhythm::LeftAnteriorFascicle)),
        beyond: Some(Seen::Rhythm(Rhythm::LeftBundle)),
    };
    let state = |rhythm| {
        let seen = Some(Seen::Rhythm(rhythm));
        bounds.state(ObservationKind::Rhythm, None, seen)
    };
    assert_eq!(state(Rhythm::AsBefore), CriterionState::Inside);
    assert_eq!(state(Rhythm::RightBundle), CriterionState::Inside);
    assert_eq!(state(Rhythm::Bifascicular), CriterionState::Between);
    assert_eq!(state(Rhythm::Junctional), CriterionState::Between);
    for beyond in [Rhythm::LeftBundle, Rhythm::SecondDegree, Rhythm::Complete] {
        assert_eq!(state(beyond), CriterionState::Beyond);
    }
}

#[test]
fn no_state_is_better_for_what_cannot_be_told() {
    let bounds = Bounds {
        inside: Some(Seen::Answer(Answer::No)),
        beyond: Some(Seen::Answer(Answer::Yes)),
    };
    let state = |answer| {
        let seen = Some(Seen::Answer(answer));
        bounds.state(ObservationKind::Slips, None, seen)
    };
    assert_eq!(state(Answer::No), CriterionState::Inside);
    assert_eq!(state(Answer::Yes), CriterionState::Beyond);
    assert_eq!(state(Answer::Unknown), CriterionState::NotLookedAt);
}

#[test]
fn anything_is_inside_where_nothing_is_bounded() {
    let seen = Some(Seen::Answer(Answer::Yes));
    let state = |seen| Bounds::default().state(ObservationKind::WeaveJet, None, seen);
    assert_eq!(state(seen), CriterionState::Inside);
    assert_eq!(state(None), CriterionState::NotLookedAt);
}

fn criterion(row: ObservationKind, of: Subject, bounds: Bounds) -> Criterion {
    Criterion {
        size: "a/1".into(),
        row,
        of,
        who: "imager".into(),
        view: "two planes".into(),
        bounds,
        source: "common practice, no source".into(),
        after_opening: false,
        changes: Vec::new(),
    }
}

fn trial(seen: Vec<Observation>) -> Trial {
    Trial {
        id: "t1".into(),
        size: "a/1".into(),
        rotation_deg: None,
        opened_min: 10.0,
        closed_min: None,
        wire_across: Answer::Unknown,
        cable: Cable::Slack,
        seat_as_modelled: Answer::Unknown,
        view: None,
        seen,
        came_of_it: None,
        because: None,
        forecast: crate::trial::Forecasts::default(),
    }
}

fn seen(id: &str, grade: Regurgitation) -> Observation {
    Observation {
        id: id.into(),
        what: ObservationKind::Regurgitation,
        of: AORTIC,
        seen: Seen::Grade(grade),
        sd: None,
        clock_position: None,
        by: None,
        min: None,
        set_aside: None,
    }
}

#[test]
fn the_later_of_two_looks_counts_and_what_is_set_aside_does_not() {
    let bounds = grades(Regurgitation::None, Regurgitation::Mild);
    let criterion = criterion(ObservationKind::Regurgitation, AORTIC, bounds);
    let mut procedure = Procedure {
        before: vec![Before {
            row: ObservationKind::Regurgitation,
            of: AORTIC,
            seen: Seen::Grade(Regurgitation::None),
        }],
        ..Procedure::default()
    };
    let mut trial = trial(vec![
        seen("s1", Regurgitation::Mild),
        seen("s2", Regurgitation::None),
    ]);
    assert_eq!(criterion.state(&procedure, &trial), CriterionState::Inside);
    trial.seen[1].set_aside = Some("wire across the valve".into());
    assert_eq!(criterion.state(&procedure, &trial), CriterionState::Beyond);
    // A pull tilts the disc: nothing of the valve was looked at.
    trial.cable = Cable::Taut;
    assert_eq!(
        criterion.state(&procedure, &trial),
        CriterionState::NotLookedAt
    );
    trial.cable = Cable::Slack;
    procedure.before.clear();
    assert_eq!(criterion.state(&procedure, &trial), CriterionState::Beyond);
}

#[test]
fn from_the_first_trial_on_a_change_needs_a_reason_which_stays() {
    let row = ObservationKind::EdgeJet;
    let mut procedure = Procedure::default();
    procedure.write_criteria(
        vec![criterion(row, Subject::Shape, values(1.0, 2.0))],
        "abc",
    );
    let key = ("a/1", row, Subject::Shape);
    assert_eq!(procedure.planned_on.as_deref(), Some("abc"));
    let other = ("b/1", row, Subject::Shape);
    let unknown = procedure.change_criterion(other, values(1.0, 3.0), 0.0, "");
    assert_eq!(unknown, Err(CriterionError::Unknown));
    // Before the first trial freely, without a trace.
    assert_eq!(
        procedure.change_criterion(key, values(1.0, 2.5), 0.0, ""),
        Ok(())
    );
    assert!(procedure.criteria[0].changes.is_empty());
    procedure.trials.push(trial(Vec::new()));
    for none in ["", "  "] {
        let refused = procedure.change_criterion(key, values(1.0, 4.0), 50.0, none);
        assert_eq!(refused, Err(CriterionError::NoReason));
    }
    assert_eq!(procedure.criteria[0].bounds, values(1.0, 2.5));
    let reason = "agreed with the surgeon";
    assert_eq!(
        procedure.change_criterion(key, values(1.0, 3.0), 50.0, reason),
        Ok(())
    );
    let change = &procedure.criteria[0].changes[0];
    assert_eq!(
        (change.old, change.new),
        (values(1.0, 2.5), values(1.0, 3.0))
    );
    assert_eq!((change.min, change.reason.as_str()), (50.0, reason));
    // Writing again changes nothing that is there.
    procedure.write_criteria(
        vec![criterion(row, Subject::Shape, values(0.0, 0.5))],
        "def",
    );
    assert_eq!(procedure.criteria.len(), 1);
    assert_eq!(procedure.planned_on.as_deref(), Some("abc"));
}
