//! Four waists against one round defect of 5 mm under one rule, without any file.
//!
//! `cargo run -p sizing --example a_ranking_from_code`

use geometry::{Disc, Edge, Occluder, PerFace, Vec2, Waist};
use measurement::{
    Choose, DrawsError, GroupPattern, Method, Modality, Phase, Quantity, Reading, ReadingId, Side,
    Site,
};
use sizing::engine::{Engine, Plain};
use sizing::house_rules::{Band, LimitRow, PreferenceRow};
use sizing::{Case, Catalogue, Draws, HouseRules, Route, Setting, Shape, Sheath, Size, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

fn main() -> Result<(), DrawsError> {
    let mut case = Case::new(
        "a round defect".into(),
        Site::TrabecularMuscular,
        Edge::Soft,
        Route::Antegrade,
    );
    case.readings = vec![
        reading(Quantity::DEFECT_LONG_AXIS, 5.0),
        reading(Quantity::DEFECT_SHORT_AXIS, 5.0),
        reading(Quantity::WALL_THICKNESS, 4.0),
    ];
    let setting = Arc::new(Setting::new(Arc::new(case), Arc::new(rules())));
    let work = Work {
        threads: 1,
        cancel: &AtomicBool::new(false),
    };
    let counter = Plain.prepare(Draws::new(&setting, 1024, 1)?);
    // None only where it was cancelled.
    let ranking = rank(&setting, &[catalogue()], Some(&*counter), &work);
    for candidate in ranking.iter().flat_map(|list| &list.candidates) {
        let chance = candidate.chance_in_per_cent().unwrap_or_default();
        let verdict = candidate.judged.verdict.word();
        println!("{:<15}{verdict:<14}{chance:>5}", candidate.name());
        for reason in &candidate.judged.because {
            println!("   {reason}");
        }
    }
    Ok(())
}

fn reading(quantity: Quantity, value: f64) -> Reading {
    Reading {
        id: ReadingId(quantity.address().into()),
        quantity,
        value,
        sd: Some(0.3),
        modality: Modality::TransthoracicEcho,
        side: Side::NoSide,
        phase: Phase::AnyPhase,
        method: Method::EdgeToEdge,
        image: None,
        set_aside: None,
    }
}

/// Rules with one limit: a waist must be 0.5 mm wider than the defect, and is warned of
/// from 3 mm on.
fn rules() -> HouseRules {
    let source = || String::from("common practice, no source");
    HouseRules {
        limits: vec![LimitRow {
            id: None,
            check: "waist_fit".into(),
            of: Vec::new(),
            sites: Vec::new(),
            when: Vec::new(),
            stop: Band {
                low: Some(0.5),
                high: None,
            },
            caution: Band {
                low: None,
                high: Some(3.0),
            },
            source: source(),
        }],
        preferences: vec![PreferenceRow {
            of: Vec::new(),
            when_prolapse: false,
            prefer: vec![GroupPattern::default()],
            choose: Choose::Largest,
            source: source(),
        }],
        ..HouseRules::new("one rule".into())
    }
}

/// One shape in four sizes: two discs, each 3 mm wider all round than the waist.
fn catalogue() -> Catalogue {
    let size = |diameter: f64| {
        let disc = Disc {
            radius: 0.5 * diameter + 3.0,
            thickness: 0.8,
            offset: Vec2::ZERO,
        };
        let waist = Waist {
            diameter,
            length: 4.0,
        };
        Size {
            label: format!("{diameter}x4"),
            occluder: Occluder::new(waist, PerFace::new(Some(disc), Some(disc))),
            sheath: Sheath {
                french: 6.0,
                outer_diameter: None,
            },
        }
    };
    Catalogue {
        title: "made up".into(),
        shapes: vec![Shape {
            id: "two-discs".into(),
            name: "two discs".into(),
            about: "made up".into(),
            sizes: [5.0, 6.0, 7.0, 9.0].map(size).to_vec(),
        }],
        put_aside: [].into(),
    }
}
