use super::columns::Columns;
use super::fields::{CentreField, TiltField, WaistField};
use super::lips::{EdgePoints, FarthestField};
use super::plan::{EdgeForm, Job, Plan};
use super::stand::Stand;
use crate::check::EdgePart;
use crate::engine::Question;
use geometry::{Edge, Face};
use std::cell::OnceCell;

/// What several jobs look at in the same draws, each thing worked out once.
pub(super) struct Shared<'a> {
    pub(super) questions: &'a [Question<'a>],
    pub(super) columns: &'a Columns,
    waists: Vec<WaistField>,
    centres: Vec<CentreField>,
    tilts: Vec<Option<TiltField>>,
    edges: Vec<Option<FarthestField>>,
}

impl<'a> Shared<'a> {
    pub(super) fn new(plan: &Plan, questions: &'a [Question], columns: &'a Columns) -> Self {
        let edge = questions
            .first()
            .map_or(Edge::Soft, |question| question.setting.case().edge);
        let centres = plan.centres.iter().map(|form| form.field(columns, edge));
        let centres: Vec<CentreField> = centres.collect();
        let waists = plan.waists.iter().map(|form| form.field(columns, edge));
        Self {
            questions,
            columns,
            waists: waists.collect(),
            tilts: plan.tilts.iter().map(|form| form.field(columns)).collect(),
            edges: edges(plan, columns, &centres),
            centres,
        }
    }

    pub(super) fn waist(&self, job: &Job) -> &WaistField {
        &self.waists[job.waist]
    }

    pub(super) fn centre(&self, job: &Job) -> &CentreField {
        &self.centres[job.centre]
    }

    pub(super) fn tilt(&self, job: &Job) -> Option<&TiltField> {
        self.tilts.get(job.tilt).and_then(Option::as_ref)
    }

    pub(super) fn edge(&self, job: &Job) -> Option<&FarthestField> {
        self.edges.get(job.edge).and_then(Option::as_ref)
    }

    /// How the disc on a face stands, or the waist's end where there is none.
    pub(super) fn stand(&self, job: &Job, face: Face) -> Stand<'_> {
        let disc = self.questions[job.question].size.occluder.disc(face);
        Stand {
            own_radius: disc.map_or(0.0, |disc| disc.radius as f32),
            of_waist: if disc.is_some() { 0.0 } else { 0.5 },
            thickness: disc.map_or(0.0, |disc| disc.thickness as f32),
            waist: self.waist(job),
            slack_share: &self.columns.slack_shares[face.index()],
        }
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
pub(super) const fn part(part: EdgePart) -> usize {
    match part {
        EdgePart::AtHinge => 0,
        EdgePart::Away => 1,
    }
}
