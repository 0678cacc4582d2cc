use measurement::{GPerDl, MlPerL, MmHg, Percent};

/// Oxygen that a gram of haemoglobin binds: Hüfner's number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hufner {
    /// 1.34 mL/g.
    Ml134,
    /// 1.36 mL/g: what is measured in blood, and usual in the catheter laboratory.
    Ml136,
    /// 1.39 mL/g: pure haemoglobin, from its molecular weight.
    Ml139,
}

impl Hufner {
    /// Every number in use.
    pub const ALL: [Self; 3] = [Self::Ml134, Self::Ml136, Self::Ml139];

    /// The number in mL/g.
    pub(crate) const fn ml_per_g(self) -> f64 {
        match self {
            Self::Ml134 => 1.34,
            Self::Ml136 => 1.36,
            Self::Ml139 => 1.39,
        }
    }

    /// The source of the number.
    pub const fn source(self) -> &'static str {
        match self {
            Self::Ml134 => "Hüfner 1894, from memory",
            Self::Ml136 => {
                "measured 1.368 ± 0.017 mL/g in 36 healthy men: Dijkhuizen 1977, Pflugers Arch \
                 369:223, doi 10.1007/BF00582188; abstract only"
            }
            Self::Ml139 => {
                "by its composition: Dijkhuizen 1977, Pflugers Arch 369:223, doi \
                 10.1007/BF00582188; abstract only"
            }
        }
    }
}

/// Oxygen that dissolves in a litre of blood for each mmHg of its tension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Solubility {
    /// 0.030 mL/L/mmHg: the rounded figure of the catheter laboratory.
    Rounded,
    /// 0.031 mL/L/mmHg: 37 °C, from memory.
    Warm,
}

impl Solubility {
    /// The solubility in mL/L/mmHg.
    pub(crate) const fn ml_per_l_mmhg(self) -> f64 {
        match self {
            Self::Rounded => 0.030,
            Self::Warm => 0.031,
        }
    }
}

/// The constants of blood by which oxygen content is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct OxygenConstants {
    /// Oxygen bound by haemoglobin.
    pub hufner: Hufner,
    /// Oxygen dissolved in blood.
    pub solubility: Solubility,
}

impl OxygenConstants {
    /// The constants usual in the catheter laboratory.
    pub const USUAL: Self = Self {
        hufner: Hufner::Ml136,
        solubility: Solubility::Rounded,
    };
}

/// The saturation and oxygen tension of one sample of blood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blood {
    /// Saturation.
    pub saturation: Percent,
    /// Oxygen tension; without it dissolved oxygen is not counted.
    pub tension: Option<MmHg>,
}

impl Blood {
    /// A sample of which only the saturation was measured.
    pub const fn saturated(saturation: Percent) -> Self {
        Self {
            saturation,
            tension: None,
        }
    }
}

const DL_PER_L: f64 = 10.0;

/// Oxygen that haemoglobin binds when full: haemoglobin × Hüfner's number × 10.
pub fn oxygen_capacity(haemoglobin: GPerDl, hufner: Hufner) -> MlPerL {
    MlPerL(haemoglobin.value() * hufner.ml_per_g() * DL_PER_L)
}

/// Oxygen in the blood, bound and dissolved: capacity × saturation + solubility
/// × tension.
///
/// Leaves out haemoglobin that binds no oxygen.
pub fn oxygen_content(haemoglobin: GPerDl, blood: Blood, constants: OxygenConstants) -> MlPerL {
    let bound =
        oxygen_capacity(haemoglobin, constants.hufner) * (blood.saturation / Percent(100.0));
    let tension = blood.tension.map_or(0.0, MmHg::value);
    bound + MlPerL(constants.solubility.ml_per_l_mmhg() * tension)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dissolved_oxygen_counts_where_the_tension_was_read() {
        let content = |blood| oxygen_content(GPerDl(12.0), blood, OxygenConstants::USUAL).value();
        let air = content(Blood::saturated(Percent(100.0)));
        let oxygen = content(Blood {
            saturation: Percent(100.0),
            tension: Some(MmHg(500.0)),
        });
        // 12 · 1.36 · 10, and 0.03 · 500 on top: more than 9 % of it.
        assert!((air - 163.2).abs() < 1e-12, "{air}");
        assert!((oxygen - air - 15.0).abs() < 1e-12, "{oxygen}");
    }
}
