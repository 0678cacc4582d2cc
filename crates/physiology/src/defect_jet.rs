use crate::simplified_bernoulli;
use measurement::{MPerS, MmHg};

/// Whether an obstruction keeps the cuff from the left ventricle's pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Obstruction {
    /// Looked for and not found.
    Absent,
    /// Found.
    Present,
    /// Not looked for.
    Unknown,
}

/// A place between the left ventricle and the cuff where an obstruction may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ObstructionSite {
    /// The left outflow tract or the aortic valve.
    Outflow,
    /// The arch of the aorta.
    Arch,
}

impl ObstructionSite {
    const fn name(self) -> &'static str {
        match self {
            Self::Outflow => "left outflow tract",
            Self::Arch => "aortic arch",
        }
    }
}

/// What is known of obstructions between the left ventricle and the cuff.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LeftSide {
    /// The left outflow tract or the aortic valve.
    pub outflow: Obstruction,
    /// The arch of the aorta, from end to end.
    pub arch: Obstruction,
}

impl LeftSide {
    fn first_site(self, wanted: Obstruction) -> Option<ObstructionSite> {
        self.sites(wanted).next()
    }

    fn sites(self, wanted: Obstruction) -> impl Iterator<Item = ObstructionSite> {
        [
            (self.outflow, ObstructionSite::Outflow),
            (self.arch, ObstructionSite::Arch),
        ]
        .into_iter()
        .filter_map(move |(found, site)| (found == wanted).then_some(site))
    }
}

/// Why the jet through a defect gives no pressure behind it.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum JetRefused {
    /// The cuff does not read the left ventricle's pressure.
    #[error(
        "no right ventricular pressure from the jet: an obstruction of the {} keeps the cuff from \
         the left ventricle's pressure",
        .0.name()
    )]
    Obstructed(ObstructionSite),
    /// The jet's gradient is more than all the pressure there is: one of the two
    /// readings is wrong.
    #[error(
        "the jet's gradient of {:.0} mmHg is more than the systemic pressure of {:.0} mmHg",
        .gradient.value(),
        .systemic.value()
    )]
    GradientOverPressure {
        /// Gradient of the jet, 4 v².
        gradient: MmHg,
        /// Systolic pressure by the cuff.
        systemic: MmHg,
    },
}

/// Right ventricular systolic pressure behind a defect.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BehindDefect {
    /// The pressure; also that of the pulmonary artery where nothing narrows the
    /// way there.
    pub pressure: MmHg,
    /// The jet is slow enough that the defect does not restrict.
    pub unrestrictive: bool,
    left_side: LeftSide,
}

impl BehindDefect {
    /// The sites where an obstruction, which would make the pressure too low, has not
    /// been excluded.
    pub fn not_excluded(&self) -> impl Iterator<Item = ObstructionSite> {
        self.left_side.sites(Obstruction::Unknown)
    }
}

/// Peak velocity under which a defect is held not to restrict: Rao, Vessel Plus
/// 2022;6:24, doi 10.20517/2574-1209.2021.91.
const UNRESTRICTIVE: MPerS = MPerS(2.0);

/// Right ventricular systolic pressure from the jet through the defect:
/// systemic systolic − 4 v² (Rao 2022, table 3).
///
/// Assumes that both peaks fall together, and that the beam lies along the jet:
/// off it the gradient is too low and the pressure too high.
pub fn behind_defect(
    systemic: MmHg,
    jet: MPerS,
    left_side: LeftSide,
) -> Result<BehindDefect, JetRefused> {
    if let Some(site) = left_side.first_site(Obstruction::Present) {
        return Err(JetRefused::Obstructed(site));
    }
    let gradient = simplified_bernoulli(jet);
    if gradient > systemic {
        return Err(JetRefused::GradientOverPressure { gradient, systemic });
    }
    Ok(BehindDefect {
        pressure: systemic - gradient,
        unrestrictive: jet < UNRESTRICTIVE,
        left_side,
    })
}

/// Right ventricular systolic pressure from the jet of tricuspid regurgitation:
/// right atrial + 4 v² (Rao 2022, table 3).
///
/// The defect's own jet into the right atrium must not be taken for it.
pub fn before_tricuspid_jet(right_atrial: MmHg, jet: MPerS) -> MmHg {
    right_atrial + simplified_bernoulli(jet)
}

#[cfg(test)]
mod tests {
    use super::*;

    const FREE: LeftSide = LeftSide {
        outflow: Obstruction::Absent,
        arch: Obstruction::Absent,
    };

    #[test]
    fn an_obstruction_is_refused_and_named() {
        let at = |left_side| behind_defect(MmHg(90.0), MPerS(4.0), left_side).unwrap_err();
        let arch = LeftSide {
            arch: Obstruction::Present,
            ..FREE
        };
        assert_eq!(at(arch), JetRefused::Obstructed(ObstructionSite::Arch));
        assert!(at(arch).to_string().contains("aortic arch"));
        let outflow = LeftSide {
            outflow: Obstruction::Present,
            ..FREE
        };
        assert_eq!(
            at(outflow),
            JetRefused::Obstructed(ObstructionSite::Outflow)
        );
    }

    #[test]
    fn what_was_not_looked_for_is_said() {
        let places = |left_side| {
            let found = behind_defect(MmHg(90.0), MPerS(4.0), left_side).unwrap();
            found.not_excluded().collect::<Vec<_>>()
        };
        assert_eq!(places(FREE), []);
        let unknown = LeftSide {
            outflow: Obstruction::Unknown,
            arch: Obstruction::Unknown,
        };
        assert_eq!(
            places(unknown),
            [ObstructionSite::Outflow, ObstructionSite::Arch]
        );
    }

    #[test]
    fn more_gradient_than_pressure_is_refused() {
        let refused = behind_defect(MmHg(70.0), MPerS(4.5), FREE);
        let wanted = JetRefused::GradientOverPressure {
            gradient: MmHg(81.0),
            systemic: MmHg(70.0),
        };
        assert_eq!(refused, Err(wanted));
    }

    #[test]
    fn a_slow_jet_is_unrestrictive() {
        let slow = |v| {
            behind_defect(MmHg(90.0), MPerS(v), FREE)
                .unwrap()
                .unrestrictive
        };
        assert!(slow(1.9) && !slow(2.0));
    }
}
