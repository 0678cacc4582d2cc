//! What was opened and seen stands on the sheet, after the criteria written before.

use crate::made::{Ranked, scenarios};
use outside::sample::scenario;
use paper::{Mark, Paper, Topic};
use sizing::break_even::break_even;
use sizing::rows;
use sizing::trial::CriterionState;

#[test]
fn criteria_come_before_deployments_and_these_with_what_was_seen() {
    let mut with_trials = 0;
    for name in scenarios() {
        let case = scenario(name.trim_end_matches(".ron"));
        let procedure = &case.procedure;
        let sheet = Ranked::scenario(name).sheet(1, Paper::A4);
        let topics: Vec<Topic> = sheet.sections().map(|section| section.topic).collect();
        let at = |topic| topics.iter().position(|one| *one == topic);
        let Some(deployments) = sheet.section(Topic::Deployments) else {
            assert!(
                procedure.trials.is_empty(),
                "{name} does not say what was opened"
            );
            continue;
        };
        with_trials += 1;
        assert!(
            at(Topic::Criteria) < at(Topic::Deployments),
            "{name}: {topics:?}"
        );
        let texts = sheet.texts().join("\n");
        let (index, last) = procedure
            .trials
            .iter()
            .enumerate()
            .next_back()
            .expect("a trial");
        assert!(
            texts.contains(&format!(
                "Deployment {}: {}",
                index + 1,
                sizing::device_name(&last.size)
            )),
            "{texts}"
        );
        if let Some(first) = last.seen.first() {
            assert!(texts.contains(first.what.label()), "{name}: {texts}");
        }
        // What nobody looked at, and what is beyond, never looks like a tick.
        let paper::Body::Lines(lines) = &deployments.body else {
            panic!("{name}: {deployments:?}");
        };
        for line in lines.iter().filter(|line| line.mark == Some(Mark::Ok)) {
            assert!(line.text.starts_with("Inside: "), "{line:?}");
        }
        let beyond = procedure.criteria_of(&last.size);
        let beyond = beyond.filter(|one| one.state(procedure, last) == CriterionState::Beyond);
        if let Some(one) = beyond.last() {
            let says = "Beyond the limit written before: ";
            let told = lines.iter().find(|line| line.text.starts_with(says));
            let told = told.expect("a limit that was broken is told");
            assert_eq!(told.mark, Some(Mark::Beyond));
            assert!(told.text.contains(one.row.label()), "{told:?}");
        }
    }
    assert!(with_trials >= 3, "{with_trials} scenarios with trials");
}

#[test]
fn what_decides_is_told_by_the_draws_as_trials_weigh_them() {
    let (mut told, mut moved) = (0, 0);
    let all = scenarios().filter_map(Ranked::after_trials);
    // An excluded case hangs on no reading.
    for ranked in all.filter(|ranked| ranked.ranking.excluded.is_empty()) {
        let first = &ranked.ranking.candidates[0];
        let setting = &*ranked.ranking.setting;
        let rows = rows(setting, &first.size.occluder);
        let says = |draws| {
            let evens = break_even(setting, &first.size, first.turn, &rows, draws);
            let mut readings = evens.readings.iter();
            let deciding = readings.find(|one| one.can_change())?;
            Some(evens.says(deciding))
        };
        let Some(weighed) = says(ranked.weighed.as_ref()) else {
            continue;
        };
        let sheet = ranked.sheet(1, Paper::A4);
        let section = sheet.section(Topic::Decides).expect("what decides");
        assert!(
            format!("{section:?}").contains(&weighed),
            "{section:?}: {weighed}"
        );
        told += 1;
        moved += usize::from(says(None).as_ref() != Some(&weighed));
    }
    assert!(told >= 2 && moved >= 1, "{told} told, {moved} moved");
}
