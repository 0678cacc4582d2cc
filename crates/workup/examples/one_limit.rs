//! A child with a measured Qp:Qs against one made-up limit, with the chance that the
//! limit is met, and what is still missing.
//!
//! `cargo run -p workup --example one_limit`

use measurement::{DrawsError, Estimate, Finding, Findings, Joint, Law, Quantity, Site};
use workup::{
    Alternative, Bearing, Bounds, Condition, Input, LimitRow, Limits, MixedVenous, OfChild,
    Parameter, Question, Reach, SharedFigure, Workup,
};

fn main() -> Result<(), DrawsError> {
    let qp_qs = Law::LogNormal { mean: 1.9, sd: 0.3 };
    let input = Input {
        title: "a made-up child".into(),
        site: Site::CentralPerimembranous,
        evidence: Vec::new(),
        joint: Joint::new(
            vec![Estimate::alone(Quantity::FLOW_QP_QS, qp_qs)],
            Vec::new(),
        ),
        findings: Findings::new(),
        notes: Vec::new(),
        contradictions: Vec::new(),
    };
    let workup = Workup::new(&input, &limits(), 1024, 1)?;
    for section in &workup.sections {
        for line in &section.lines {
            let chance = line.chance.map(|chance| format!("{:.0} %", 100.0 * chance));
            println!(
                "{:<12} {:?} {} {}",
                section.id,
                line.state,
                line.label,
                chance.unwrap_or_default()
            );
        }
    }
    Ok(())
}

/// One limit for closing, and one question that is still open.
fn limits() -> Limits {
    let source = || String::from("made up");
    Limits {
        title: "one limit".into(),
        parameters: Parameter::ALL
            .iter()
            .map(|info| (info.least, source()))
            .collect(),
        from_shipped: Vec::new(),
        mixed_venous: MixedVenous::BothCavae,
        children: vec![LimitRow {
            id: "large_shunt".into(),
            says: "Qp:Qs of 1.5 or more".into(),
            reach: Reach::default(),
            all: vec![vec![Condition::Figure(
                OfChild::Shared(SharedFigure::QpQs),
                Bounds {
                    at_least: Some(1.5),
                    ..Bounds::default()
                },
            )]],
            bearing: Bearing::ForClosing,
            class: None,
            source: source(),
            from_memory: false,
        }],
        adults: Vec::new(),
        questions: vec![Question {
            id: "thrives".into(),
            what: "whether the child thrives".into(),
            settles: "how much the shunt costs".into(),
            reach: Reach::default(),
            read: Vec::new(),
            asked: vec![Finding::FailureToThrive],
            source: source(),
        }],
        ways: vec![Alternative {
            way: "surgery".into(),
            gives: "every site".into(),
            loses: "a sternotomy".into(),
            source: source(),
        }],
    }
}
