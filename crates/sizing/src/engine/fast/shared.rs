use super::ask::{DiscForm, Radius};
use super::columns::Columns;
use super::fields::{BesideField, CentreField, TiltField, WaistField};
use super::gradient::ShareLimits;
use super::lips::{EdgePoints, FarthestField};
use super::plan::Plan;
use super::stand::{Radii, Stand};
use crate::measure::EdgePart;
use geometry::Edge;

/// What several jobs look at in the same draws, each thing worked out once for each
/// group of draws. Lists are in the order of the plan's.
pub(super) struct Shared {
    pub(super) waists: Vec<WaistField>,
    pub(super) centres: Vec<CentreField>,
    pub(super) besides: Vec<BesideField>,
    pub(super) tilts: Vec<TiltField>,
    pub(super) edges: Vec<FarthestField>,
    pub(super) gradients: Vec<ShareLimits>,
    /// By face and part of its edge.
    points: [[EdgePoints; 2]; 2],
}

impl Shared {
    /// Room for all that a plan looks at.
    pub(super) fn new(plan: &Plan) -> Self {
        Self {
            waists: vec![WaistField::UNFILLED; plan.waists.len()],
            centres: vec![CentreField::UNFILLED; plan.centres.len()],
            besides: vec![BesideField::UNFILLED; plan.besides.len()],
            tilts: vec![TiltField::UNFILLED; plan.tilts.len()],
            edges: vec![FarthestField::UNFILLED; plan.edges.len()],
            gradients: vec![ShareLimits::UNKNOWN; plan.gradients.len()],
            points: [(); 2].map(|()| [0, 1].map(EdgePoints::unfilled)),
        }
    }

    /// Works everything out for a group of draws.
    pub(super) fn fill(&mut self, plan: &Plan, columns: &Columns, edge: Edge) {
        for (form, field) in plan.waists.iter().zip(&mut self.waists) {
            form.fill(columns, edge, field);
        }
        for (form, field) in plan.centres.iter().zip(&mut self.centres) {
            form.fill(columns, edge, field);
        }
        for (form, field) in plan.besides.iter().zip(&mut self.besides) {
            form.fill(columns, &self.centres[form.centre], field);
        }
        for (form, field) in plan.tilts.iter().zip(&mut self.tilts) {
            form.fill(columns, field);
        }
        for (form, limits) in plan.gradients.iter().zip(&mut self.gradients) {
            form.fill(columns, limits);
        }
        for points in self.points.as_flattened_mut() {
            points.forget();
        }
        for (form, field) in plan.edges.iter().zip(&mut self.edges) {
            let (face, part) = (form.face, part(form.part));
            let (opening, centre) = (&columns.openings[face], &self.centres[form.centre]);
            field.fill(opening, part, centre, &mut self.points[face.index()][part]);
        }
    }
}

/// A group of draws with what is shared in it.
#[derive(Clone, Copy)]
pub(super) struct Group<'a> {
    pub(super) plan: &'a Plan,
    pub(super) columns: &'a Columns,
    pub(super) shared: &'a Shared,
}

impl Group<'_> {
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
                diameter: &self.shared.waists[waist].diameter,
            },
        }
    }

    pub(super) fn stand(&self, disc: &DiscForm) -> Stand<'_> {
        Stand {
            radii: self.radii(disc.radius),
            thickness: disc.thickness.single(),
            gap: &self.shared.waists[disc.waist].gaps[disc.face.index()],
        }
    }
}

/// The index of a part of the edge in columns.
pub(super) const fn part(part: EdgePart) -> usize {
    match part {
        EdgePart::AtHinge => 0,
        EdgePart::Away => 1,
    }
}
