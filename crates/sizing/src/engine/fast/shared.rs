use super::ask::{DiscForm, Radius};
use super::columns::Columns;
use super::fields::{CentreField, TiltField, WaistField};
use super::lips::{EdgePoints, FarthestField};
use super::plan::{EdgeForm, Plan};
use super::stand::{Radii, Stand};
use crate::engine::Question;
use crate::measure::EdgePart;
use geometry::Edge;
use std::cell::OnceCell;

/// What several jobs look at in the same draws, each thing worked out once. Lists are
/// in the order of the plan's.
pub(super) struct Shared<'a> {
    pub(super) plan: &'a Plan,
    pub(super) columns: &'a Columns,
    pub(super) waists: Vec<WaistField>,
    pub(super) centres: Vec<CentreField>,
    /// `None` where the valve does not stand there.
    pub(super) tilts: Vec<Option<TiltField>>,
    /// `None` where the disc is centred over its opening.
    pub(super) edges: Vec<Option<FarthestField>>,
}

impl<'a> Shared<'a> {
    pub(super) fn new(plan: &'a Plan, questions: &[Question], columns: &'a Columns) -> Self {
        let edge = questions
            .first()
            .map_or(Edge::Soft, |question| question.setting.case().edge);
        let centres = plan.centres.iter().map(|form| form.field(columns, edge));
        let centres: Vec<CentreField> = centres.collect();
        let waists = plan.waists.iter().map(|form| form.field(columns, edge));
        Self {
            plan,
            columns,
            waists: waists.collect(),
            tilts: plan.tilts.iter().map(|form| form.field(columns)).collect(),
            edges: edges(plan, columns, &centres),
            centres,
        }
    }

    pub(super) fn radii(&self, radius: Radius) -> Radii<'_> {
        match radius {
            Radius::Disc(radius) => Radii {
                own: radius.single(),
                of_waist: 0.0,
                diameter: &self.columns.fit,
            },
            Radius::WaistEnd(waist) => Radii {
                own: 0.0,
                of_waist: 0.5,
                diameter: &self.waists[waist].diameter,
            },
        }
    }

    pub(super) fn stand(&self, disc: &DiscForm) -> Stand<'_> {
        Stand {
            radii: self.radii(disc.radius),
            thickness: disc.thickness.single(),
            slack: &self.waists[disc.waist].slack,
            slack_share: &self.columns.slack_shares[disc.face.index()],
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

/// The index of a part of the edge in columns.
pub(super) const fn part(part: EdgePart) -> usize {
    match part {
        EdgePart::AtHinge => 0,
        EdgePart::Away => 1,
    }
}
