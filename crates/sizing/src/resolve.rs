//! What is believed of each quantity of a case, and on what ground.

use crate::{
    Answer, Case, Fact, HouseRules, Neighbour, body_size, face_of, house_rules::Parameter,
};
use geometry::Face;
use measurement::{
    Corrected, Estimate, Feature, Fused, GroupKey, Law, Modality, Preference, Quantity, Reading,
    Selection, Site, Structure, Unit, like_groups, select, shared_edge_correlation,
};

/// The ground on which a quantity's value stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Basis {
    /// Read: the like readings that serve.
    Read(Selection),
    /// Not read: what is assumed from the size of the body or by the house, or any
    /// rotation alike, and its source.
    Assumed {
        /// Where the assumption comes from.
        source: String,
    },
    /// Not read: as another quantity.
    Follows(Quantity),
    /// Not read: nothing, as for a shift that nobody saw.
    Nil,
    /// There is no such neighbour.
    Absent,
    /// Not read, or only in ways the house does not use: those groups.
    Missing(Vec<(GroupKey, Fused)>),
}

/// One quantity with its value, doubt and ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Resolved {
    /// The quantity.
    pub quantity: Quantity,
    /// Its ground.
    pub basis: Basis,
    /// Its law, where it has a value of its own.
    pub law: Option<Law>,
}

impl Resolved {
    /// The selection that serves, where it was read.
    pub const fn selection(&self) -> Option<&Selection> {
        match &self.basis {
            Basis::Read(selection) => Some(selection),
            _ => None,
        }
    }
}

/// Every quantity of a case, in the order of [`Quantity::all`].
pub(crate) fn resolve(case: &Case, rules: &HouseRules) -> Vec<Resolved> {
    let value = |of| {
        let resolved = resolve_one(case, rules, None, of);
        resolved.law.map(|law| law.nominal())
    };
    let body = value(Quantity::PATIENT_WEIGHT).zip(value(Quantity::PATIENT_HEIGHT));
    Quantity::all()
        .map(|quantity| resolve_one(case, rules, body, quantity))
        .collect()
}

/// What is believed of one quantity in a child of a weight in kilograms and a
/// height in centimetres, where both were read.
fn resolve_one(
    case: &Case,
    rules: &HouseRules,
    body: Option<(f64, f64)>,
    quantity: Quantity,
) -> Resolved {
    let info = quantity.info();
    let bare = |basis| Resolved {
        quantity,
        basis,
        law: None,
    };
    if neighbour_of(info.structure).is_some_and(|neighbour| case.is_absent(neighbour)) {
        return bare(Basis::Absent);
    }
    let readings: Vec<Corrected> = case
        .readings
        .iter()
        .filter(|reading| reading.quantity == quantity)
        .map(|reading| corrected(reading, rules))
        .collect();
    let dispute = rules.parameter(Parameter::Dispute);
    if let Some(preference) = preference(case, rules, quantity)
        && let Some(selection) = select(&readings, &preference, dispute)
    {
        let law = Law::for_quantity(info.law, selection.fused.value, selection.fused.sd);
        return Resolved {
            quantity,
            basis: Basis::Read(selection),
            law: Some(law),
        };
    }
    // A reading that the house does not use must not be replaced in silence.
    let unused = like_groups(&readings, dispute);
    if !unused.is_empty() {
        return bare(Basis::Missing(unused));
    }
    if let Some((law, source)) = assumed(case.site, rules, body, quantity) {
        return Resolved {
            quantity,
            basis: Basis::Assumed { source },
            law: Some(law),
        };
    }
    if let Some(other) = followed(quantity).or_else(|| axis_of_a_round(case, quantity)) {
        return bare(Basis::Follows(other));
    }
    if matches!(
        info.feature,
        Feature::OffsetToward12 | Feature::OffsetToward3
    ) {
        return bare(Basis::Nil);
    }
    bare(Basis::Missing(unused))
}

/// What is assumed of a quantity that nobody read, with its source: any rotation
/// alike; else from the size of the body; else what the house says.
fn assumed(
    site: Site,
    rules: &HouseRules,
    body: Option<(f64, f64)>,
    quantity: Quantity,
) -> Option<(Law, String)> {
    let info = quantity.info();
    if is_rotation_of_defect(quantity) {
        return Some((ANY_ROTATION, "assumption: any rotation is as likely".into()));
    }
    let from_body = body.and_then(|(weight, height)| body_size::assumed(quantity, weight, height));
    from_body.or_else(|| {
        let row = rules.default_at(quantity, site)?;
        let law = Law::for_quantity(info.law, row.value, row.sd);
        Some((law, row.source.clone()))
    })
}

/// The rotation of an ellipse that nobody read: after half a turn it is the same.
const ANY_ROTATION: Law = Law::Rectangular {
    low: -90.0,
    high: 90.0,
};

/// Whether a quantity is the rotation of the defect. No house has a value for it.
pub(crate) fn is_rotation_of_defect(quantity: Quantity) -> bool {
    let info = quantity.info();
    info.structure == Structure::Defect && info.feature == Feature::Rotation
}

/// The joint estimates of what has a value of its own.
pub fn estimates(resolved: &[Resolved], rules: &HouseRules) -> Vec<Estimate> {
    let rho = rules.parameter(Parameter::SharedEdge);
    resolved
        .iter()
        .filter_map(|one| {
            let law = one.law?;
            let is_length = one.quantity.unit() == Unit::Mm;
            Some(Estimate {
                quantity: one.quantity,
                law,
                scale_shares: one
                    .selection()
                    .filter(|_| is_length)
                    .map(Selection::scale_shares)
                    .unwrap_or_default(),
                partners: shared_edges(resolved, one, rho),
            })
        })
        .collect()
}

/// The scale errors of the house rules, by modality.
pub fn scales(rules: &HouseRules) -> Vec<(Modality, f64)> {
    rules
        .scales
        .iter()
        .map(|row| (row.modality, row.sd))
        .collect()
}

/// The axes of the opening a rim starts from, with the correlation that a common
/// image brings.
fn shared_edges(resolved: &[Resolved], rim: &Resolved, rho: f64) -> Vec<(Quantity, f64)> {
    let info = rim.quantity.info();
    let (Structure::Valve(valve), Feature::Rim, Some(of_rim)) =
        (info.structure, info.feature, rim.selection())
    else {
        return Vec::new();
    };
    let axes = match face_of(valve) {
        Face::Left => [
            Quantity::LEFT_OPENING_LONG_AXIS,
            Quantity::LEFT_OPENING_SHORT_AXIS,
        ],
        Face::Right => [
            Quantity::RIGHT_OPENING_LONG_AXIS,
            Quantity::RIGHT_OPENING_SHORT_AXIS,
        ],
    };
    axes.into_iter()
        .filter_map(|axis| {
            let mut edge = &resolved[axis.index()];
            if let Basis::Follows(other) = edge.basis {
                edge = &resolved[other.index()];
            }
            let correlation = shared_edge_correlation(of_rim, edge.selection()?, rho);
            (correlation != 0.0).then_some((edge.quantity, correlation))
        })
        .collect()
}

/// The quantity that serves where this one was not read.
pub fn followed(quantity: Quantity) -> Option<Quantity> {
    let info = quantity.info();
    match (info.structure, info.feature) {
        (
            Structure::LeftOpening | Structure::RightOpening,
            Feature::LongAxis | Feature::ShortAxis | Feature::Rotation,
        ) => Quantity::find(Structure::Defect, info.feature),
        (Structure::Valve(_), Feature::DiameterAcross) => {
            Quantity::find(info.structure, Feature::Diameter)
        }
        _ => None,
    }
}

/// The axis that stands for another one of a defect that is said to be round.
fn axis_of_a_round(case: &Case, quantity: Quantity) -> Option<Quantity> {
    let other = match quantity {
        Quantity::DEFECT_LONG_AXIS => Quantity::DEFECT_SHORT_AXIS,
        Quantity::DEFECT_SHORT_AXIS => Quantity::DEFECT_LONG_AXIS,
        _ => return None,
    };
    let is_round = case.facts.round == Answer::Yes && Fact::Round.is_asked(case);
    is_round.then_some(other)
}

/// The neighbour a structure is, if it may be absent.
pub fn neighbour_of(structure: Structure) -> Option<Neighbour> {
    match structure {
        Structure::Valve(valve) => Some(Neighbour::Valve(valve)),
        Structure::LeftOutflow => Some(Neighbour::LeftOutflow),
        Structure::RightOutflow => Some(Neighbour::RightOutflow),
        _ => None,
    }
}

/// The house rule by which a case's readings of a quantity are chosen.
pub fn preference(case: &Case, rules: &HouseRules, quantity: Quantity) -> Option<Preference> {
    let prolapse = case.facts.prolapse.may_be();
    rules
        .preferences
        .iter()
        .find(|row| {
            (row.of.is_empty() || row.of.contains(&quantity)) && (prolapse || !row.when_prolapse)
        })
        .map(|row| Preference {
            patterns: row.prefer.clone(),
            choose: row.choose,
        })
}

/// A reading without its bias and with a standard deviation.
fn corrected<'a>(reading: &'a Reading, rules: &HouseRules) -> Corrected<'a> {
    let bias: f64 = rules
        .biases
        .iter()
        .filter(|row| {
            row.of.contains(&reading.quantity)
                && (row.modalities.is_empty() || row.modalities.contains(&reading.modality))
                && (row.methods.is_empty() || row.methods.contains(&reading.method))
        })
        .map(|row| row.too_large_by)
        .sum();
    let info = reading.quantity.info();
    let value = (reading.value - bias).clamp(info.least, info.most);
    let sd = reading.sd.unwrap_or_else(|| assumed_sd(reading, rules));
    Corrected { reading, value, sd }
}

/// The house rule's standard deviation for a reading that carries none. Rules
/// without a row for a unit are refused when they are read.
pub fn assumed_sd(reading: &Reading, rules: &HouseRules) -> f64 {
    rules
        .doubts
        .iter()
        .find(|row| {
            row.unit == reading.quantity.unit()
                && (row.of.is_empty() || row.of.contains(&reading.quantity))
                && (row.modalities.is_empty() || row.modalities.contains(&reading.modality))
        })
        .map_or(0.0, |row| row.sd.max(row.share * reading.value.abs()))
}
