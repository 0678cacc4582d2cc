//! Z-scores by Pettersen, by both formulas of body surface.
//!
//! ln(mean in cm) = b0 + b1 B + b2 B² + b3 B³ and Z = (ln x − ln mean) / √MSE,
//! natural logarithms, B the body surface up to 2.0 m²: Pettersen et al., J Am
//! Soc Echocardiogr 2008;21:922-934, doi 10.1016/j.echo.2008.02.006 (from
//! memory); 782 healthy children. Sources disagree whether B is by Haycock or by Du Bois,
//! which are 7 % apart at 3.5 kg, so every answer comes by both.

#![expect(
    clippy::approx_constant,
    reason = "a printed coefficient, 0.318, is near 1/π by chance"
)]

use super::NormalRange;
use crate::{AreaFormula, BodySize, Ranged, in_range::Span};
use measurement::{Mm, SquareMetres, ZScore};

const MM_PER_CM: f64 = 10.0;

static SURFACE: Span = Span {
    input: "body surface",
    unit: "m²",
    least: 0.0,
    most: 2.0,
    source: "Pettersen 2008",
};

/// A pair of answers, one by each formula that may have given the table its surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EitherArea<T> {
    /// The answer with the surface by Haycock.
    pub haycock: T,
    /// The answer with the surface by Du Bois.
    pub du_bois: T,
}

impl<T> EitherArea<T> {
    fn of(body: BodySize, mut answer: impl FnMut(SquareMetres) -> T) -> Self {
        Self {
            haycock: answer(AreaFormula::Haycock.area(body).value),
            du_bois: answer(AreaFormula::DuBois.area(body).value),
        }
    }
}

/// One row of the table: a diameter or a thickness.
#[derive(Clone, Copy, Debug)]
pub struct Pettersen {
    structure: &'static str,
    /// b0 to b3.
    coefficients: [f64; 4],
    /// Mean square error of the logarithm.
    mse: f64,
}

impl Pettersen {
    /// The structure, and how it is measured.
    pub const fn structure(&self) -> &'static str {
        self.structure
    }

    /// Z-score of a measured size, above 0, in a body.
    pub fn z(&self, size: Mm, body: BodySize) -> EitherArea<Ranged<ZScore>> {
        EitherArea::of(body, |area| self.z_at(size, area))
    }

    /// The size that corresponds to a z-score.
    pub fn size(&self, z: ZScore, body: BodySize) -> EitherArea<Ranged<Mm>> {
        EitherArea::of(body, |area| self.size_at(z, area))
    }

    /// The range of sizes within `limit` standard deviations of the median.
    pub fn normal_range(
        &self,
        limit: ZScore,
        body: BodySize,
    ) -> EitherArea<Ranged<NormalRange<Mm>>> {
        let limit = limit.value();
        EitherArea::of(body, |area| {
            let size = |z| self.size_at(ZScore(z), area).value;
            self.size_at(ZScore(0.0), area).map(|middle| NormalRange {
                low: size(-limit),
                middle,
                high: size(limit),
            })
        })
    }

    /// Z-score at a surface by the caller's choice of formula.
    pub fn z_at(&self, size: Mm, area: SquareMetres) -> Ranged<ZScore> {
        self.log_median(area).map(|median| {
            let log = libm::log(size.value() / MM_PER_CM);
            ZScore((log - median) / self.mse.sqrt())
        })
    }

    /// The size that corresponds to a z-score, at a surface by the caller's choice of
    /// formula.
    pub fn size_at(&self, z: ZScore, area: SquareMetres) -> Ranged<Mm> {
        self.log_median(area)
            .map(|median| Mm(libm::exp(median + z.value() * self.mse.sqrt()) * MM_PER_CM))
    }

    /// Logarithm of the median in centimetres.
    fn log_median(&self, area: SquareMetres) -> Ranged<f64> {
        let b = area.value();
        let [b0, b1, b2, b3] = self.coefficients;
        Ranged {
            value: b0 + b1 * b + b2 * b * b + b3 * b * b * b,
            outside: SURFACE.outside(b),
        }
    }
}

/// Rows, each a constant, and all of them in a list.
macro_rules! rows {
    ($($name:ident = $structure:literal, $coefficients:expr, $mse:literal;)+) => {
        $(
            #[doc = concat!("The ", $structure, ".")]
            pub const $name: Pettersen = Pettersen {
                structure: $structure,
                coefficients: $coefficients,
                mse: $mse,
            };
        )+

        /// All rows.
        pub const ALL: &[Pettersen] = &[$($name),+];
    };
}

rows! {
    RIGHT_VENTRICLE_DIASTOLIC = "right ventricle, diastolic, M-mode", [-0.317, 1.850, -1.274, 0.335], 0.058;
    SEPTUM_DIASTOLIC = "septum, diastolic, M-mode", [-1.242, 1.272, -0.762, 0.208], 0.046;
    SEPTUM_SYSTOLIC = "septum, systolic, M-mode", [-1.048, 1.751, -1.177, 0.318], 0.034;
    LEFT_VENTRICLE_DIASTOLIC = "left ventricle, diastolic, M-mode", [0.105, 2.859, -2.119, 0.552], 0.010;
    LEFT_VENTRICLE_SYSTOLIC = "left ventricle, systolic, M-mode", [-0.371, 2.833, -2.081, 0.538], 0.016;
    POSTERIOR_WALL_DIASTOLIC = "left ventricular posterior wall, diastolic, M-mode", [-1.586, 1.849, -1.188, 0.313], 0.037;
    POSTERIOR_WALL_SYSTOLIC = "left ventricular posterior wall, systolic, M-mode", [-0.947, 1.907, -1.259, 0.330], 0.023;
    AORTIC_ANNULUS = "aortic annulus", [-0.874, 2.708, -1.841, 0.452], 0.010;
    AORTIC_SINUS = "aortic sinus", [-0.500, 2.537, -1.707, 0.420], 0.012;
    SINOTUBULAR_JUNCTION = "sinotubular junction", [-0.759, 2.643, -1.797, 0.442], 0.018;
    TRANSVERSE_ARCH = "transverse arch", [-0.790, 3.020, -2.484, 0.712], 0.023;
    ISTHMUS = "aortic isthmus", [-1.072, 2.539, -1.627, 0.368], 0.027;
    DISTAL_ARCH = "distal arch", [-0.976, 2.469, -1.746, 0.445], 0.026;
    AORTA_AT_DIAPHRAGM = "aorta at the diaphragm", [-0.922, 2.100, -1.411, 0.371], 0.018;
    PULMONARY_ANNULUS = "pulmonary annulus", [-0.761, 2.774, -1.808, 0.436], 0.023;
    MAIN_PULMONARY_ARTERY = "main pulmonary artery", [-0.707, 2.746, -1.807, 0.424], 0.024;
    RIGHT_PULMONARY_ARTERY = "right pulmonary artery", [-1.360, 3.394, -2.508, 0.660], 0.027;
    LEFT_PULMONARY_ARTERY = "left pulmonary artery", [-1.348, 2.884, -1.954, 0.466], 0.028;
    MITRAL_ANNULUS = "mitral annulus", [-0.271, 2.446, -1.700, 0.425], 0.022;
    TRICUSPID_ANNULUS = "tricuspid annulus", [-0.164, 2.341, -1.596, 0.387], 0.036;
    LEFT_ATRIUM = "left atrium", [-0.208, 2.164, -1.597, 0.429], 0.020;
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::{Cm, Kg};
    use proptest::prelude::*;

    #[test]
    fn the_open_question_moves_the_answer_in_a_newborn() {
        let body = BodySize {
            weight: Kg(3.5),
            height: Cm(50.0),
        };
        let z = LEFT_ATRIUM.z(Mm(15.0), body);
        assert!(z.du_bois.value > z.haycock.value);
    }

    #[test]
    fn a_surface_over_two_square_metres_is_said() {
        let at = |area| LEFT_ATRIUM.z_at(Mm(30.0), SquareMetres(area)).outside;
        assert_eq!(at(2.0), None);
        assert!(at(2.01).is_some());
    }

    proptest! {
        #[test]
        fn a_size_comes_back_from_its_z(z in -5.0..8.0_f64, area in 0.1..2.0_f64) {
            for row in ALL {
                let size = row.size_at(ZScore(z), SquareMetres(area)).value;
                let back = row.z_at(size, SquareMetres(area)).value;
                // Rounding of exp and log over the least √MSE, 0.1.
                prop_assert!((back.value() - z).abs() < 1e-12, "{}", row.structure());
            }
        }

        #[test]
        fn z_rises_with_size(size in 2.0..30.0_f64, more in 1.01..2.0_f64, area in 0.1..2.0_f64) {
            for row in ALL {
                let z = |size| row.z_at(Mm(size), SquareMetres(area)).value;
                prop_assert!(z(size * more) > z(size));
            }
        }
    }
}
