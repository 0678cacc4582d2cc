use super::clearance::{Apart, Core, FEW, Scene, bound, settle};
use super::columns::Columns;
use super::enclosure::{Enclosure, Settled};
use super::lanes::{LANES, Mask, each, first};
use super::lips::{covered, lip_over_middle, reach};
use super::plan::{Job, Plan, sheath};
use super::shared::{Shared, part};
use super::simple::{clamp, excess, length, ratio, room, slack};
use super::tract::{Cover, gradient, open_share};
use crate::Draws;
use crate::check::{Lanes, Measure};
use crate::engine::Question;
use crate::house_rules::{Band, Parameter};
use geometry::{Face, Seat};
use measurement::Valve;

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

/// All jobs of a plan, asked of one set of draws after another.
pub(super) struct Work<'a> {
    plan: &'a Plan,
    questions: &'a [Question<'a>],
    draws: &'a Draws,
    scratch: Scratch,
}

/// What is overwritten from job to job.
struct Scratch {
    /// Of each face the question whose open share was last bounded, with the
    /// bounds: the gradient of the same disc uses them.
    shares: [(Option<usize>, Enclosure); 2],
    bounds: Enclosure,
    apart: Apart,
    core: Core,
}

impl<'a> Work<'a> {
    pub(super) const fn new(
        plan: &'a Plan,
        questions: &'a [Question<'a>],
        draws: &'a Draws,
    ) -> Self {
        Self {
            plan,
            questions,
            draws,
            scratch: Scratch {
                shares: [const { (None, Enclosure::OPEN) }; 2],
                bounds: Enclosure::OPEN,
                apart: Apart::UNKNOWN,
                core: Core::NOWHERE,
            },
        }
    }

    /// Answers every job in some draws.
    pub(super) fn answer(&mut self, columns: &Columns, answers: &mut [Answer]) {
        let shared = Shared::new(self.plan, self.questions, columns);
        self.scratch
            .shares
            .iter_mut()
            .for_each(|(of, _)| *of = None);
        let lanes = first(columns.lanes);
        for (job, answer) in self.plan.jobs.iter().zip(answers) {
            let [stop, caution] = if job.measure == Some(Measure::OfShape) {
                self.of_shape(columns, job)
            } else {
                self.scratch.settle(&shared, job)
            };
            *answer = Answer {
                stop: stop.holds,
                caution: caution.holds,
            };
            let open = (stop.open() | caution.open()) & lanes;
            if open != 0 {
                self.ask_f64(columns, job, open, answer);
            }
        }
    }

    /// A value of the shape alone is asked for once.
    fn of_shape(&self, columns: &Columns, job: &Job) -> [Settled; 2] {
        let value = self.value(columns, job, 0);
        [job.stop, job.caution].map(|band| {
            let holds = if band.is_broken(value) { 0 } else { Mask::MAX };
            Settled {
                holds,
                broken: !holds,
            }
        })
    }

    /// Asks the check itself in some lanes.
    fn ask_f64(&self, columns: &Columns, job: &Job, open: Mask, answer: &mut Answer) {
        for lane in each(open) {
            let value = self.value(columns, job, lane);
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
    fn value(&self, columns: &Columns, job: &Job, lane: usize) -> f64 {
        let question = &self.questions[job.question];
        let draw = columns.first + lane;
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

impl Scratch {
    /// What bounds settle of a job's two bands.
    fn settle(&mut self, shared: &Shared, job: &Job) -> [Settled; 2] {
        let columns = shared.columns;
        let question = &shared.questions[job.question];
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
                slack(shared.waist(job), bounds);
                true
            }
            Some(Measure::Clamp) => {
                clamp(shared.waist(job), bounds);
                true
            }
            Some(Measure::Lip(face, of)) => occluder.disc(face).is_some_and(|disc| {
                let radius = disc.radius as f32;
                if let Some(edge) = shared.edge(job) {
                    edge.lip(radius, bounds);
                } else {
                    let opening = &columns.openings[face.index()];
                    lip_over_middle(&opening.farthest[part(of)], radius, bounds);
                }
                true
            }),
            Some(Measure::Clearance(valve)) => return self.clearance(shared, job, valve),
            Some(Measure::Reach(valve)) => self.reach(shared, job, valve),
            Some(Measure::LeafletCovered(valve)) => self.leaflet(shared, job, valve),
            Some(Measure::OpenShare(face)) => {
                return self.open_share(shared, job, face).held_against(&job.limits);
            }
            Some(Measure::TractGradient(face)) => self.gradient(shared, job, face),
            Some(Measure::TractRoom(face)) => {
                let disc = shared.stand(job, face);
                columns.tracts[face.index()].as_ref().is_some_and(|tract| {
                    room(&tract.radius, &disc, bounds);
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
            Some(Measure::OfShape) | None => false,
        };
        if is_bounded {
            self.bounds.held_against(&job.limits)
        } else {
            [Settled::default(); 2]
        }
    }

    fn reach(&mut self, shared: &Shared, job: &Job, valve: Valve) -> bool {
        let Some(columns) = &shared.columns.valves[valve.index()] else {
            return false;
        };
        let opening = &shared.columns.openings[columns.face.index()];
        let disc = shared.stand(job, columns.face);
        reach(
            opening,
            shared.centre(job),
            columns,
            &disc,
            &mut self.bounds,
        );
        true
    }

    fn leaflet(&mut self, shared: &Shared, job: &Job, valve: Valve) -> bool {
        let Some(columns) = &shared.columns.valves[valve.index()] else {
            return false;
        };
        self.reach(shared, job, valve);
        covered(columns, &mut self.bounds);
        true
    }

    /// Bounds of the open share of a face's tract.
    fn open_share(&mut self, shared: &Shared, job: &Job, face: Face) -> &Enclosure {
        let (of, share) = &mut self.shares[face.index()];
        if *of == Some(job.question) {
            return share;
        }
        *of = Some(job.question);
        if let Some(tract) = &shared.columns.tracts[face.index()] {
            let question = &shared.questions[job.question];
            let cover = Cover {
                conformability: question.size.occluder.conformability as f32,
                dead_space_factor: question.setting.parameter(Parameter::DeadSpace) as f32,
            };
            open_share(tract, &shared.stand(job, face), cover, share);
        } else {
            share.forget();
        }
        share
    }

    fn gradient(&mut self, shared: &Shared, job: &Job, face: Face) -> bool {
        let Some(tract) = &shared.columns.tracts[face.index()] else {
            return false;
        };
        self.open_share(shared, job, face);
        let setting = shared.questions[job.question].setting;
        let parameter = |of| setting.parameter(of) as f32;
        let jet = [
            parameter(Parameter::Contraction),
            parameter(Parameter::LeastOpenShare),
        ];
        let (_, share) = &self.shares[face.index()];
        gradient(&tract.velocity, share, jet, &mut self.bounds);
        true
    }

    fn clearance(&mut self, shared: &Shared, job: &Job, valve: Valve) -> [Settled; 2] {
        let valve = shared.columns.valves[valve.index()].as_ref();
        let Some((columns, tilt)) = valve.zip(shared.tilt(job)) else {
            return [Settled::default(); 2];
        };
        let disc = shared.stand(job, columns.face);
        let half = 0.5 * disc.thickness;
        bound(
            (columns, tilt),
            shared.centre(job),
            &disc,
            &mut self.core,
            &mut self.apart,
            &mut self.bounds,
        );
        let settled = self.bounds.held_against(&job.limits);
        let left = (settled[0].open() | settled[1].open()) & first(shared.columns.lanes);
        if left == 0 {
            return settled;
        }
        let bands = [job.stop, job.caution];
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
}
