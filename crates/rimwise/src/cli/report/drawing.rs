//! What a drawing needs, as JSON: the heart, and where each size lies in it.

use super::harmless;
use super::json::{FORMAT, rounded};
use anyhow::Result;
use geometry::{Ellipse, Face, HingedPlate, Mm, Opening, SeatedDisc, Vec2, Vec3};
use measurement::Valve;
use paper::Provenance;
use scene::{LeastRimOverlap, NearestToValve};
use serde::Serialize;
use sizing::{Candidate, Setting, Subject, nominal_seat};

/// How the numbers are to be read.
const FRAME: &str = "millimetres and degrees; n through the wall from left to right, 0 on the \
    left face; u toward 12 o'clock, v toward 3 o'clock, from the centre of the narrowest part of \
    the defect; on an annulus n counts out of the wall on its own side";

#[derive(Serialize)]
struct Drawing<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    seed: u64,
    draws: usize,
    frame: &'static str,
    defect: Defect,
    valves: Vec<Annulus>,
    outflow_tracts: Vec<Tract>,
    conduction_axis_deg: Option<[f64; 2]>,
    sizes: Vec<Placed<'a>>,
}

#[derive(Serialize)]
struct Defect {
    wall_mm: f64,
    perimeter_derived_diameter_mm: f64,
    narrowest: Oval,
    left_opening: Oval,
    right_opening: Oval,
}

#[derive(Serialize)]
struct Oval {
    centre: [f64; 2],
    long_axis_mm: f64,
    short_axis_mm: f64,
    rotation_deg: f64,
}

#[derive(Serialize)]
struct Annulus {
    valve: &'static str,
    face: &'static str,
    clock_position_deg: Option<f64>,
    rim_mm: Option<f64>,
    hinge: [f64; 2],
    centre: [f64; 3],
    along: [f64; 3],
    across: [f64; 3],
    diameter_along_mm: f64,
    diameter_across_mm: f64,
    cusp_depth_mm: f64,
}

#[derive(Serialize)]
struct Tract {
    face: &'static str,
    depth_mm: f64,
    width_mm: f64,
}

#[derive(Serialize)]
struct Placed<'a> {
    shape: &'a str,
    size: &'a str,
    rotation_deg: f64,
    verdict: &'a str,
    chance: Option<f64>,
    waist_mm: f64,
    length_mm: f64,
    conformability: f64,
    discs: Vec<Disc>,
    seat: Seat,
    nearest: Vec<Approach>,
    least_rim_overlaps: Vec<Overlap>,
}

/// A disc when the size is free.
#[derive(Serialize)]
struct Disc {
    face: &'static str,
    diameter_mm: f64,
    thickness_mm: f64,
    offset_toward_12_mm: f64,
    offset_toward_3_mm: f64,
}

/// Every place the size may take.
#[derive(Serialize)]
struct Seat {
    waist_in_defect_mm: f64,
    slack_mm: f64,
    stand_off_left_mm: [f64; 2],
    stand_off_right_mm: [f64; 2],
    play: Oval,
}

#[derive(Serialize)]
struct Approach {
    valve: &'static str,
    clearance_mm: f64,
    nearest_point_in_cut: bool,
    waist: [f64; 2],
    left: PartPosition,
    right: PartPosition,
}

/// A disc, or the waist's end, where it lies.
#[derive(Serialize)]
struct PartPosition {
    centre: [f64; 2],
    stand_off_mm: f64,
    diameter_mm: f64,
    thickness_mm: f64,
}

#[derive(Serialize)]
struct Overlap {
    face: &'static str,
    rim_overlap_mm: f64,
    clock_position_deg: Option<f64>,
    waist: [f64; 2],
}

/// The heart of a case and the places of some sizes in it.
pub(crate) fn json(
    setting: &Setting,
    candidates: &[Candidate],
    from: &Provenance,
) -> Result<String> {
    let anatomy = setting.anatomy();
    let defect = &anatomy.defect;
    let opening = |opening: &Opening| oval(opening.centre, &opening.edge);
    let valves = Valve::ALL.into_iter().filter_map(|valve| {
        let hinged = anatomy.valves[valve].as_ref()?;
        let azimuth = anatomy.azimuths[valve];
        Some(annulus(valve, hinged, azimuth, anatomy.rims[valve]))
    });
    let tracts = Face::BOTH.into_iter().filter_map(|face| {
        let tract = anatomy.tracts[face]?;
        Some(Tract {
            face: name(face),
            depth_mm: rounded(tract.depth),
            width_mm: rounded(tract.width),
        })
    });
    let drawing = Drawing {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &setting.case().title,
        inputs_sha256: &from.inputs_sha256,
        seed: from.seed,
        draws: from.draws,
        frame: FRAME,
        defect: Defect {
            wall_mm: rounded(defect.wall),
            perimeter_derived_diameter_mm: rounded(defect.fit_diameter()),
            narrowest: oval(Vec2::ZERO, &defect.narrowest),
            left_opening: opening(defect.opening(Face::Left)),
            right_opening: opening(defect.opening(Face::Right)),
        },
        valves: valves.collect(),
        outflow_tracts: tracts.collect(),
        conduction_axis_deg: setting
            .danger_arc()
            .map(|arc| [arc.from_degrees, arc.to_degrees].map(rounded)),
        sizes: candidates.iter().map(|one| placed(setting, one)).collect(),
    };
    let mut written = Vec::new();
    harmless::pretty(&mut written, &drawing)?;
    Ok(String::from_utf8(written)?)
}

fn placed<'a>(setting: &Setting, candidate: &'a Candidate) -> Placed<'a> {
    let size = &candidate.size;
    let occluder = &size.occluder;
    let seat = nominal_seat(setting, size, candidate.turn);
    let stand_off = |face| {
        let ends = seat.stand_off(face);
        [ends.least, ends.most].map(rounded)
    };
    let play = seat.play();
    let free = Face::BOTH.into_iter().filter_map(|face| {
        let disc = occluder.disc(face)?;
        Some(Disc {
            face: name(face),
            diameter_mm: rounded(2.0 * disc.radius),
            thickness_mm: rounded(disc.thickness),
            offset_toward_12_mm: rounded(disc.offset.u),
            offset_toward_3_mm: rounded(disc.offset.v),
        })
    });
    let nearest = Valve::ALL.into_iter().filter_map(|valve| {
        let near = NearestToValve::of(setting, size, candidate.turn, valve)?;
        let [left, right] = near.discs.map(|disc| lying(&disc)).into_both();
        Some(Approach {
            valve: Subject::Valve(valve).name(),
            clearance_mm: rounded(near.clearance),
            nearest_point_in_cut: near.is_in_cut,
            waist: in_wall(near.waist),
            left,
            right,
        })
    });
    let overlaps = Face::BOTH.into_iter().filter_map(|face| {
        let least = LeastRimOverlap::of(setting, size, candidate.turn, face)?;
        Some(Overlap {
            face: name(face),
            rim_overlap_mm: rounded(least.overlap),
            clock_position_deg: least
                .azimuth
                .map(|azimuth| rounded(azimuth.to_degrees().rem_euclid(360.0))),
            waist: in_wall(least.waist),
        })
    });
    Placed {
        shape: &candidate.shape,
        size: &size.label,
        rotation_deg: rounded(candidate.turn.to_degrees()),
        verdict: candidate.judged.verdict.word(),
        chance: candidate.chances.map(|it| rounded(it.chance.value)),
        waist_mm: rounded(occluder.waist.diameter),
        length_mm: rounded(occluder.waist.length),
        conformability: rounded(occluder.conformability),
        discs: free.collect(),
        seat: Seat {
            waist_in_defect_mm: rounded(seat.waist_diameter()),
            slack_mm: rounded(seat.slack()),
            stand_off_left_mm: stand_off(Face::Left),
            stand_off_right_mm: stand_off(Face::Right),
            play: oval(
                play.centre,
                &Ellipse {
                    semi_major: play.semi_major,
                    semi_minor: play.semi_minor,
                    rotation: play.rotation,
                },
            ),
        },
        nearest: nearest.collect(),
        least_rim_overlaps: overlaps.collect(),
    }
}

fn annulus(valve: Valve, hinged: &HingedPlate, azimuth: Option<f64>, rim: Option<Mm>) -> Annulus {
    let plate = hinged.plate();
    Annulus {
        valve: Subject::Valve(valve).name(),
        face: name(hinged.face()),
        clock_position_deg: azimuth.map(|azimuth| rounded(azimuth.to_degrees())),
        rim_mm: rim.map(rounded),
        hinge: in_wall(hinged.hinge()),
        centre: in_space(plate.centre),
        along: in_space(plate.first),
        across: in_space(plate.second),
        diameter_along_mm: rounded(2.0 * plate.semi_first),
        diameter_across_mm: rounded(2.0 * plate.semi_second),
        cusp_depth_mm: rounded(hinged.cusp_depth()),
    }
}

fn lying(disc: &SeatedDisc) -> PartPosition {
    PartPosition {
        centre: in_wall(disc.centre),
        stand_off_mm: rounded(disc.stand_off),
        diameter_mm: rounded(2.0 * disc.radius),
        thickness_mm: rounded(disc.thickness),
    }
}

fn oval(centre: Vec2, edge: &Ellipse) -> Oval {
    Oval {
        centre: in_wall(centre),
        long_axis_mm: rounded(2.0 * edge.semi_major),
        short_axis_mm: rounded(2.0 * edge.semi_minor),
        rotation_deg: rounded(edge.rotation.to_degrees()),
    }
}

fn in_wall(point: Vec2) -> [f64; 2] {
    [point.u, point.v].map(rounded)
}

fn in_space(point: Vec3) -> [f64; 3] {
    [point.n, point.u, point.v].map(rounded)
}

fn name(face: Face) -> &'static str {
    Subject::Face(face).name()
}
