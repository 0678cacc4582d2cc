/// A figure worked out from what was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Figure {
    /// Weight.
    Weight,
    /// Age.
    Age,
    /// Body surface.
    BodySurface,
    /// Saturation of mixed venous blood.
    MixedVenous,
    /// Pulmonary over systemic flow: the best way there is.
    QpQs,
    /// The same by saturations.
    QpQsBySaturations,
    /// The same by Doppler.
    QpQsByDoppler,
    /// Pulmonary flow, indexed.
    PulmonaryFlow,
    /// Systemic flow, indexed.
    SystemicFlow,
    /// Effective flow, indexed.
    EffectiveFlow,
    /// Shunt from left to right, indexed.
    LeftToRight,
    /// Shunt from right to left, indexed.
    RightToLeft,
    /// Pulmonary resistance, indexed.
    PulmonaryResistanceIndexed,
    /// Pulmonary resistance of the whole body.
    PulmonaryResistance,
    /// Systemic resistance, indexed.
    SystemicResistanceIndexed,
    /// Pulmonary over systemic resistance.
    ResistanceRatio,
    /// Mean pulmonary arterial pressure once the shunt is gone.
    PressureAfterClosing,
    /// Systolic pressure of the lungs over that of the body.
    PressureRatio,
    /// Right ventricular systolic pressure from the jet through the defect.
    PressureBehindDefect,
    /// Right ventricular systolic pressure from tricuspid regurgitation.
    PressureBeforeTricuspidJet,
    /// Flow that the hole lets through.
    FlowThroughHole,
    /// The shunt as a flow of this body.
    Shunt,
    /// The shunt over the flow that the hole lets through.
    ShuntOverHole,
    /// Left ventricle, z-score.
    LeftVentricleZ,
    /// Left atrium, z-score.
    LeftAtriumZ,
    /// Aortic annulus, z-score.
    AorticAnnulusZ,
    /// Pulmonary annulus, z-score.
    PulmonaryAnnulusZ,
    /// Mitral annulus, z-score.
    MitralAnnulusZ,
    /// Tricuspid annulus, z-score.
    TricuspidAnnulusZ,
}

/// What is known of a figure before it is worked out.
#[derive(Debug)]
pub struct FigureInfo {
    /// The figure.
    pub figure: Figure,
    /// A short name, the same in every run.
    pub id: &'static str,
    /// Its name in a sentence.
    pub label: &'static str,
    /// Its unit; empty for a ratio.
    pub unit: &'static str,
    /// Decimals that are shown.
    pub decimals: usize,
    /// What it is worked out from.
    pub needs: &'static str,
    /// Formula and source.
    pub source: &'static str,
}

const FICK: &str = "oxygen uptake over the step of content (Fick)";
const LOPEZ: &str = "Lopez 2017, doi 10.1161/CIRCIMAGING.117.006979, surface by Haycock";

impl Figure {
    /// How many figures there are.
    pub const COUNT: usize = Self::ALL.len();

    /// Its place in the list of figures.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// What is known of it.
    pub fn info(self) -> &'static FigureInfo {
        const ALL: &[FigureInfo] = &Figure::ALL;
        &ALL[self.index()]
    }

    /// Every figure, each at its own index.
    pub const ALL: [FigureInfo; 29] = [
        row(
            Self::Weight,
            "weight",
            "weight",
            "kg",
            1,
            "the weight",
            "as read",
        ),
        row(Self::Age, "age", "age", "years", 2, "the age", "as read"),
        row(
            Self::BodySurface,
            "body_surface",
            "body surface",
            "m²",
            3,
            "weight and height",
            "0.024265 W^0.5378 H^0.3964 (Haycock 1978)",
        ),
        row(
            Self::MixedVenous,
            "mixed_venous",
            "mixed venous saturation",
            "%",
            1,
            "the saturation that the house takes for it",
            "before the shunt; the choice is the house's",
        ),
        row(
            Self::QpQs,
            "qp_qs",
            "Qp:Qs",
            "",
            2,
            "saturations, or flows by Doppler, or a Qp:Qs read",
            "the first there is of: saturations or contents, Doppler, as read",
        ),
        row(
            Self::QpQsBySaturations,
            "qp_qs_by_saturations",
            "Qp:Qs by saturations",
            "",
            2,
            "saturations of aorta, mixed venous, pulmonary vein and pulmonary artery",
            "(Ao − MV) / (PV − PA)",
        ),
        row(
            Self::QpQsByDoppler,
            "qp_qs_by_doppler",
            "Qp:Qs by Doppler",
            "",
            2,
            "diameter and velocity integral of both outflows",
            "area × velocity integral, pulmonary over aortic",
        ),
        row(
            Self::PulmonaryFlow,
            "pulmonary_flow",
            "pulmonary flow",
            "L/min/m²",
            1,
            "oxygen uptake, haemoglobin and four saturations",
            FICK,
        ),
        row(
            Self::SystemicFlow,
            "systemic_flow",
            "systemic flow",
            "L/min/m²",
            1,
            "oxygen uptake, haemoglobin and four saturations",
            FICK,
        ),
        row(
            Self::EffectiveFlow,
            "effective_flow",
            "effective flow",
            "L/min/m²",
            1,
            "oxygen uptake, haemoglobin and four saturations",
            FICK,
        ),
        row(
            Self::LeftToRight,
            "left_to_right",
            "shunt, left to right",
            "L/min/m²",
            1,
            "flows",
            "Qp − effective flow",
        ),
        row(
            Self::RightToLeft,
            "right_to_left",
            "shunt, right to left",
            "L/min/m²",
            1,
            "flows",
            "Qs − effective flow",
        ),
        row(
            Self::PulmonaryResistanceIndexed,
            "pulmonary_resistance_indexed",
            "pulmonary resistance, indexed",
            "WU·m²",
            1,
            "mean pressures of pulmonary artery and left atrium or wedge, and pulmonary flow",
            "fall of mean pressure over indexed flow",
        ),
        row(
            Self::PulmonaryResistance,
            "pulmonary_resistance",
            "pulmonary resistance, absolute",
            "WU",
            1,
            "mean pressures of pulmonary artery and left atrium or wedge, pulmonary flow and body surface",
            "fall of mean pressure over flow",
        ),
        row(
            Self::SystemicResistanceIndexed,
            "systemic_resistance_indexed",
            "systemic resistance, indexed",
            "WU·m²",
            1,
            "mean pressures of aorta and right atrium, and systemic flow",
            "fall of mean pressure over indexed flow",
        ),
        row(
            Self::ResistanceRatio,
            "resistance_ratio",
            "Rp:Rs",
            "",
            2,
            "both resistances, or mean pressures and Qp:Qs",
            "fall of pressure in lungs over body, divided by Qp:Qs",
        ),
        row(
            Self::PressureAfterClosing,
            "pressure_after_closing",
            "pulmonary mean pressure if Qp were Qs",
            "mmHg",
            0,
            "pulmonary resistance, systemic flow and left atrial pressure",
            "left atrial + resistance × Qs; resistance and left atrial pressure as they are",
        ),
        row(
            Self::PressureRatio,
            "pressure_ratio",
            "lungs' systolic pressure over the body's",
            "",
            2,
            "systolic pressures of pulmonary artery or right ventricle, and of aorta or left ventricle",
            "pulmonary artery, else right ventricle, over aorta, else left ventricle",
        ),
        row(
            Self::PressureBehindDefect,
            "pressure_behind_defect",
            "right ventricle, systolic, by the defect's jet",
            "mmHg",
            0,
            "the defect's jet and a systemic pressure",
            "systemic systolic − 4 v² (Rao 2022, doi 10.20517/2574-1209.2021.91)",
        ),
        row(
            Self::PressureBeforeTricuspidJet,
            "pressure_before_tricuspid_jet",
            "right ventricle, systolic, by tricuspid jet",
            "mmHg",
            0,
            "the tricuspid jet and a right atrial pressure",
            "right atrial mean + 4 v² (Rao 2022, doi 10.20517/2574-1209.2021.91)",
        ),
        row(
            Self::FlowThroughHole,
            "flow_through_hole",
            "flow the hole lets through",
            "L/min",
            2,
            "axes of the throat and both ventricles' systolic pressures, or the jet",
            "orifice equation; share of systole, mean gradient and discharge assumed",
        ),
        row(
            Self::Shunt,
            "shunt",
            "shunt, left to right, of this body",
            "L/min",
            2,
            "flows and body surface",
            "(Qp − effective flow) × surface",
        ),
        row(
            Self::ShuntOverHole,
            "shunt_over_hole",
            "shunt over what the hole lets through",
            "",
            1,
            "shunt and flow through the hole",
            "1 where size, gradient and shunt agree",
        ),
        row(
            Self::LeftVentricleZ,
            "left_ventricle_z",
            "left ventricle, end-diastolic, z",
            "",
            1,
            "left ventricular diameter, weight and height",
            LOPEZ,
        ),
        row(
            Self::LeftAtriumZ,
            "left_atrium_z",
            "left atrium, z",
            "",
            1,
            "left atrial diameter, weight and height",
            "Pettersen 2008, surface by Haycock",
        ),
        row(
            Self::AorticAnnulusZ,
            "aortic_annulus_z",
            "aortic annulus, z",
            "",
            1,
            "aortic annulus, weight and height",
            LOPEZ,
        ),
        row(
            Self::PulmonaryAnnulusZ,
            "pulmonary_annulus_z",
            "pulmonary annulus, z",
            "",
            1,
            "pulmonary annulus, weight and height",
            LOPEZ,
        ),
        row(
            Self::MitralAnnulusZ,
            "mitral_annulus_z",
            "mitral annulus, lateral, z",
            "",
            1,
            "mitral annulus, weight and height",
            LOPEZ,
        ),
        row(
            Self::TricuspidAnnulusZ,
            "tricuspid_annulus_z",
            "tricuspid annulus, lateral, z",
            "",
            1,
            "tricuspid annulus, weight and height",
            LOPEZ,
        ),
    ];
}

const fn row(
    figure: Figure,
    id: &'static str,
    label: &'static str,
    unit: &'static str,
    decimals: usize,
    needs: &'static str,
    source: &'static str,
) -> FigureInfo {
    FigureInfo {
        figure,
        id,
        label,
        unit,
        decimals,
        needs,
        source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_stands_at_its_own_index() {
        for (index, info) in Figure::ALL.iter().enumerate() {
            assert_eq!(info.figure.index(), index, "{}", info.id);
        }
    }
}
