//! Z-scores of the paediatric heart network, with the surface by Haycock.
//!
//! Z = (X / BSA^a − M) / SD: Lopez et al., Circ Cardiovasc Imaging
//! 2017;10:e006979, doi 10.1161/CIRCIMAGING.117.006979; 3215 healthy children
//! who were not obese. The body goes in, not its surface, so that no other
//! formula's surface can. No left atrium is in this table.

use super::NormalRange;
use crate::{AreaFormula, BodySize, Ranged, in_range::Span};
use measurement::{Amount, Grams, Ml, Mm, Ratio, SquareCm, ZScore};
use std::marker::PhantomData;

/// The citation that stands beside a z-score of this table.
pub const SOURCE: &str = "Lopez 2017, doi 10.1161/CIRCIMAGING.117.006979";

const MM_PER_CM: f64 = 10.0;

static WEIGHT: Span = Span {
    input: "weight",
    unit: "kg",
    least: 2.0,
    most: 122.6,
    source: "Lopez 2017",
};

static HEIGHT: Span = Span {
    input: "height",
    unit: "cm",
    least: 43.2,
    most: 207.2,
    source: "Lopez 2017",
};

/// One row of the table: a structure measured in the unit `T`.
#[derive(Clone, Copy, Debug)]
pub struct Lopez<T> {
    structure: &'static str,
    /// Power of the surface, a.
    power: f64,
    /// Mean M of what is measured over surface to that power.
    mean: f64,
    /// Standard deviation of what is measured over surface to that power.
    sd: f64,
    /// How many `T` make one unit of the table, which prints centimetres, but
    /// coronary arteries in millimetres.
    per_printed: f64,
    unit: PhantomData<T>,
}

impl<T: Amount> Lopez<T> {
    /// The structure, and how it is measured.
    pub const fn structure(&self) -> &'static str {
        self.structure
    }

    /// Z-score of a measured size in a body.
    pub fn z(&self, size: T, body: BodySize) -> Ranged<ZScore> {
        self.scale(body).map(|scale| {
            let indexed = size.number() / scale;
            ZScore((indexed - self.mean) / self.sd)
        })
    }

    /// The size that corresponds to a z-score; not above 0 where z is below −M/SD.
    pub fn size(&self, z: ZScore, body: BodySize) -> Ranged<T> {
        self.scale(body)
            .map(|scale| T::of((self.mean + z.value() * self.sd) * scale))
    }

    /// The range of sizes within `limit` standard deviations of the mean.
    pub fn normal_range(&self, limit: ZScore, body: BodySize) -> Ranged<NormalRange<T>> {
        let size = |z| self.size(ZScore(z), body).value;
        let limit = limit.value();
        self.size(ZScore(0.0), body).map(|middle| NormalRange {
            low: size(-limit),
            middle,
            high: size(limit),
        })
    }

    /// BSA^a in the unit `T`.
    fn scale(&self, body: BodySize) -> Ranged<f64> {
        let area = AreaFormula::Haycock.area(body).value.value();
        Ranged {
            value: libm::pow(area, self.power) * self.per_printed,
            outside: WEIGHT
                .outside(body.weight.value())
                .or_else(|| HEIGHT.outside(body.height.value())),
        }
    }
}

/// Rows of one unit, each a constant, and all of them in a list.
macro_rules! rows {
    (
        $(#[$doc:meta])* $list:ident: $unit:ty;
        $($name:ident = $structure:literal, $power:literal, $mean:literal, $sd:literal, $per:expr;)+
    ) => {
        $(
            #[doc = concat!("The ", $structure, ".")]
            pub const $name: Lopez<$unit> = Lopez {
                structure: $structure,
                power: $power,
                mean: $mean,
                sd: $sd,
                per_printed: $per,
                unit: PhantomData,
            };
        )+

        $(#[$doc])*
        pub const $list: &[Lopez<$unit>] = &[$($name),+];
    };
}

rows! {
    /// All lengths.
    LENGTHS: Mm;
    MITRAL_ANNULUS_AP = "mitral annulus, anteroposterior", 0.50, 2.31, 0.24, MM_PER_CM;
    MITRAL_ANNULUS_LATERAL = "mitral annulus, lateral", 0.50, 2.23, 0.22, MM_PER_CM;
    TRICUSPID_ANNULUS_AP = "tricuspid annulus, anteroposterior", 0.50, 2.36, 0.28, MM_PER_CM;
    TRICUSPID_ANNULUS_LATERAL = "tricuspid annulus, lateral", 0.50, 2.36, 0.29, MM_PER_CM;
    AORTIC_ANNULUS = "aortic annulus", 0.50, 1.48, 0.14, MM_PER_CM;
    AORTIC_SINUS = "aortic sinus", 0.50, 2.06, 0.18, MM_PER_CM;
    SINOTUBULAR_JUNCTION = "sinotubular junction", 0.50, 1.69, 0.16, MM_PER_CM;
    ASCENDING_AORTA = "ascending aorta", 0.50, 1.79, 0.18, MM_PER_CM;
    PROXIMAL_ARCH = "proximal arch", 0.50, 1.53, 0.23, MM_PER_CM;
    DISTAL_ARCH = "distal arch", 0.50, 1.36, 0.19, MM_PER_CM;
    ISTHMUS = "aortic isthmus", 0.50, 1.25, 0.18, MM_PER_CM;
    PULMONARY_ANNULUS_SHORT_AXIS = "pulmonary annulus, short-axis view", 0.50, 1.91, 0.24, MM_PER_CM;
    PULMONARY_ANNULUS_LONG_AXIS = "pulmonary annulus, long-axis view", 0.50, 2.01, 0.28, MM_PER_CM;
    MAIN_PULMONARY_ARTERY = "main pulmonary artery", 0.50, 1.82, 0.24, MM_PER_CM;
    RIGHT_PULMONARY_ARTERY = "right pulmonary artery", 0.50, 1.07, 0.18, MM_PER_CM;
    LEFT_PULMONARY_ARTERY = "left pulmonary artery", 0.50, 1.10, 0.18, MM_PER_CM;
    LEFT_MAIN_CORONARY = "left main coronary artery", 0.45, 2.95, 0.57, 1.0;
    LEFT_ANTERIOR_DESCENDING = "left anterior descending coronary artery", 0.45, 1.90, 0.34, 1.0;
    PROXIMAL_RIGHT_CORONARY = "proximal right coronary artery", 0.45, 2.32, 0.55, 1.0;
    LEFT_VENTRICLE_DIASTOLIC = "left ventricle, end-diastolic diameter, short-axis view", 0.45, 3.89, 0.33, MM_PER_CM;
    POSTERIOR_WALL_DIASTOLIC = "left ventricular posterior wall, end-diastolic", 0.40, 0.57, 0.09, MM_PER_CM;
    SEPTUM_DIASTOLIC = "septum, end-diastolic", 0.40, 0.58, 0.09, MM_PER_CM;
    LEFT_VENTRICLE_LENGTH = "left ventricle, end-diastolic length, endocardial", 0.45, 6.31, 0.46, MM_PER_CM;
    LEFT_VENTRICLE_LENGTH_EPICARDIAL = "left ventricle, end-diastolic length, epicardial", 0.45, 6.87, 0.45, MM_PER_CM;
}
rows! {
    /// All areas.
    AREAS: SquareCm;
    MITRAL_ANNULUS_AREA = "mitral annulus, area", 1.00, 4.06, 0.68, 1.0;
    TRICUSPID_ANNULUS_AREA = "tricuspid annulus, area", 1.00, 4.39, 0.83, 1.0;
    LEFT_VENTRICLE_AREA = "left ventricle, end-diastolic area, endocardial", 0.90, 11.91, 1.89, 1.0;
    LEFT_VENTRICLE_AREA_EPICARDIAL = "left ventricle, end-diastolic area, epicardial", 0.90, 20.00, 2.59, 1.0;
}
rows! {
    /// All volumes.
    VOLUMES: Ml;
    LEFT_VENTRICLE_VOLUME = "left ventricle, end-diastolic volume", 1.30, 62.02, 11.94, 1.0;
    LEFT_VENTRICLE_VOLUME_EPICARDIAL = "left ventricle, end-diastolic epicardial volume", 1.30, 113.14, 17.85, 1.0;
}
rows! {
    /// All masses.
    MASSES: Grams;
    LEFT_VENTRICLE_MASS = "left ventricular mass", 1.25, 53.02, 9.06, 1.0;
}
rows! {
    /// All ratios; they do not scale with the body.
    RATIOS: Ratio;
    LEFT_VENTRICLE_MASS_TO_VOLUME = "left ventricle, mass to volume", 0.0, 0.88, 0.16, 1.0;
    LEFT_VENTRICLE_WALL_TO_DIAMETER = "left ventricle, wall to diameter", 0.0, 0.15, 0.03, 1.0;
    LEFT_VENTRICLE_SPHERICITY = "left ventricle, sphericity", 0.0, 1.63, 0.17, 1.0;
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{Cm, Kg};
    use proptest::prelude::*;

    fn body(weight: f64, height: f64) -> BodySize {
        BodySize {
            weight: Kg(weight),
            height: Cm(height),
        }
    }

    #[test]
    fn a_body_too_small_for_the_table_is_said() {
        let z = |weight, height| AORTIC_ANNULUS.z(Mm(6.0), body(weight, height));
        assert_eq!(z(2.0, 43.2).outside, None);
        assert_eq!(z(1.9, 43.2).outside.unwrap().span.input, "weight");
        assert_eq!(z(2.0, 43.0).outside.unwrap().span.input, "height");
    }

    #[test]
    fn ratios_do_not_scale_with_the_body() {
        let z = |weight| LEFT_VENTRICLE_SPHERICITY.z(Ratio(1.8), body(weight, 70.0));
        assert_eq!(z(5.0), z(9.0));
    }

    proptest! {
        #[test]
        fn a_size_comes_back_from_its_z(
            z in -4.0..8.0_f64, weight in 2.0..100.0_f64, height in 45.0..200.0_f64,
        ) {
            for row in LENGTHS {
                let size = row.size(ZScore(z), body(weight, height)).value;
                let back = row.z(size, body(weight, height)).value;
                // Dividing and multiplying by one power: a few units in the last place.
                prop_assert!((back.value() - z).abs() < 1e-12, "{}", row.structure());
            }
        }

        #[test]
        fn z_rises_with_size_and_falls_with_the_body(
            size in 5.0..30.0_f64, more in 1.01..2.0_f64, weight in 2.0..60.0_f64,
        ) {
            for row in LENGTHS {
                let z = |size, weight| row.z(Mm(size), body(weight, 80.0)).value;
                prop_assert!(z(size * more, weight) > z(size, weight));
                prop_assert!(z(size, weight * more) < z(size, weight));
            }
        }
    }
}
