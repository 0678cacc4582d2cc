use super::ask::{Ask, DiscForm, Layer, Radius};
use super::clearance::{Core, DepthBounds, DiscBesideValve, FEW, bound, settle};
use super::columns::Columns;
use super::enclosure::{Enclosure, LaneStates};
use super::lanes::{LANES, Lane, Mask, each, first};
use super::layout::Layout;
use super::lips::{covered, lip_over_middle, reach};
use super::plan::{EdgeForm, Job, Plan};
use super::shared::{Group, Shared, part};
use super::simple::{clamp, excess, length, ratio, room, slack};
use super::tract::{Cover, open_share};
use crate::draws::Piece;
use crate::engine::Question;
use crate::engine::answers::RowAnswer;
use crate::house_rules::{Band, Parameter};
use crate::measure::Situation;
use crate::{Anatomy, face_of};
use geometry::Edge;
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

/// All jobs of a plan, asked of one group of draws after another.
pub(super) struct Worker<'a> {
    plan: &'a Plan,
    questions: &'a [Question<'a>],
    /// What was answered before.
    known: &'a [RowAnswer],
    layout: &'a Layout,
    edge: Edge,
    shared: Shared,
    scratch: Scratch,
    /// The draws of the group, and their anatomies, as far as they were asked for in `f64`.
    piece: OnceCell<Piece<'a>>,
    anatomies: [OnceCell<Box<Anatomy>>; LANES],
}

/// What is overwritten from job to job.
struct Scratch {
    /// Of each face the layer whose open share was last bounded, with the bounds: the
    /// gradient of the same disc uses them.
    shares: [(Option<Layer>, Enclosure); 2],
    bounds: Enclosure,
    apart: DepthBounds,
    core: Core,
}

impl<'a> Worker<'a> {
    pub(super) fn new(
        plan: &'a Plan,
        (questions, known): (&'a [Question<'a>], &'a [RowAnswer]),
        layout: &'a Layout,
    ) -> Self {
        Self {
            plan,
            questions,
            known,
            piece: OnceCell::new(),
            anatomies: [const { OnceCell::new() }; LANES],
            layout,
            edge: questions
                .first()
                .map_or(Edge::Soft, |question| question.setting.case().edge),
            shared: Shared::new(plan),
            scratch: Scratch {
                shares: [const { (None, Enclosure::OPEN) }; 2],
                bounds: Enclosure::OPEN,
                apart: DepthBounds::UNKNOWN,
                core: Core::NOWHERE,
            },
        }
    }

    /// Answers every job in some draws.
    pub(super) fn answer(&mut self, columns: &Columns, answers: &mut [Answer]) {
        self.shared.fill(self.plan, columns, self.edge);
        let group = Group {
            plan: self.plan,
            columns,
            shared: &self.shared,
        };
        self.scratch
            .shares
            .iter_mut()
            .for_each(|(of, _)| *of = None);
        self.piece.take();
        self.anatomies = [const { OnceCell::new() }; LANES];
        let lanes = first(columns.lanes);
        for (job, answer) in self.plan.jobs.iter().zip(answers) {
            let [stop, caution] = match job.ask {
                Ask::Known(index) => {
                    let RowAnswer { stop, caution } = &self.known[index];
                    [stop, caution].map(|draws| LaneStates::by(draws.lanes(columns.first)))
                }
                Ask::OfShape(value) => {
                    [job.stop, job.caution].map(|band| known(band, value.value()))
                }
                _ => self.scratch.settle(&group, self.questions, job),
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

    /// Asks the measure itself in some lanes.
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

    /// A job's value in one lane by its measure.
    fn value(&self, columns: &Columns, job: &Job, lane: usize) -> f64 {
        let question = &self.questions[job.question];
        let draw = columns.first + lane;
        let group = columns.first..columns.first + columns.lanes;
        let piece = self.piece.get_or_init(|| self.layout.draws.piece(group));
        let drawn = || Box::new(piece.anatomy(draw));
        let anatomy = self.anatomies[lane].get_or_init(drawn);
        let seat = question.seat(anatomy, &piece.seat(draw));
        question.rows[job.row].measure.value(&Situation {
            setting: question.setting,
            size: question.size,
            anatomy,
            seat: &seat,
        })
    }
}

/// What is settled by a value that is the same in every lane.
fn known(band: Band, value: f64) -> LaneStates {
    LaneStates::by(if band.is_broken(value) { 0 } else { Mask::MAX })
}

impl Scratch {
    /// What bounds settle of a job's two bands.
    fn settle(&mut self, group: &Group, questions: &[Question], job: &Job) -> [LaneStates; 2] {
        let columns = group.columns;
        let bounds = &mut self.bounds;
        let is_bounded = match job.ask {
            Ask::WaistExcess { waist } => {
                excess(&columns.fit, waist.single(), bounds);
                true
            }
            Ask::WaistRatio { waist } => {
                ratio(&columns.fit, waist.single(), bounds);
                true
            }
            Ask::Slack { waist } => {
                slack(&group.shared.waists[waist], bounds);
                true
            }
            Ask::Clamp { waist } => {
                clamp(&group.shared.waists[waist], bounds);
                true
            }
            Ask::Lip { edge, radius } => {
                lip(group, edge, radius.single(), bounds);
                let [.., lips] = &group.columns.added;
                if let Some(by) = lips {
                    bounds.add(by);
                }
                true
            }
            Ask::Clearance {
                valve,
                tilt,
                beside,
                disc,
            } => return self.clearance(group, job, valve, [tilt, beside], &disc),
            Ask::Reach {
                valve,
                centre,
                radius,
            } => self.reach(group, valve, centre, radius),
            Ask::LeafletCovered {
                valve,
                centre,
                radius,
            } => self.leaflet(group, valve, centre, radius),
            Ask::OpenShare(layer) => {
                let share = self.open_share(group, &questions[job.question], layer);
                return share.held_against(&job.limits);
            }
            Ask::TractGradient { layer, limits } => {
                let share = self.open_share(group, &questions[job.question], layer);
                return limits.map(|limits| group.shared.gradients[limits].settle(share));
            }
            Ask::TractRoom { face, radius } => {
                let radii = group.radii(radius);
                columns.tracts[face.index()].as_ref().is_some_and(|tract| {
                    room(&tract.radius, &radii, bounds);
                    true
                })
            }
            Ask::ChamberRatio { face, diameter } => {
                let length = columns.ventricles[face.index()].as_ref();
                ratio_if(length, diameter.single(), bounds)
            }
            Ask::SheathInVein { diameter } => {
                ratio_if(columns.vein.as_ref(), diameter.single(), bounds)
            }
            Ask::SheathInArtery { diameter } => {
                ratio_if(columns.artery.as_ref(), diameter.single(), bounds)
            }
            Ask::ArteryWidth => columns.artery.as_ref().is_some_and(|artery| {
                length(artery, bounds);
                true
            }),
            Ask::Known(_) | Ask::OfShape(_) | Ask::Exactly { .. } => false,
        };
        if is_bounded {
            self.bounds.held_against(&job.limits)
        } else {
            [LaneStates::default(); 2]
        }
    }

    fn reach(&mut self, group: &Group, valve: Valve, centre: usize, radius: Radius) -> bool {
        let Some(columns) = &group.columns.valves[valve.index()] else {
            return false;
        };
        let opening = &group.columns.openings[columns.face];
        let radii = group.radii(radius);
        let bounds = &mut self.bounds;
        reach(
            opening,
            &group.shared.centres[centre],
            columns,
            &radii,
            bounds,
        );
        true
    }

    fn leaflet(&mut self, group: &Group, valve: Valve, centre: usize, radius: Radius) -> bool {
        let Some(columns) = &group.columns.valves[valve.index()] else {
            return false;
        };
        self.reach(group, valve, centre, radius);
        covered(columns, &mut self.bounds);
        true
    }

    /// Bounds of the open share of a face's tract.
    fn open_share(&mut self, group: &Group, question: &Question, layer: Layer) -> &Enclosure {
        let face = layer.disc.face.index();
        let (of, share) = &mut self.shares[face];
        if *of == Some(layer) {
            return share;
        }
        *of = Some(layer);
        if let Some(tract) = &group.columns.tracts[face] {
            let cover = Cover {
                conformability: layer.conformability.single(),
                dead_space_factor: question.setting.parameter(Parameter::DeadSpace) as f32,
            };
            open_share(tract, &group.stand(&layer.disc), cover, share);
        } else {
            share.forget();
        }
        share
    }

    fn clearance(
        &mut self,
        group: &Group,
        job: &Job,
        valve: Valve,
        [tilt, beside]: [usize; 2],
        disc: &DiscForm,
    ) -> [LaneStates; 2] {
        let added = group.columns.added[face_of(valve).index()].as_ref();
        let Some(columns) = &group.columns.valves[valve.index()] else {
            return [LaneStates::default(); 2];
        };
        let tilt = &group.shared.tilts[tilt];
        let half = disc.half() as f32;
        bound(
            (columns, tilt),
            &group.shared.besides[beside],
            &group.stand(disc),
            &mut self.core,
            &mut self.apart,
            &mut self.bounds,
        );
        if let Some(by) = added {
            self.bounds.add(by);
        }
        let settled = self.bounds.held_against(&job.limits);
        let left = (settled[0].open() | settled[1].open()) & first(group.columns.lanes);
        if left == 0 {
            return settled;
        }
        let bands = [job.stop, job.caution];
        let limits = [bands[0].low, bands[0].high, bands[1].low, bands[1].high];
        let scene = DiscBesideValve {
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
        if let Some(by) = added {
            self.bounds.add(by);
        }
        self.bounds.held_against(&job.limits)
    }
}

/// Bounds of a length over one that is read, where it is.
fn ratio_if(whole: Option<&Lane>, part: f32, bounds: &mut Enclosure) -> bool {
    whole.is_some_and(|whole| {
        ratio(whole, part, bounds);
        true
    })
}

/// Bounds of the least lip of a disc over a part of an edge.
fn lip(group: &Group, edge: usize, radius: f32, bounds: &mut Enclosure) {
    let farthest = &group.shared.edges[edge];
    if farthest.is_over_middle {
        let EdgeForm { face, part: of, .. } = group.plan.edges[edge];
        let opening = &group.columns.openings[face];
        lip_over_middle(&opening.farthest[part(of)], radius, bounds);
    } else {
        farthest.lip(radius, bounds);
    }
}
