//! The shipped scenarios with trials: each teaches what it says, and stops teaching it
//! when its observation is taken out.

use outside::page::set;
use outside::sample::{scenario, shipped_catalogue};
use sizing::engine::{Counter, Engine, Fast};
use sizing::growth::{Body, grow};
use sizing::trial::{
    ObservationKind, Surprise, Weighing, WhatNext, schedule, weigh, what_next,
    worse_than_at_release,
};
use sizing::{Candidate, Case, Ranking, State, Verdict, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const DRAWS: usize = 4096;

/// A case with its trials taken in, as the command line does it.
struct After {
    ranking: Ranking,
    weighing: Weighing,
    next: WhatNext,
}

impl After {
    fn new(case: Case) -> Self {
        let setting = Arc::new(set(case));
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 2,
            cancel: &never,
        };
        let catalogues = [shipped_catalogue()];
        let weighed = weigh(&setting, &catalogues, DRAWS, 1, &work);
        let mut weighing = weighed.expect("trials").expect("nobody cancels it");
        let believed = if weighing.any_counted {
            Arc::new(weighing.believed(&setting))
        } else {
            Arc::clone(&setting)
        };
        let draws = weighing.draws.take().expect("draws that agree");
        let counter: Box<dyn Counter> = Fast.prepare(draws);
        let ranking = rank(&believed, &catalogues, Some(&*counter), &work);
        let ranking = ranking.expect("nobody cancels it");
        let next = what_next(&ranking, counter.draws().weights()).expect("a rated case");
        Self {
            ranking,
            weighing,
            next,
        }
    }

    fn best(&self) -> &Candidate {
        &self.ranking.candidates[0]
    }

    fn chance(&self, name: &str) -> f64 {
        let found = self.ranking.find(name).expect("a size");
        found.chances.as_ref().expect("chances").chance.value
    }

    fn has_conflict(&self) -> bool {
        let mut all = self.weighing.conflicts();
        all.any(|(_, _, one)| one.surprise == Some(Surprise::Conflict))
    }

    fn shift(&self, address: &str) -> f64 {
        let mut all = self.weighing.shifts.iter();
        let found = all.find(|(quantity, _)| quantity.address() == address);
        found.map_or(0.0, |(_, by)| *by)
    }
}

/// What a scenario teaches, and the observations it hangs on.
struct Lesson {
    scenario: &'static str,
    holds: fn(&After) -> bool,
    hangs_on: &'static [&'static str],
}

const LESSONS: [Lesson; 5] = [
    Lesson {
        scenario: "contact-first",
        // A slimmer size overtakes the one that touched.
        holds: |after| {
            after.best().size.occluder.waist.diameter < 5.5
                && after.best().name() != "even-narrow/5.5x2"
                && after.shift("aortic.rim") < -0.05
        },
        hangs_on: &["contact"],
    },
    Lesson {
        scenario: "pulled-through",
        // The defect is wider on the left than was read: a wider waist overtakes.
        holds: |after| {
            after.chance("offset-left/5x3") > after.chance("offset-left/4.5x3")
                && after.weighing.trials[0]
                    .seen
                    .last()
                    .is_some_and(|one| one.counted.is_err())
        },
        hangs_on: &["slip"],
    },
    Lesson {
        scenario: "observation-against-reading",
        // No verdict is better than borderline until someone decides.
        holds: |after| {
            after.has_conflict()
                && !after.ranking.setting.held_by_trials().is_empty()
                && after
                    .ranking
                    .candidates
                    .iter()
                    .all(|one| one.judged.verdict != Verdict::Fits)
        },
        hangs_on: &["distance"],
    },
    Lesson {
        scenario: "nothing-left",
        // In most of the draws nothing in stock is inside its limits.
        holds: |after| {
            let unions = after.next.unions.as_ref().expect("sizes");
            let three = unions.three.as_ref().expect("three sizes").1;
            unions.none > 0.5 && unions.none > three
        },
        hangs_on: &["first", "second", "third"],
    },
    Lesson {
        scenario: "gradient-only",
        // It says that the outflow is narrower, and nothing of the rim.
        holds: |after| {
            let outflow = ["left_tract.depth", "left_outflow.depth"];
            let narrower = outflow
                .map(|address| after.shift(address))
                .iter()
                .sum::<f64>();
            narrower < -0.2 && after.shift("aortic.rim") == 0.0
        },
        hangs_on: &["gradient"],
    },
];

#[test]
fn each_scenario_with_trials_teaches_its_lesson() {
    for lesson in LESSONS {
        let after = After::new(scenario(lesson.scenario));
        assert!((lesson.holds)(&after), "{}", lesson.scenario);
    }
}

/// One observation after another: with none of them the lesson is gone.
#[test]
fn without_its_observation_the_lesson_is_gone() {
    for lesson in LESSONS {
        let mut case = scenario(lesson.scenario);
        for trial in &mut case.procedure.trials {
            let hangs_on = |id: &String| lesson.hangs_on.contains(&id.as_str());
            trial.seen.retain(|seen| !hangs_on(&seen.id));
        }
        let without = After::new(case);
        assert!(!(lesson.holds)(&without), "{}", lesson.scenario);
    }
}

/// A year after: the regurgitation came late, the jet closed, nobody did a Holter.
fn teaches_what_came_late(case: &Case) -> bool {
    let setting = set(case.clone());
    let procedure = &setting.case().procedure;
    let worse = worse_than_at_release(procedure);
    let leaks = worse
        .iter()
        .all(|one| one.seen.what == ObservationKind::Regurgitation && one.day > 180.0);
    let visits = schedule(&setting, procedure.last_day().unwrap_or(0.0));
    let undone = |day: u32, what: ObservationKind| {
        let visit = visits.iter().find(|visit| visit.day == day);
        visit.is_some_and(|visit| visit.not_done().any(|due| due.what == what))
    };
    worse.len() == 2
        && leaks
        && undone(30, ObservationKind::Holter)
        && undone(365, ObservationKind::EdgeJet)
        && !undone(180, ObservationKind::EdgeJet)
}

#[test]
fn a_year_of_follow_up_teaches_what_came_late_and_what_was_not_done() {
    assert!(teaches_what_came_late(&scenario("year-of-follow-up")));
    for gone in ["late-leak", "later-leak", "f16"] {
        let mut case = scenario("year-of-follow-up");
        for day in &mut case.procedure.follow_up {
            day.seen.retain(|seen| seen.id != gone);
        }
        assert!(!teaches_what_came_late(&case), "{gone}");
    }
}

/// At twice the weight the warning in the left outflow is gone, and that toward the
/// aortic valve is not.
fn teaches_growth(case: Case) -> bool {
    let setting = set(case);
    let catalogue = shipped_catalogue();
    let mut sizes = catalogue.shapes.iter().flat_map(|shape| {
        shape
            .sizes
            .iter()
            .map(move |size| (format!("{}/{}", shape.id, size.label), size))
    });
    let trial = setting.case().procedure.released().expect("a release");
    let (_, size) = sizes.find(|(name, _)| *name == trial.size).expect("a size");
    let then = Body {
        weight: 7.2,
        height: 67.0,
    };
    let Ok(growth) = grow(&setting, size, 0.0, then) else {
        return false;
    };
    let of = |check: &str, of: &str| {
        let mut rows = growth.rows.iter();
        let row = rows.find(|row| row.now.check == check && row.now.of.name() == of);
        row.map(|row| [&row.now, &row.rims_of_today, &row.rims_grown].map(|one| one.state))
    };
    let outflow = of("outflow_share_left", "left");
    let aortic = of("clearance", "aortic_valve");
    outflow == Some([State::Caution, State::Ok, State::Ok]) && aortic == Some([State::Caution; 3])
}

#[test]
fn a_child_at_twice_the_weight_teaches_what_growth_mends() {
    let case = || scenario("twice-the-weight");
    assert!(teaches_growth(case()));
    for gone in ["height", "left-outflow-depth"] {
        let mut without = case();
        without.readings.retain(|one| one.id.0 != gone);
        assert!(!teaches_growth(without), "{gone}");
    }
}

/// A shipped case with trials is one of these.
#[test]
fn every_shipped_case_with_trials_has_a_lesson() {
    for name in outside::sample::case_names() {
        let has_trials = !scenario(name).procedure.trials.is_empty();
        let is_listed = LESSONS.iter().any(|lesson| lesson.scenario == name)
            || ["year-of-follow-up", "twice-the-weight"].contains(&name);
        assert_eq!(has_trials, is_listed, "{name}");
    }
}
