use crate::{Ranged, in_range::Span};
use measurement::{Cm, Kg, SquareMetres};

/// The weight and height of a child or an adult.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodySize {
    /// Weight.
    pub weight: Kg,
    /// Height, or length lying.
    pub height: Cm,
}

/// A formula for body surface from weight and height, both above 0.
///
/// The formulas differ by 7 % in a newborn, so a z-score is right only with the formula
/// that its table was fitted with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AreaFormula {
    /// 0.024265 W^0.5378 H^0.3964; made in infants, children and adults.
    Haycock,
    /// √(W H / 3600).
    Mosteller,
    /// 0.007184 W^0.425 H^0.725; made in few, nearly all adults (from memory),
    /// and too low in infants: under 0.7 m² it is marked so.
    DuBois,
    /// 0.0003207 H^0.3 Wg^(0.7285 − 0.0188 log₁₀ Wg), Wg in grams.
    Boyd,
}

static DU_BOIS_AREA: Span = Span {
    input: "body surface by Du Bois",
    unit: "m²",
    least: 0.7,
    most: f64::INFINITY,
    source: "Haycock 1978, from memory",
};

const GRAMS_PER_KG: f64 = 1000.0;

impl AreaFormula {
    /// All formulas.
    pub const ALL: [Self; 4] = [Self::Haycock, Self::Mosteller, Self::DuBois, Self::Boyd];

    /// The name under which the trade knows the formula.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Haycock => "Haycock",
            Self::Mosteller => "Mosteller",
            Self::DuBois => "Du Bois",
            Self::Boyd => "Boyd",
        }
    }

    /// The publication of the formula.
    pub const fn source(self) -> &'static str {
        match self {
            Self::Haycock => "Haycock, J Pediatr 1978;93:62-66 (place from memory)",
            Self::Mosteller => "Mosteller, N Engl J Med 1987;317:1098",
            Self::DuBois => "Du Bois, Arch Intern Med 1916;17:863",
            Self::Boyd => "Boyd 1935",
        }
    }

    /// Body surface, marked where the formula is known not to hold: Du Bois under 0.7 m².
    /// For Haycock, Mosteller and Boyd no limits were found in print.
    pub fn area(self, body: BodySize) -> Ranged<SquareMetres> {
        let w = body.weight.value();
        let h = body.height.value();
        let area = match self {
            Self::Haycock => 0.024_265 * libm::pow(w, 0.5378) * libm::pow(h, 0.3964),
            Self::Mosteller => (w * h / 3600.0).sqrt(),
            Self::DuBois => 0.007_184 * libm::pow(w, 0.425) * libm::pow(h, 0.725),
            Self::Boyd => {
                let grams = w * GRAMS_PER_KG;
                let power = 0.7285 - 0.0188 * libm::log10(grams);
                0.000_320_7 * libm::pow(h, 0.3) * libm::pow(grams, power)
            }
        };
        Ranged {
            value: SquareMetres(area),
            outside: match self {
                Self::DuBois => DU_BOIS_AREA.outside(area),
                Self::Haycock | Self::Mosteller | Self::Boyd => None,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const NEWBORN: BodySize = BodySize {
        weight: Kg(3.5),
        height: Cm(50.0),
    };

    #[test]
    fn only_du_bois_is_marked_in_a_newborn() {
        for formula in AreaFormula::ALL {
            let marked = formula.area(NEWBORN).outside.is_some();
            assert_eq!(marked, formula == AreaFormula::DuBois, "{formula:?}");
        }
    }

    proptest! {
        #[test]
        fn a_larger_body_has_more_surface(
            w in 0.5..120.0_f64, h in 30.0..200.0_f64, more in 1.01..1.5_f64,
        ) {
            let size = |w, h| BodySize { weight: Kg(w), height: Cm(h) };
            for formula in AreaFormula::ALL {
                let area = |w, h| formula.area(size(w, h)).value;
                prop_assert!(area(w * more, h) > area(w, h));
                prop_assert!(area(w, h * more) > area(w, h));
            }
        }
    }
}
