use super::ask::{Ask, DiscForm, Layer, Number, Radius};
use super::enclosure::Limits;
use super::fields::{BesideForm, CentreForm, TiltForm, WaistForm};
use super::gradient::GradientForm;
use crate::Row;
use crate::engine::{Answers, Question};
use crate::face_of;
use crate::house_rules::Band;
use crate::measure::{EdgePart, Measure, sheath};
use geometry::{Face, Seat};
use measurement::Valve;
use std::collections::HashMap;

/// All that several sizes ask of the same draws, each thing once.
///
/// Sizes of one waist share what depends on the waist, shapes on one axis share
/// their places, rows that ask the same of one pair of limits share their answer.
pub(super) struct Plan {
    pub(super) waists: Vec<WaistForm>,
    pub(super) centres: Vec<CentreForm>,
    pub(super) besides: Vec<BesideForm>,
    pub(super) tilts: Vec<TiltForm>,
    pub(super) edges: Vec<EdgeForm>,
    pub(super) gradients: Vec<GradientForm>,
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
    /// Its index among the centres.
    pub(super) centre: usize,
}

/// One thing asked of every draw, held against two bands.
pub(super) struct Job {
    pub(super) ask: Ask,
    pub(super) stop: Band,
    pub(super) caution: Band,
    /// Both bands as bounds are held against them.
    pub(super) limits: [Limits; 2],
    /// A question and its row that ask it: those that share a job differ in
    /// nothing that its measure sees.
    pub(super) question: usize,
    pub(super) row: usize,
}

/// What tells jobs apart: what they ask, and their limits.
type Key = (Ask, [[Number; 2]; 2]);

impl Plan {
    /// Rows that are answered by `before` ask nothing of the draws.
    pub(super) fn new(questions: &[Question], before: Option<&Answers>) -> Self {
        let mut plan = Self {
            waists: Vec::new(),
            centres: Vec::new(),
            besides: Vec::new(),
            tilts: Vec::new(),
            edges: Vec::new(),
            gradients: Vec::new(),
            jobs: Vec::new(),
            rows: Vec::with_capacity(questions.len()),
        };
        let mut known: HashMap<Key, usize> = HashMap::new();
        for (index, question) in questions.iter().enumerate() {
            let is_bounded = bounds_seat(question);
            let rows = question.rows.iter().enumerate();
            let jobs = rows.map(|(row_index, row)| {
                row.is_assessed().then(|| {
                    let answered = before.and_then(|answers| answers.of(index, row_index));
                    let ask = answered.map(Ask::Known).or_else(|| {
                        let asked = is_bounded.then(|| plan.ask(question, row));
                        asked.flatten()
                    });
                    let ask = ask.unwrap_or(Ask::Exactly {
                        question: index,
                        row: row_index,
                    });
                    let key = (ask, [row.stop, row.caution].map(limits));
                    *known.entry(key).or_insert_with(|| {
                        plan.jobs.push(Job {
                            ask,
                            limits: [&row.stop, &row.caution].map(Limits::of),
                            stop: row.stop,
                            caution: row.caution,
                            question: index,
                            row: row_index,
                        });
                        plan.jobs.len() - 1
                    })
                })
            });
            let jobs = jobs.collect();
            plan.rows.push(jobs);
        }
        plan
    }

    /// What a measure asks of the draws for a size; `None` where no bounds are known.
    fn ask(&mut self, question: &Question, row: &Row) -> Option<Ask> {
        let (setting, size) = (question.setting, question.size);
        let occluder = &size.occluder;
        let waist = Number::of(occluder.waist.diameter);
        Some(match row.measure {
            Measure::WaistExcess => Ask::WaistExcess { waist },
            Measure::WaistRatio => Ask::WaistRatio { waist },
            Measure::Slack => Ask::Slack {
                waist: self.waist(question),
            },
            Measure::Clamp => Ask::Clamp {
                waist: self.waist(question),
            },
            Measure::Lip(face, part) => {
                let centre = self.centre(question, face);
                Ask::Lip {
                    edge: index_of(&mut self.edges, EdgeForm { face, part, centre }),
                    radius: Number::of(occluder.disc(face)?.radius),
                }
            }
            Measure::Clearance(valve) => {
                let conformability = occluder.conformability;
                let form = TiltForm {
                    valve,
                    conformability,
                };
                Ask::Clearance {
                    valve,
                    tilt: index_of(&mut self.tilts, form),
                    beside: self.beside(question, valve),
                    disc: self.disc(question, face_of(valve)),
                }
            }
            Measure::Reach(valve) => Ask::Reach {
                valve,
                centre: self.centre(question, face_of(valve)),
                radius: self.radius(question, face_of(valve)),
            },
            Measure::LeafletCovered(valve) => Ask::LeafletCovered {
                valve,
                centre: self.centre(question, face_of(valve)),
                radius: self.radius(question, face_of(valve)),
            },
            Measure::OpenShare(face) => Ask::OpenShare(self.layer(question, face)),
            Measure::TractGradient(face) => Ask::TractGradient {
                layer: self.layer(question, face),
                limits: [row.stop, row.caution].map(|band| {
                    let form = GradientForm::of(setting, face, band);
                    index_of(&mut self.gradients, form)
                }),
            },
            Measure::TractRoom(face) => Ask::TractRoom {
                face,
                radius: self.radius(question, face),
            },
            Measure::ChamberRatio(face) => Ask::ChamberRatio {
                face,
                diameter: Number::of(2.0 * occluder.disc(face)?.radius),
            },
            Measure::SheathInVein => Ask::SheathInVein {
                diameter: Number::of(sheath(setting, size)),
            },
            Measure::SheathInArtery => Ask::SheathInArtery {
                diameter: Number::of(sheath(setting, size)),
            },
            Measure::ArteryWidth => Ask::ArteryWidth,
            Measure::OfShape(value) => Ask::OfShape(Number::of(value(setting, size))),
            Measure::Own(_) => return None,
        })
    }

    fn waist(&mut self, question: &Question) -> usize {
        index_of(&mut self.waists, WaistForm::of(&question.size.occluder))
    }

    fn centre(&mut self, question: &Question, face: Face) -> usize {
        let form = CentreForm::of(&question.size.occluder, face, question.turn);
        index_of(&mut self.centres, form)
    }

    fn beside(&mut self, question: &Question, valve: Valve) -> usize {
        let centre = self.centre(question, face_of(valve));
        index_of(&mut self.besides, BesideForm { valve, centre })
    }

    fn radius(&mut self, question: &Question, face: Face) -> Radius {
        match question.size.occluder.disc(face) {
            Some(disc) => Radius::Disc(Number::of(disc.radius)),
            None => Radius::WaistEnd(self.waist(question)),
        }
    }

    fn disc(&mut self, question: &Question, face: Face) -> DiscForm {
        let disc = question.size.occluder.disc(face);
        DiscForm {
            face,
            radius: self.radius(question, face),
            thickness: Number::of(disc.map_or(0.0, |disc| disc.thickness)),
            waist: self.waist(question),
        }
    }

    fn layer(&mut self, question: &Question, face: Face) -> Layer {
        Layer {
            disc: self.disc(question, face),
            conformability: Number::of(question.size.occluder.conformability),
        }
    }
}

/// Whether the bounds of this engine hold for the seat that a size takes. The kind of
/// a seat hangs on size and case, not on the draw.
fn bounds_seat(question: &Question) -> bool {
    let anatomy = question.setting.anatomy();
    let seat = Seat::nominal(
        &question.size.occluder,
        &anatomy.defect,
        anatomy.left_slack_share,
        question.turn,
    );
    match seat {
        Seat::OverLeftOpening(_) => true,
    }
}

/// The index of an item in a list, to which it is added where it is new. Those
/// that follow each other are often alike, so the search goes backward.
fn index_of<T: PartialEq>(list: &mut Vec<T>, item: T) -> usize {
    if let Some(index) = list.iter().rposition(|known| *known == item) {
        return index;
    }
    list.push(item);
    list.len() - 1
}

/// Both limits of a band; no limit is not a number, so that is none.
fn limits(band: Band) -> [Number; 2] {
    [band.low, band.high].map(|limit| Number::of(limit.unwrap_or(f64::NAN)))
}
