//! Cases, catalogues and rules to check with.

use geometry::{Disc, Edge, Occluder, PerFace, Vec2, Waist};
use measurement::{
    Conduction, Method, Modality, Phase, Prolapse, Quantity, Reading, ReadingId, Regurgitation,
    Side, Site,
};
use sizing::{
    Answer, Candidate, Case, Catalogue, Facts, HouseRules, Route, Setting, Shape, Sheath, Size,
    Turn,
};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The rules that come with the program.
///
/// # Panics
///
/// Where the shipped file has a fault.
pub fn shipped_rules() -> HouseRules {
    let (name, text) = files::shipped::HOUSE_RULES;
    files::parse_house_rules(name, text)
        .expect("shipped rules")
        .into_value()
}

/// The catalogue that comes with the program.
///
/// # Panics
///
/// Where the shipped file has a fault.
pub fn shipped_catalogue() -> Catalogue {
    let (name, text) = files::shipped::SHAPES;
    files::parse_catalogue(name, text)
        .expect("shipped catalogue")
        .into_value()
}

/// Every size of the catalogue that comes with the program.
pub fn shipped_sizes() -> Vec<Size> {
    let shapes = shipped_catalogue().shapes.into_iter();
    shapes.flat_map(|shape| shape.sizes).collect()
}

/// A number of sizes, no two alike: those of the shipped catalogue, then the same
/// forms a little wider and longer, again and again.
pub fn many_sizes(number: usize) -> Vec<Size> {
    let shipped = shipped_sizes();
    (0..number)
        .map(|place| {
            let round = (place / shipped.len()) as f64;
            let mut size = shipped[place % shipped.len()].clone();
            let wider = 0.17 * round;
            size.label = format!("{}+{wider:.2}", size.label);
            size.occluder.waist.diameter += wider;
            size.occluder.waist.length += 0.5 * wider;
            for disc in size.occluder.discs.iter_mut().flatten() {
                disc.radius += 0.5 * wider;
            }
            size
        })
        .collect()
}

/// The published limits that come with the program.
///
/// # Panics
///
/// Where the shipped file has a fault.
pub fn shipped_limits() -> workup::Limits {
    let (name, text) = files::shipped::GUIDANCE;
    files::parse_guidance(name, text)
        .expect("shipped limits")
        .into_value()
}

/// A scenario that comes with the program, by its name without an ending.
///
/// # Panics
///
/// Where there is none of that name, or its file has a fault.
pub fn scenario(name: &str) -> Case {
    let file = format!("{name}.ron");
    let (name, text) = files::shipped::SCENARIOS
        .iter()
        .find(|(known, _)| *known == file)
        .expect("a scenario");
    files::parse_case(name, text)
        .expect("a sound scenario")
        .into_value()
}

/// The names of the scenarios that come with the program, without an ending.
pub fn case_names() -> impl Iterator<Item = &'static str> {
    files::shipped::SCENARIOS
        .iter()
        .map(|(name, _)| name.trim_end_matches(".ron"))
}

/// A reading of a quantity by transthoracic echo, edge to edge, in the phase the
/// shipped rules prefer: tracts in systole, ventricles at its end, the rest at
/// the end of diastole.
///
/// # Panics
///
/// Where no quantity has the address.
pub fn reading(address: &str, value: f64, sd: f64) -> Reading {
    let phase = match address.split('.').next() {
        Some("left_outflow" | "right_outflow") => Phase::Systole,
        Some("left_ventricle" | "right_ventricle") => Phase::EndSystole,
        _ => Phase::EndDiastole,
    };
    Reading {
        id: ReadingId(address.to_owned()),
        quantity: Quantity::from_address(address).expect("an address"),
        value,
        sd: Some(sd),
        modality: Modality::TransthoracicEcho,
        side: Side::Left,
        phase,
        method: Method::EdgeToEdge,
        image: None,
        set_aside: None,
    }
}

/// A case with these readings, every exclusion answered with no, nothing absent.
pub fn case(site: Site, readings: Vec<Reading>) -> Case {
    let exclusions: BTreeMap<String, Answer> = shipped_rules()
        .exclusions
        .iter()
        .map(|exclusion| (exclusion.id.clone(), Answer::No))
        .collect();
    let title = "a case to check with".to_owned();
    Case {
        readings,
        facts: Facts {
            round: Answer::No,
            prolapse: Prolapse::None,
            aortic_regurgitation: Regurgitation::None,
            pulmonary_regurgitation: Regurgitation::None,
            pouch: Answer::No,
            holes: Some(1),
            band_in_the_way: Answer::No,
            mitral_chordae_on_edge: Answer::No,
            tricuspid_chordae_on_edge: Answer::No,
            conduction: Conduction::Normal,
        },
        exclusions,
        ..Case::new(title, site, Edge::Soft, Route::Antegrade)
    }
}

/// A size with even discs.
pub fn even_discs(waist: f64, length: f64, overhang: f64, thickness: f64) -> Size {
    let disc = Disc {
        radius: 0.5 * waist + overhang,
        thickness,
        offset: Vec2::ZERO,
    };
    Size {
        label: format!("{waist}x{length}"),
        occluder: Occluder {
            conformability: 0.3,
            braid_angle: geometry::degrees(30.0),
            ..Occluder::new(
                Waist {
                    diameter: waist,
                    length,
                },
                PerFace::of(|_| Some(disc)),
            )
        },
        sheath: Sheath {
            french: 5.0,
            outer_diameter: Some(2.4),
        },
    }
}

/// A size alone, assessed at a turn without draws.
pub fn as_read(case: Case, rules: HouseRules, size: &Size, turn: f64) -> Candidate {
    let setting = Setting::new(Arc::new(case), Arc::new(rules));
    let shape = Shape {
        id: "shape".into(),
        name: "a shape".into(),
        about: String::new(),
        sizes: vec![size.clone()],
    };
    Candidate::assess(&setting, (0, &shape, size), Turn::ByHand(turn), None)
}

/// Every shipped size for a case, as the command line ranks it, without chances.
///
/// # Panics
///
/// Where it is cancelled, which nobody does.
pub fn rank_all(case: Case) -> sizing::Ranking {
    let setting = Arc::new(crate::page::set(case));
    let work = sizing::Work {
        threads: 1,
        cancel: &std::sync::atomic::AtomicBool::new(false),
    };
    sizing::rank(&setting, &[shipped_catalogue()], None, &work).expect("nobody cancels it")
}
