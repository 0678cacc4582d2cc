use super::enclosure::Limits;
use super::fields::{CentreForm, TiltForm, WaistForm};
use crate::check::{EdgePart, Measure, Row};
use crate::engine::Question;
use crate::face_of;
use crate::house_rules::{Band, Parameter};
use geometry::{Face, Mm, Vec2};
use std::collections::HashMap;

/// All that several sizes ask of the same draws, each thing once.
///
/// Sizes of one waist share what depends on the waist, shapes on one axis share
/// their places, rows of one measure and one pair of limits share their answer.
pub(super) struct Plan {
    pub(super) waists: Vec<WaistForm>,
    pub(super) centres: Vec<CentreForm>,
    pub(super) tilts: Vec<TiltForm>,
    pub(super) edges: Vec<EdgeForm>,
    pub(super) jobs: Vec<Job>,
    /// For each question, for each of its rows, the job that answers it; `None`
    /// where the row is not assessed.
    pub(super) rows: Vec<Vec<Option<usize>>>,
}

/// A part of the edge of an opening beneath discs centred alike.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct EdgeForm {
    pub(super) face: Face,
    pub(super) part: EdgePart,
    /// Its place among the centres.
    pub(super) centre: usize,
}

/// One measure of one size held against two bands.
pub(super) struct Job {
    pub(super) measure: Option<Measure>,
    pub(super) stop: Band,
    pub(super) caution: Band,
    /// Both bands as bounds are held against them.
    pub(super) limits: [Limits; 2],
    /// A question and its row that ask it: those that share a job differ in
    /// nothing that its measure sees.
    pub(super) question: usize,
    pub(super) row: usize,
    /// Places in the lists of a [`Plan`], where the measure looks there.
    pub(super) waist: usize,
    pub(super) centre: usize,
    pub(super) tilt: usize,
    pub(super) edge: usize,
}

/// What tells jobs apart: the measure, then form and limits by their bits, in one
/// array because that is hashed at once.
type Key = (Option<Measure>, [u64; FORM + LIMITS]);

/// Limits of two bands.
const LIMITS: usize = 4;

/// Numbers of a size on which a measure may depend.
const FORM: usize = 9;

impl Plan {
    pub(super) fn new(questions: &[Question]) -> Self {
        let mut plan = Self {
            waists: Vec::new(),
            centres: Vec::new(),
            tilts: Vec::new(),
            edges: Vec::new(),
            jobs: Vec::new(),
            rows: Vec::with_capacity(questions.len()),
        };
        let mut known = HashMap::new();
        for (place, question) in questions.iter().enumerate() {
            let rows = question.rows.iter().enumerate();
            let jobs = rows.map(|(row_place, row)| {
                row.is_assessed().then(|| {
                    let key = key(place, row_place, question, row);
                    *known
                        .entry(key)
                        .or_insert_with(|| plan.add(place, row_place, question, row))
                })
            });
            let jobs = jobs.collect();
            plan.rows.push(jobs);
        }
        plan
    }

    fn add(&mut self, place: usize, row_place: usize, question: &Question, row: &Row) -> usize {
        let occluder = &question.size.occluder;
        let measure = row.check.measure(row.of);
        let face = measure.and_then(face);
        let waist = place_of(&mut self.waists, WaistForm::of(occluder));
        let centre = face.map_or(0, |face| {
            let form = CentreForm::of(occluder, face, question.turn);
            place_of(&mut self.centres, form)
        });
        let tilt = if let Some(Measure::Clearance(valve)) = measure {
            let conformability = occluder.conformability;
            place_of(
                &mut self.tilts,
                TiltForm {
                    valve,
                    conformability,
                },
            )
        } else {
            0
        };
        let edge = if let Some(Measure::Lip(face, part)) = measure {
            place_of(&mut self.edges, EdgeForm { face, part, centre })
        } else {
            0
        };
        self.jobs.push(Job {
            measure,
            limits: [&row.stop, &row.caution].map(Limits::of),
            stop: row.stop,
            caution: row.caution,
            question: place,
            row: row_place,
            waist,
            centre,
            tilt,
            edge,
        });
        self.jobs.len() - 1
    }
}

/// The place of an item in a list, to which it is added where it is new. Those
/// that follow each other are often alike, so the search goes backward.
fn place_of<T: PartialEq>(list: &mut Vec<T>, item: T) -> usize {
    if let Some(place) = list.iter().rposition(|known| *known == item) {
        return place;
    }
    list.push(item);
    list.len() - 1
}

/// The face whose disc a measure looks at.
fn face(measure: Measure) -> Option<Face> {
    match measure {
        Measure::Lip(face, _)
        | Measure::OpenShare(face)
        | Measure::TractGradient(face)
        | Measure::TractRoom(face)
        | Measure::ChamberRatio(face) => Some(face),
        Measure::Clearance(valve) | Measure::Reach(valve) | Measure::LeafletCovered(valve) => {
            Some(face_of(valve))
        }
        Measure::WaistExcess
        | Measure::WaistRatio
        | Measure::Slack
        | Measure::Clamp
        | Measure::SheathInVein
        | Measure::SheathInArtery
        | Measure::ArteryWidth
        | Measure::OfShape => None,
    }
}

fn key(place: usize, row_place: usize, question: &Question, row: &Row) -> Key {
    let measure = row.check.measure(row.of);
    let form = match measure {
        None | Some(Measure::OfShape) => {
            let mut own = [0; FORM];
            (own[0], own[1]) = (place as u64, row_place as u64);
            own
        }
        Some(measure) => form(measure, question),
    };
    // No limit is not a number, so that is none.
    let bits = |limit: Option<f64>| limit.unwrap_or(f64::NAN).to_bits();
    let limits = [row.stop, row.caution].map(|band| [bits(band.low), bits(band.high)]);
    let mut all = [0; FORM + LIMITS];
    all[..FORM].copy_from_slice(&form);
    all[FORM..].copy_from_slice(limits.as_flattened());
    (measure, all)
}

/// All of a size that a measure sees, by its bits.
fn form(measure: Measure, question: &Question) -> [u64; FORM] {
    let occluder = &question.size.occluder;
    let waist = occluder.waist;
    let disc = face(measure).and_then(|face| occluder.disc(face));
    // Where there is no disc the waist's end stands for it.
    let radius = disc.map_or(f64::INFINITY, |disc| disc.radius);
    let thickness = disc.map_or(0.0, |disc| disc.thickness);
    let offset = disc.map_or(Vec2::ZERO, |disc| disc.offset);
    let turn = if offset == Vec2::ZERO {
        0.0
    } else {
        question.turn
    };
    let whole = [
        waist.diameter,
        waist.length,
        occluder.braid_angle,
        offset.u,
        offset.v,
        turn,
        radius,
        thickness,
        occluder.conformability,
    ];
    let seen: [bool; FORM] = match measure {
        Measure::WaistExcess | Measure::WaistRatio => SEES_DIAMETER,
        Measure::Slack | Measure::Clamp => SEES_WAIST,
        Measure::Lip(..) | Measure::Reach(_) | Measure::LeafletCovered(_) => SEES_LIP,
        Measure::Clearance(_) => [true; FORM],
        Measure::OpenShare(_) | Measure::TractGradient(_) => SEES_LAYER,
        Measure::TractRoom(_) if disc.is_none() => SEES_DIAMETER,
        Measure::TractRoom(_) | Measure::ChamberRatio(_) => SEES_RADIUS,
        Measure::SheathInVein
        | Measure::SheathInArtery
        | Measure::ArteryWidth
        | Measure::OfShape => [false; FORM],
    };
    let mut bits = [0; FORM];
    for ((bits, number), seen) in bits.iter_mut().zip(whole).zip(seen) {
        *bits = if seen { number.to_bits() } else { 0 };
    }
    if matches!(measure, Measure::SheathInVein | Measure::SheathInArtery) {
        bits[0] = sheath(question).to_bits();
    }
    bits
}

/// The sheath's outer diameter.
pub(super) fn sheath(question: &Question) -> Mm {
    let walls = question.setting.parameter(Parameter::SheathWalls);
    question.size.sheath.outer_diameter(walls)
}

const SEES_DIAMETER: [bool; FORM] = [true, false, false, false, false, false, false, false, false];
const SEES_WAIST: [bool; FORM] = [true, true, true, false, false, false, false, false, false];
const SEES_LIP: [bool; FORM] = [true, false, false, true, true, true, true, false, false];
const SEES_LAYER: [bool; FORM] = [true, true, true, false, false, false, true, true, true];
const SEES_RADIUS: [bool; FORM] = [false, false, false, false, false, false, true, false, false];
