use super::clearance::{Apart, Core, FEW, Scene, bound, seen_from_hinge, settle};
use super::columns::Columns;
use super::enclosure::{Enclosure, Settled};
use super::fields::{CentreField, TiltField, WaistField};
use super::lanes::{LANES, Lane, Mask, each, first};
use super::lips::{EdgePoints, FarthestField, covered, lip_over_middle, reach};
use super::plan::{EdgeForm, Job, Plan, sheath};
use super::simple::{clamp, excess, length, ratio, room, share_out, slack};
use super::tract::{Cover, gradient, open_share};
use crate::check::{EdgePart, Lanes, Measure};
use crate::engine::Question;
use crate::house_rules::{Band, Parameter};
use crate::{Draws, Setting};
use geometry::{Disc, Edge, Face, Seat};
use measurement::Valve;
use std::cell::OnceCell;

/// Where the limits of a job hold.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Answer {
    pub(super) stop: Mask,
    pub(super) caution: Mask,
}

impl Answer {
    /// Everywhere.
    pub(super) const HOLDS: Self = Self {
        stop: Mask::MAX,
        caution: Mask::MAX,
    };

    pub(super) const fn and(self, other: Self) -> Self {
        Self {
            stop: self.stop & other.stop,
            caution: self.caution & other.caution,
        }
    }
}

/// All jobs of a plan in the draws of one set of columns.
pub(super) struct Work<'a> {
    plan: &'a Plan,
    questions: &'a [Question<'a>],
    draws: &'a Draws,
    columns: &'a Columns,
    waists: Vec<WaistField>,
    centres: Vec<CentreField>,
    tilts: Vec<Option<TiltField>>,
    edges: Vec<Option<FarthestField>>,
    /// Whose open share was last computed: the gradient of the same disc uses it.
    share_of: Option<(usize, Face)>,
    share: Enclosure,
    bounds: Enclosure,
    apart: Apart,
    core: Core,
}

impl<'a> Work<'a> {
    pub(super) fn new(
        plan: &'a Plan,
        questions: &'a [Question<'a>],
        draws: &'a Draws,
        columns: &'a Columns,
    ) -> Self {
        let edge = questions
            .first()
            .map_or(Edge::Soft, |question| question.setting.case().edge);
        let centres: Vec<CentreField> = plan
            .centres
            .iter()
            .map(|form| form.field(columns, edge))
            .collect();
        Self {
            plan,
            questions,
            draws,
            columns,
            waists: plan
                .waists
                .iter()
                .map(|form| form.field(columns, edge))
                .collect(),
            tilts: plan.tilts.iter().map(|form| form.field(columns)).collect(),
            edges: edges(plan, columns, &centres),
            centres,
            share_of: None,
            share: Enclosure::OPEN,
            bounds: Enclosure::OPEN,
            apart: Apart::UNKNOWN,
            core: Core::NOWHERE,
        }
    }

    /// Answers every job.
    pub(super) fn answer(&mut self, answers: &mut [Answer]) {
        let lanes = first(self.columns.lanes);
        for (job, answer) in self.plan.jobs.iter().zip(answers) {
            let [stop, caution] = self.settle(job);
            *answer = Answer {
                stop: stop.holds,
                caution: caution.holds,
            };
            let open = (stop.open() | caution.open()) & lanes;
            if open != 0 {
                self.ask_f64(job, open, answer);
            }
        }
    }

    /// What bounds settle of a job's two bands.
    fn settle(&mut self, job: &Job) -> [Settled; 2] {
        let columns = self.columns;
        let question = &self.questions[job.question];
        let occluder = &question.size.occluder;
        let waist = occluder.waist.diameter as f32;
        let bounds = &mut self.bounds;
        let is_bounded = match job.measure {
            Some(Measure::WaistExcess) => {
                excess(&columns.fit, waist, bounds);
                true
            }
            Some(Measure::WaistRatio) => {
                ratio(&columns.fit, waist, bounds);
                true
            }
            Some(Measure::Slack) => {
                slack(&self.waists[job.waist], bounds);
                true
            }
            Some(Measure::Clamp) => {
                clamp(&self.waists[job.waist], bounds);
                true
            }
            Some(Measure::Lip(face, of)) => occluder.disc(face).is_some_and(|disc| {
                let radius = disc.radius as f32;
                if let Some(edge) = &self.edges[job.edge] {
                    edge.lip(radius, bounds);
                } else {
                    let opening = &columns.openings[face.index()];
                    lip_over_middle(&opening.farthest[part(of)], radius, bounds);
                }
                true
            }),
            Some(Measure::Clearance(valve)) => return self.clearance(job, valve),
            Some(Measure::Reach(valve)) => self.reach(job, valve),
            Some(Measure::LeafletCovered(valve)) => self.leaflet(job, valve),
            Some(Measure::OpenShare(face)) => {
                self.open_share(job, face);
                return self.share.held_against(&job.limits);
            }
            Some(Measure::TractGradient(face)) => self.gradient(job, face),
            Some(Measure::TractRoom(face)) => {
                let radius = self.radius(job, face);
                columns.tracts[face.index()].as_ref().is_some_and(|tract| {
                    room(&tract.radius, &radius, &mut self.bounds);
                    true
                })
            }
            Some(Measure::ChamberRatio(face)) => {
                let length = columns.ventricles[face.index()].as_ref();
                length
                    .zip(occluder.disc(face))
                    .is_some_and(|(length, disc)| {
                        ratio(length, 2.0 * disc.radius as f32, bounds);
                        true
                    })
            }
            Some(vessel @ (Measure::SheathInVein | Measure::SheathInArtery)) => {
                let vessel = match vessel {
                    Measure::SheathInVein => &columns.vein,
                    _ => &columns.artery,
                };
                vessel.as_ref().is_some_and(|vessel| {
                    ratio(vessel, sheath(question) as f32, bounds);
                    true
                })
            }
            Some(Measure::ArteryWidth) => columns.artery.as_ref().is_some_and(|artery| {
                length(artery, bounds);
                true
            }),
            Some(Measure::OfShape) => return self.of_shape(job),
            None => false,
        };
        if is_bounded {
            self.bounds.held_against(&job.limits)
        } else {
            [Settled::default(); 2]
        }
    }

    fn setting(&self) -> &'a Setting {
        self.questions[0].setting
    }

    fn disc(&self, job: &Job, face: Face) -> Option<&'a Disc> {
        self.questions[job.question].size.occluder.disc(face)
    }

    /// The radius of the disc on a face; of the waist's end where there is none.
    fn radius(&self, job: &Job, face: Face) -> Lane {
        match self.disc(job, face) {
            Some(disc) => [disc.radius as f32; LANES],
            None => self.waists[job.waist]
                .diameter
                .map(|diameter| 0.5 * diameter),
        }
    }

    fn thickness(&self, job: &Job, face: Face) -> f32 {
        self.disc(job, face)
            .map_or(0.0, |disc| disc.thickness as f32)
    }

    /// How far the disc on a face stands off the wall.
    fn stand_off(&self, job: &Job, face: Face) -> Lane {
        let mut stand_off = [0.0; LANES];
        let slack = &self.waists[job.waist].slack;
        let share = &self.columns.slack_shares[face.index()];
        share_out(slack, share, &mut stand_off);
        stand_off
    }

    fn reach(&mut self, job: &Job, valve: Valve) -> bool {
        let Some(columns) = &self.columns.valves[valve.index()] else {
            return false;
        };
        let opening = &self.columns.openings[columns.face.index()];
        let radius = self.radius(job, columns.face);
        let centre = &self.centres[job.centre];
        reach(opening, centre, columns, &radius, &mut self.bounds);
        true
    }

    fn leaflet(&mut self, job: &Job, valve: Valve) -> bool {
        let Some(columns) = &self.columns.valves[valve.index()] else {
            return false;
        };
        self.reach(job, valve);
        covered(columns, &mut self.bounds);
        true
    }

    /// Leaves the open share of a face's tract in `self.share`.
    fn open_share(&mut self, job: &Job, face: Face) {
        if self.share_of == Some((job.question, face)) {
            return;
        }
        self.share_of = Some((job.question, face));
        let Some(tract) = &self.columns.tracts[face.index()] else {
            self.share.forget();
            return;
        };
        let occluder = &self.questions[job.question].size.occluder;
        let cover = Cover {
            narrowest: self.disc(job, face).map_or(0.0, |disc| disc.radius as f32),
            thickness: self.thickness(job, face),
            conformability: occluder.conformability as f32,
            dead_space_factor: self.setting().parameter(Parameter::DeadSpace) as f32,
        };
        let gap = self.stand_off(job, face);
        let radius = self.radius(job, face);
        open_share(tract, &radius, &gap, cover, &mut self.share);
    }

    fn gradient(&mut self, job: &Job, face: Face) -> bool {
        self.open_share(job, face);
        let parameter = |of| self.setting().parameter(of) as f32;
        let jet = [
            parameter(Parameter::Contraction),
            parameter(Parameter::LeastOpenShare),
        ];
        let Some(tract) = &self.columns.tracts[face.index()] else {
            return false;
        };
        gradient(&tract.velocity, &self.share, jet, &mut self.bounds);
        true
    }

    fn clearance(&mut self, job: &Job, valve: Valve) -> [Settled; 2] {
        let tilt = self.tilts.get(job.tilt).and_then(Option::as_ref);
        let Some((columns, tilt)) = self.columns.valves[valve.index()].as_ref().zip(tilt) else {
            return [Settled::default(); 2];
        };
        let face = columns.face;
        let half = 0.5 * self.thickness(job, face);
        let radius = self.radius(job, face);
        let gap = self.stand_off(job, face);
        let centre = &self.centres[job.centre];
        seen_from_hinge(columns, centre, (&gap, &radius), half, &mut self.core);
        bound(columns, tilt, &self.core, &mut self.apart);
        let bands = [job.stop, job.caution];
        settle(&self.apart, columns, half, &mut self.bounds);
        let settled = self.bounds.held_against(&job.limits);
        let left = (settled[0].open() | settled[1].open()) & first(self.columns.lanes);
        if left == 0 {
            return settled;
        }
        let limits = [bands[0].low, bands[0].high, bands[1].low, bands[1].high];
        let scene = Scene {
            valve: columns,
            tilt,
            core: &self.core,
            half,
            limits: limits.map(|limit| limit.map(|limit| limit as f32)),
        };
        for some in (0..LANES).step_by(FEW) {
            let open = left >> some & Mask::from(u8::MAX);
            if open != 0 {
                self.apart.narrow(&scene, some, open);
            }
        }
        settle(&self.apart, columns, half, &mut self.bounds);
        self.bounds.held_against(&job.limits)
    }

    /// A value of the shape alone is asked for once.
    fn of_shape(&self, job: &Job) -> [Settled; 2] {
        let value = self.value(job, 0);
        [job.stop, job.caution].map(|band| {
            let holds = if band.is_broken(value) { 0 } else { Mask::MAX };
            Settled {
                holds,
                broken: !holds,
            }
        })
    }

    /// Asks the check itself in some lanes.
    fn ask_f64(&self, job: &Job, open: Mask, answer: &mut Answer) {
        for lane in each(open) {
            let value = self.value(job, lane);
            let bit = 1 << lane;
            let held = |mask: Mask, band: Band| {
                if band.is_broken(value) {
                    mask & !bit
                } else {
                    mask | bit
                }
            };
            answer.stop = held(answer.stop, job.stop);
            answer.caution = held(answer.caution, job.caution);
        }
    }

    /// A job's value in one lane by its check.
    fn value(&self, job: &Job, lane: usize) -> f64 {
        let question = &self.questions[job.question];
        let draw = self.columns.first + lane;
        let anatomy = self.draws.anatomy(draw);
        let seat = Seat::drawn(
            &question.size.occluder,
            &anatomy.defect,
            anatomy.left_slack_share,
            question.turn,
            self.draws.seat(draw),
        );
        let row = &question.rows[job.row];
        let lanes = Lanes {
            setting: question.setting,
            size: question.size,
            anatomies: std::slice::from_ref(anatomy),
            seats: std::slice::from_ref(&seat),
        };
        let mut value = [0.0];
        row.check.fill(row.of, &lanes, &mut value);
        value[0]
    }
}

/// The parts of edges that a plan looks at, beneath their discs.
fn edges(plan: &Plan, columns: &Columns, centres: &[CentreField]) -> Vec<Option<FarthestField>> {
    // By face and part, once for all discs.
    let points: [[OnceCell<EdgePoints>; 2]; 2] = Default::default();
    let of = |form: &EdgeForm| {
        let (face, part) = (form.face.index(), part(form.part));
        let opening = &columns.openings[face];
        FarthestField::new(opening, part, &centres[form.centre], || {
            points[face][part].get_or_init(|| EdgePoints::new(opening, part))
        })
    };
    plan.edges.iter().map(of).collect()
}

/// The place of a part of the edge in columns.
const fn part(part: EdgePart) -> usize {
    match part {
        EdgePart::AtHinge => 0,
        EdgePart::Away => 1,
    }
}
