//! The section of inputs: every reading and finding that the work-up uses.

use crate::input::bears;
use crate::{Amount, Evidence, Ground, Input, Line, Section, State};
use measurement::{Answer, Finding, Interval, Method, Unit};

pub(crate) fn section(input: &Input) -> Section {
    let readings = input
        .evidence
        .iter()
        .filter(|one| bears(one.quantity))
        .map(evidence);
    let findings = Finding::ALL
        .into_iter()
        .filter_map(|finding| Some((finding, input.findings.get(&finding)?)))
        .map(|(finding, answer)| found(finding, *answer));
    Section::new(
        "inputs",
        "Read and asked",
        readings.chain(findings).collect(),
    )
}

fn evidence(one: &Evidence) -> Line {
    /// Standard deviations to either side that hold 95 % of a normal law.
    const TO_EITHER_SIDE: f64 = 1.96;
    let info = one.quantity.info();
    let mut line = Line::plain(info.address, info.label);
    line.amount = Some(Amount {
        value: one.value,
        unit: info.unit,
        decimals: decimals(info.unit),
    });
    let reach = TO_EITHER_SIDE * one.sd;
    line.interval = Some(Interval {
        low: (one.value - reach).max(info.least),
        high: (one.value + reach).min(info.most),
    });
    match &one.ground {
        Ground::Assumed(source) => line.state(State::Warned).note("assumed").source(source),
        Ground::Read(key, modalities) => {
            let by: Vec<&str> = modalities.iter().map(|one| one.label()).collect();
            let mut note = by.join(", ");
            if key.method == Method::Derived {
                note.push_str(", worked out or assumed");
            }
            let state = if one.is_disputed {
                note.push_str("; like readings contradict each other");
                State::Warned
            } else {
                State::Plain
            };
            line.state(state).note(note)
        }
    }
}

fn found(finding: Finding, answer: Answer) -> Line {
    let state = match answer {
        Answer::Unknown => State::NotKnown,
        Answer::Yes | Answer::No => State::Plain,
    };
    Line::plain(finding.name(), finding.label())
        .state(state)
        .note(answer.to_string())
}

const fn decimals(unit: Unit) -> usize {
    match unit {
        Unit::Years | Unit::MPerS => 2,
        Unit::Degrees | Unit::MmHg | Unit::Percent | Unit::MlPerMinM2 | Unit::PerMin => 0,
        _ => 1,
    }
}
