use crate::{NoOxygenStep, Samples};
use measurement::{Percent, Ratio};
use std::fmt;

/// Inspired oxygen above which dissolved oxygen counts: common practice, no source.
pub const SUPPLEMENTAL: Percent = Percent(30.0);

/// Why Qp:Qs by saturations alone may mislead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DissolvedOxygen {
    /// Supplemental oxygen: what is dissolved is not counted, and Qp:Qs comes
    /// out too high.
    Supplemental(Percent),
    /// Inspired oxygen is not known.
    Unknown,
}

impl fmt::Display for DissolvedOxygen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Supplemental(inspired) => write!(
                f,
                "sampled on {:.0} % oxygen: saturations leave out what is dissolved and make Qp:Qs \
                 too high; oxygen tensions are needed",
                inspired.value()
            ),
            Self::Unknown => f.write_str(
                "oxygen breathed in is not known: above 30 % saturations alone make Qp:Qs too high",
            ),
        }
    }
}

/// Qp:Qs by saturations, with a warning where it may mislead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaturationRatio {
    /// Qp:Qs.
    pub qp_qs: Ratio,
    /// Why the ratio may mislead; `None` in room air.
    pub warning: Option<DissolvedOxygen>,
}

/// Qp:Qs = (Ao − MV) / (PV − PA), of saturations; `inspired` is the oxygen
/// breathed in, 21 % in room air.
///
/// Leaves out dissolved oxygen; needs neither uptake nor haemoglobin.
pub fn qp_qs_by_saturations(
    saturations: Samples<Percent>,
    inspired: Option<Percent>,
) -> Result<SaturationRatio, NoOxygenStep> {
    let body = saturations.aorta - saturations.mixed_venous;
    let lungs = saturations.pulmonary_vein - saturations.pulmonary_artery;
    if body <= Percent(0.0) {
        return Err(NoOxygenStep::Body);
    }
    if lungs <= Percent(0.0) {
        return Err(NoOxygenStep::Lungs);
    }
    let warning = match inspired {
        None => Some(DissolvedOxygen::Unknown),
        Some(inspired) if inspired > SUPPLEMENTAL => Some(DissolvedOxygen::Supplemental(inspired)),
        Some(_) => None,
    };
    Ok(SaturationRatio {
        qp_qs: body / lungs,
        warning,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Blood, OxygenConstants, flows, oxygen_content};
    use measurement::{GPerDl, LPerMinM2, MlPerMinM2, MmHg};

    fn saturations() -> Samples<Percent> {
        Samples {
            aorta: Percent(99.0),
            mixed_venous: Percent(70.0),
            pulmonary_vein: Percent(100.0),
            pulmonary_artery: Percent(88.0),
        }
    }

    #[test]
    fn warns_on_supplemental_oxygen_and_where_nobody_knows() {
        let warning = |inspired| {
            let ratio = qp_qs_by_saturations(saturations(), inspired).unwrap();
            ratio.warning
        };
        assert_eq!(warning(Some(Percent(21.0))), None);
        assert_eq!(warning(Some(SUPPLEMENTAL)), None);
        let much = Percent(60.0);
        assert_eq!(
            warning(Some(much)),
            Some(DissolvedOxygen::Supplemental(much))
        );
        assert_eq!(warning(None), Some(DissolvedOxygen::Unknown));
    }

    #[test]
    fn dissolved_oxygen_left_out_makes_the_ratio_too_high() {
        let saturations = saturations();
        let mut tensions = [300.0, 38.0, 500.0, 60.0].into_iter().map(MmHg);
        let contents = saturations.map(|saturation| {
            let tension = tensions.next();
            let blood = Blood {
                saturation,
                tension,
            };
            oxygen_content(GPerDl(11.0), blood, OxygenConstants::USUAL)
        });
        let by_contents: crate::Flows<LPerMinM2> = flows(MlPerMinM2(160.0), contents).unwrap();
        let by_saturations = qp_qs_by_saturations(saturations, Some(Percent(100.0))).unwrap();
        assert!(by_saturations.qp_qs > by_contents.qp_qs());
    }

    #[test]
    fn no_step_no_ratio() {
        let refused = |change: fn(&mut Samples<Percent>)| {
            let mut samples = saturations();
            change(&mut samples);
            qp_qs_by_saturations(samples, None)
        };
        let lungs = refused(|samples| samples.pulmonary_artery = Percent(100.0));
        assert_eq!(lungs, Err(NoOxygenStep::Lungs));
        let body = refused(|samples| samples.mixed_venous = Percent(99.0));
        assert_eq!(body, Err(NoOxygenStep::Body));
    }
}
