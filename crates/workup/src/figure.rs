use measurement::Unit;

/// The name, unit, formula and source of a figure.
#[derive(Debug)]
pub struct FigureInfo {
    /// The figure.
    pub figure: Figure,
    /// The id of the figure, the same in every run.
    pub id: &'static str,
    /// The figure's name in a sentence.
    pub label: &'static str,
    /// The figure's unit.
    pub unit: Unit,
    /// The number of decimals shown.
    pub decimals: usize,
    /// What the figure is worked out from.
    pub needs: &'static str,
    /// Formula and source.
    pub source: &'static str,
}

const FICK: &str = "oxygen uptake over the step of content (Fick)";
const LOPEZ: &str = "Lopez 2017, doi 10.1161/CIRCIMAGING.117.006979, surface by Haycock";

/// The figures with their table. A row gives the variant, id and label, unit and
/// decimals shown; what the figure is worked out from; its formula and source.
macro_rules! figures {
    ($(
        $name:ident = $id:literal, $label:literal, $unit:ident to $decimals:literal decimals;
        needs $needs:literal; by $source:expr;
    )+) => {
        /// A figure that is worked out from readings.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Figure {
            $(#[doc = concat!("`", $id, "`: ", $label, ".")] $name,)+
        }

        impl Figure {
            /// Every figure, each at its own index.
            pub const ALL: &'static [FigureInfo] = &[$(
                FigureInfo {
                    figure: Self::$name,
                    id: $id,
                    label: $label,
                    unit: Unit::$unit,
                    decimals: $decimals,
                    needs: $needs,
                    source: $source,
                },
            )+];
        }
    };
}

figures! {
    Weight = "weight", "weight", Kg to 1 decimals;
        needs "the weight"; by "as measured";
    Age = "age", "age", Years to 2 decimals;
        needs "the age"; by "as measured";
    BodySurface = "body_surface", "body surface", SquareMetres to 3 decimals;
        needs "weight and height"; by "0.024265 W^0.5378 H^0.3964 (Haycock 1978)";
    MixedVenous = "mixed_venous", "mixed venous saturation", Percent to 1 decimals;
        needs "the saturation that your centre takes for it"; by "before the shunt; the choice is your centre's";
    QpQs = "qp_qs", "Qp:Qs", Bare to 2 decimals;
        needs "saturations, or flows by Doppler, or a Qp:Qs measured"; by "the first there is of: saturations or contents, Doppler, as measured";
    QpQsBySaturations = "qp_qs_by_saturations", "Qp:Qs by saturations", Bare to 2 decimals;
        needs "saturations of aorta, mixed venous, pulmonary vein and pulmonary artery"; by "(Ao − MV) / (PV − PA)";
    QpQsByDoppler = "qp_qs_by_doppler", "Qp:Qs by Doppler", Bare to 2 decimals;
        needs "diameter and velocity integral of both outflows"; by "area × velocity integral, pulmonary over aortic";
    PulmonaryFlow = "pulmonary_flow", "pulmonary flow", LPerMinM2 to 1 decimals;
        needs "oxygen uptake, haemoglobin and four saturations"; by FICK;
    SystemicFlow = "systemic_flow", "systemic flow", LPerMinM2 to 1 decimals;
        needs "oxygen uptake, haemoglobin and four saturations"; by FICK;
    EffectiveFlow = "effective_flow", "effective flow", LPerMinM2 to 1 decimals;
        needs "oxygen uptake, haemoglobin and four saturations"; by FICK;
    LeftToRight = "left_to_right", "shunt, left to right", LPerMinM2 to 1 decimals;
        needs "flows"; by "Qp − effective flow";
    RightToLeft = "right_to_left", "shunt, right to left", LPerMinM2 to 1 decimals;
        needs "flows"; by "Qs − effective flow";
    PulmonaryResistanceIndexed = "pulmonary_resistance_indexed", "pulmonary resistance, indexed", WoodM2 to 1 decimals;
        needs "mean pressures of pulmonary artery and left atrium or wedge, and pulmonary flow; or a PVRi that was reported"; by "fall of mean pressure over indexed flow, else as reported";
    PulmonaryResistance = "pulmonary_resistance", "pulmonary resistance, absolute", Wood to 1 decimals;
        needs "mean pressures of pulmonary artery and left atrium or wedge, pulmonary flow and body surface"; by "fall of mean pressure over flow";
    SystemicResistanceIndexed = "systemic_resistance_indexed", "systemic resistance, indexed", WoodM2 to 1 decimals;
        needs "mean pressures of aorta and right atrium, and systemic flow; or an SVRi that was reported"; by "fall of mean pressure over indexed flow, else as reported";
    PulmonaryResistanceReported = "pulmonary_resistance_reported", "pulmonary resistance, indexed, as reported", WoodM2 to 1 decimals;
        needs "a PVRi that was reported"; by "as measured";
    SystemicResistanceReported = "systemic_resistance_reported", "systemic resistance, indexed, as reported", WoodM2 to 1 decimals;
        needs "an SVRi that was reported"; by "as measured";
    ResistanceRatio = "resistance_ratio", "Rp:Rs", Bare to 2 decimals;
        needs "both resistances, or mean pressures and Qp:Qs"; by "fall of pressure in lungs over body, divided by Qp:Qs";
    PressureAfterClosing = "pressure_after_closing", "pulmonary mean pressure if Qp were Qs", MmHg to 0 decimals;
        needs "pulmonary resistance, systemic flow and left atrial pressure"; by "left atrial + resistance × Qs; resistance and left atrial pressure as they are";
    PressureRatio = "pressure_ratio", "pulmonary over systemic systolic pressure", Bare to 2 decimals;
        needs "systolic pressures of pulmonary artery or right ventricle, and of aorta or left ventricle"; by "pulmonary artery, else right ventricle, over aorta, else left ventricle";
    PressureBehindDefect = "pressure_behind_defect", "right ventricle, systolic, by the defect's jet", MmHg to 0 decimals;
        needs "the defect's jet and a systemic pressure"; by "systemic systolic − 4 v² (Rao 2022, doi 10.20517/2574-1209.2021.91)";
    PressureBeforeTricuspidJet = "pressure_before_tricuspid_jet", "right ventricle, systolic, by tricuspid jet", MmHg to 0 decimals;
        needs "the tricuspid jet and a right atrial pressure"; by "right atrial mean + 4 v² (Rao 2022, doi 10.20517/2574-1209.2021.91)";
    FlowThroughHole = "flow_through_hole", "flow the defect lets through", LPerMin to 2 decimals;
        needs "axes of the defect and both ventricles' systolic pressures, or the jet"; by "orifice equation; share of systole, mean gradient and discharge assumed";
    Shunt = "shunt", "shunt, left to right, of this body", LPerMin to 2 decimals;
        needs "flows and body surface"; by "(Qp − effective flow) × surface";
    ShuntOverHole = "shunt_over_hole", "shunt over what the defect lets through", Bare to 1 decimals;
        needs "shunt and flow through the defect"; by "1 where size, gradient and shunt agree";
    LeftVentricleZ = "left_ventricle_z", "left ventricle, end-diastolic, z", Bare to 1 decimals;
        needs "left ventricular diameter, weight and height"; by LOPEZ;
    LeftAtriumZ = "left_atrium_z", "left atrium, z", Bare to 1 decimals;
        needs "left atrial diameter, weight and height"; by "Pettersen 2008, surface by Haycock";
    AorticAnnulusZ = "aortic_annulus_z", "aortic annulus, z", Bare to 1 decimals;
        needs "aortic annulus, weight and height"; by LOPEZ;
    PulmonaryAnnulusZ = "pulmonary_annulus_z", "pulmonary annulus, z", Bare to 1 decimals;
        needs "pulmonary annulus, weight and height"; by LOPEZ;
    MitralAnnulusZ = "mitral_annulus_z", "mitral annulus, lateral, z", Bare to 1 decimals;
        needs "mitral annulus, weight and height"; by LOPEZ;
    TricuspidAnnulusZ = "tricuspid_annulus_z", "tricuspid annulus, lateral, z", Bare to 1 decimals;
        needs "tricuspid annulus, weight and height"; by LOPEZ;
}

impl Figure {
    /// How many figures there are.
    pub const COUNT: usize = Self::ALL.len();

    /// Its index in the list of figures.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// What is known of it.
    pub const fn info(self) -> &'static FigureInfo {
        &Self::ALL[self.index()]
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
