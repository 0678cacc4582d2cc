use measurement::Amount;

/// Values of three places upstream of the defect: saturations, or oxygen contents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VenousSamples<T> {
    /// Superior caval vein.
    pub superior_cava: Option<T>,
    /// Inferior caval vein.
    pub inferior_cava: Option<T>,
    /// Right atrium.
    pub right_atrium: Option<T>,
}

/// Which samples stand for mixed venous blood.
///
/// They must be taken upstream of the shunt. In a ventricular defect the right ventricle
/// and the pulmonary artery are therefore no choices.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MixedVenous {
    /// (3 SVC + IVC) / 4, made for shunts between the atria: Flamm, Am J Cardiol
    /// 1969;23:258 (place from memory).
    BothCavae,
    /// The superior caval vein alone.
    SuperiorCava,
    /// The right atrium: wrong where the defect also shunts into it.
    RightAtrium,
}

impl MixedVenous {
    /// All choices.
    pub const ALL: [Self; 3] = [Self::BothCavae, Self::SuperiorCava, Self::RightAtrium];

    /// The name of the choice, which is printed beside every flow.
    pub const fn name(self) -> &'static str {
        match self {
            Self::BothCavae => "(3 SVC + IVC) / 4",
            Self::SuperiorCava => "SVC alone",
            Self::RightAtrium => "right atrium",
        }
    }

    /// The mixed venous value; `None` where a sample it needs was not taken.
    pub fn of<T: Amount>(self, samples: VenousSamples<T>) -> Option<T> {
        match self {
            Self::BothCavae => {
                let superior = samples.superior_cava?.number();
                let inferior = samples.inferior_cava?.number();
                Some(T::of((3.0 * superior + inferior) / 4.0))
            }
            Self::SuperiorCava => samples.superior_cava,
            Self::RightAtrium => samples.right_atrium,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::Percent;

    #[test]
    fn each_choice_needs_its_own_samples() {
        let samples = VenousSamples {
            superior_cava: Some(Percent(65.0)),
            inferior_cava: None,
            right_atrium: Some(Percent(70.0)),
        };
        let found = MixedVenous::ALL.map(|choice| choice.of(samples));
        assert_eq!(found, [None, Some(Percent(65.0)), Some(Percent(70.0))]);
    }
}
