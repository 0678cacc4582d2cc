use super::{lopez_2017, outside_z_score_ages, pettersen_2008};
use crate::BodySize;
use measurement::{Feature, Mm, Quantity, Structure, Valve, Years, ZScore};

/// The lengths of one structure in healthy children of one size, and the table that
/// says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualLength {
    /// The shortest within the limit.
    pub low: Mm,
    /// The longest within the limit.
    pub high: Mm,
    /// The table: authors and year.
    pub table: &'static str,
}

/// The lengths of a quantity within so many standard deviations of the mean in
/// healthy children of a body's size. `None` where no table has the quantity, or none
/// covers the child: nothing is extrapolated. Where the table leaves its formula of
/// body surface open, the wider of both.
pub fn usual_length(
    quantity: Quantity,
    limit: ZScore,
    body: BodySize,
    age: Option<Years>,
) -> Option<UsualLength> {
    if age.and_then(outside_z_score_ages).is_some() {
        return None;
    }
    let info = quantity.info();
    let row = match (info.structure, info.feature) {
        (Structure::LeftAtrium, Feature::Diameter) => return left_atrium(limit, body),
        (Structure::LeftVentricle, Feature::Diameter) => lopez_2017::LEFT_VENTRICLE_DIASTOLIC,
        (Structure::Valve(valve), feature) => annulus(valve, feature)?,
        _ => return None,
    };
    let range = row.normal_range(limit, body);
    range.outside.is_none().then_some(UsualLength {
        low: range.value.low,
        high: range.value.high,
        table: "Lopez 2017",
    })
}

/// The table's row of an annulus in the view in which the quantity is measured.
const fn annulus(valve: Valve, feature: Feature) -> Option<lopez_2017::Lopez<Mm>> {
    Some(match (valve, feature) {
        (Valve::Aortic, Feature::Diameter | Feature::DiameterAcross) => lopez_2017::AORTIC_ANNULUS,
        (Valve::Mitral, Feature::Diameter) => lopez_2017::MITRAL_ANNULUS_LATERAL,
        (Valve::Mitral, Feature::DiameterAcross) => lopez_2017::MITRAL_ANNULUS_AP,
        (Valve::Tricuspid, Feature::Diameter) => lopez_2017::TRICUSPID_ANNULUS_LATERAL,
        (Valve::Tricuspid, Feature::DiameterAcross) => lopez_2017::TRICUSPID_ANNULUS_AP,
        (Valve::Pulmonary, Feature::Diameter) => lopez_2017::PULMONARY_ANNULUS_SHORT_AXIS,
        (Valve::Pulmonary, Feature::DiameterAcross) => lopez_2017::PULMONARY_ANNULUS_LONG_AXIS,
        _ => return None,
    })
}

fn left_atrium(limit: ZScore, body: BodySize) -> Option<UsualLength> {
    let either = pettersen_2008::LEFT_ATRIUM.normal_range(limit, body);
    let (one, other) = (either.haycock, either.du_bois);
    (one.outside.is_none() && other.outside.is_none()).then(|| UsualLength {
        low: Mm(one.value.low.value().min(other.value.low.value())),
        high: Mm(one.value.high.value().max(other.value.high.value())),
        table: "Pettersen 2008",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{Cm, Kg};

    fn usual(address: &str, weight: f64, age: f64) -> Option<UsualLength> {
        let body = BodySize {
            weight: Kg(weight),
            height: Cm(53.0),
        };
        let quantity = Quantity::from_address(address).unwrap();
        usual_length(quantity, ZScore(5.0), body, Some(Years(age)))
    }

    #[test]
    fn a_table_that_does_not_cover_the_child_is_not_used() {
        assert!(usual("aortic.diameter", 3.6, 0.2).is_some());
        assert!(usual("left_atrium.diameter", 3.6, 0.2).is_some());
        assert_eq!(usual("aortic.diameter", 1.9, 0.2), None, "too light");
        assert_eq!(usual("aortic.diameter", 3.6, 19.0), None, "an adult");
        assert_eq!(usual("left_outflow.depth", 3.6, 0.2), None, "in no table");
        assert_eq!(usual("aortic.rim", 3.6, 0.2), None, "in no table");
    }

    /// 1.48 ± 5 × 0.14 cm over the root of Haycock's surface, Lopez et al. 2017.
    #[test]
    fn an_aortic_annulus_lies_within_the_tables_deviations() {
        let surface: f64 = 0.024_265 * 3.6_f64.powf(0.5378) * 53.0_f64.powf(0.3964);
        let usual = usual("aortic.diameter", 3.6, 0.2).unwrap();
        let expected = |z: f64| 10.0 * surface.sqrt() * (1.48 + z * 0.14);
        assert!((usual.low.value() - expected(-5.0)).abs() < 1e-9);
        assert!((usual.high.value() - expected(5.0)).abs() < 1e-9);
    }
}
