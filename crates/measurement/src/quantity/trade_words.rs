//! Other names under which reports and operators know a quantity, so that it is
//! found by them.

use super::Quantity;

/// Names of the trade beside a quantity's label. Common practice, no source.
const TRADE_WORDS: &[(Quantity, &str)] = &[
    (
        Quantity::DEFECT_LONG_AXIS,
        "VSD size, defect diameter, maximal diameter, major axis",
    ),
    (
        Quantity::DEFECT_SHORT_AXIS,
        "VSD size, defect diameter, minimal diameter, minor axis",
    ),
    (
        Quantity::DEFECT_VELOCITY,
        "VSD jet, Vmax VSD, interventricular gradient",
    ),
    (Quantity::WALL_THICKNESS, "septal thickness, IVS, IVSd"),
    (
        Quantity::AORTIC_RIM,
        "subaortic rim, aortic margin, distance to the aortic valve",
    ),
    (
        Quantity::AORTIC_CUSP_DEPTH,
        "right coronary cusp, RCC, cusp sagging",
    ),
    (Quantity::AORTIC_DIAMETER, "AoV annulus, aortic annulus"),
    (Quantity::MITRAL_RIM, "distance to the mitral valve"),
    (Quantity::MITRAL_DIAMETER, "MV annulus"),
    (Quantity::MITRAL_LEAFLET, "AML, anterior mitral leaflet"),
    (
        Quantity::TRICUSPID_RIM,
        "septal leaflet distance, distance to the tricuspid valve",
    ),
    (Quantity::TRICUSPID_DIAMETER, "TV annulus"),
    (Quantity::TRICUSPID_LEAFLET, "STL, septal leaflet"),
    (
        Quantity::PULMONARY_RIM,
        "subpulmonary rim, distance to the pulmonary valve",
    ),
    (Quantity::PULMONARY_DIAMETER, "PV annulus"),
    (Quantity::LEFT_OUTFLOW_DEPTH, "LVOT diameter, LVOT"),
    (Quantity::LEFT_OUTFLOW_WIDTH, "LVOT diameter, LVOT"),
    (Quantity::LEFT_OUTFLOW_VELOCITY, "LVOT Vmax, LVOT velocity"),
    (Quantity::RIGHT_OUTFLOW_DEPTH, "RVOT diameter, RVOT"),
    (Quantity::RIGHT_OUTFLOW_WIDTH, "RVOT diameter, RVOT"),
    (Quantity::RIGHT_OUTFLOW_VELOCITY, "RVOT Vmax, RVOT velocity"),
    (Quantity::LEFT_VENTRICLE_LENGTH, "LV length"),
    (Quantity::RIGHT_VENTRICLE_LENGTH, "RV length"),
    (Quantity::LEFT_VENTRICLE_SYSTOLIC, "LV pressure, LVSP"),
    (Quantity::RIGHT_VENTRICLE_SYSTOLIC, "RV pressure, RVSP"),
    (Quantity::RIGHT_VENTRICLE_VELOCITY, "TR jet, TR Vmax"),
    (Quantity::LEFT_VENTRICLE_DIASTOLIC, "LVEDP"),
    (Quantity::RIGHT_VENTRICLE_DIASTOLIC, "RVEDP"),
    (Quantity::LEFT_VENTRICLE_DIAMETER, "LVEDD, LVIDd, LV size"),
    (Quantity::LEFT_ATRIUM_DIAMETER, "LA diameter, LA size"),
    (Quantity::FLOW_QP_QS, "QpQs, Qp/Qs, shunt ratio"),
    (
        Quantity::PULMONARY_RESISTANCE_INDEXED,
        "PVRi, PVR, Rp, resistance",
    ),
    (
        Quantity::SYSTEMIC_RESISTANCE_INDEXED,
        "SVRi, SVR, Rs, resistance",
    ),
    (Quantity::VEIN_DIAMETER, "CFV, femoral vein, access"),
    (Quantity::ARTERY_DIAMETER, "CFA, femoral artery, access"),
    (Quantity::PATIENT_WEIGHT, "kg, body weight"),
    (Quantity::PATIENT_HEIGHT, "length, body height, cm"),
    (Quantity::PATIENT_HEART_RATE, "HR, pulse"),
    (Quantity::PATIENT_OXYGEN_UPTAKE, "VO2"),
    (Quantity::PATIENT_INSPIRED_OXYGEN, "FiO2"),
    (Quantity::BLOOD_HAEMOGLOBIN, "Hb, Hgb, hemoglobin"),
    (
        Quantity::SUPERIOR_VENA_CAVA_SATURATION,
        "SVC sat, mixed venous",
    ),
    (
        Quantity::INFERIOR_VENA_CAVA_SATURATION,
        "IVC sat, mixed venous",
    ),
    (Quantity::RIGHT_ATRIUM_SATURATION, "RA sat"),
    (Quantity::RIGHT_VENTRICLE_SATURATION, "RV sat"),
    (Quantity::PULMONARY_ARTERY_SATURATION, "PA sat"),
    (Quantity::PULMONARY_VEIN_SATURATION, "PV sat"),
    (Quantity::LEFT_ATRIUM_SATURATION, "LA sat"),
    (Quantity::LEFT_VENTRICLE_SATURATION, "LV sat"),
    (Quantity::AORTA_SATURATION, "Ao sat, SaO2, SpO2"),
    (Quantity::PULMONARY_VEIN_OXYGEN_TENSION, "pO2"),
    (Quantity::PULMONARY_ARTERY_OXYGEN_TENSION, "pO2"),
    (Quantity::AORTA_OXYGEN_TENSION, "pO2, PaO2"),
    (Quantity::SUPERIOR_VENA_CAVA_OXYGEN_TENSION, "pO2"),
    (Quantity::RIGHT_ATRIUM_MEAN, "RAP, RA pressure, CVP"),
    (Quantity::LEFT_ATRIUM_MEAN, "LAP, LA pressure, PVR, PVRi"),
    (
        Quantity::PULMONARY_ARTERY_SYSTOLIC,
        "PAP, PASP, PA pressure",
    ),
    (
        Quantity::PULMONARY_ARTERY_DIASTOLIC,
        "PAP, PADP, PA pressure",
    ),
    (
        Quantity::PULMONARY_ARTERY_MEAN,
        "PAP, mPAP, PA pressure, PVR, PVRi",
    ),
    (
        Quantity::PULMONARY_WEDGE_MEAN,
        "PCWP, PAWP, wedge, PVR, PVRi",
    ),
    (Quantity::AORTA_SYSTOLIC, "BP, blood pressure, SBP"),
    (Quantity::AORTA_DIASTOLIC, "BP, blood pressure, DBP"),
    (Quantity::AORTA_MEAN, "BP, blood pressure, MAP, SVR, SVRi"),
    (Quantity::ARCH_GRADIENT, "coarctation, CoA"),
    (Quantity::AORTA_VELOCITY_INTEGRAL, "LVOT VTI, aortic VTI"),
    (
        Quantity::PULMONARY_ARTERY_VELOCITY_INTEGRAL,
        "RVOT VTI, pulmonary VTI",
    ),
    (Quantity::AORTA_DIAMETER, "LVOT diameter for VTI"),
    (Quantity::PULMONARY_ARTERY_DIAMETER, "RVOT diameter for VTI"),
];

impl Quantity {
    /// Other names of the quantity, separated by commas; empty where the label is
    /// the one in use.
    pub fn trade_words(self) -> &'static str {
        let mut rows = TRADE_WORDS.iter();
        let row = rows.find(|(quantity, _)| *quantity == self);
        row.map_or("", |(_, words)| words)
    }

    /// The quantities that words name: each word must stand in the label, the
    /// address or the trade words. Those of which a trade word or the label begins
    /// so stand first; otherwise the order is the table's. No words name nothing.
    pub fn named_by(words: &str) -> Vec<Self> {
        let wanted = plain(words);
        if wanted.is_empty() {
            return Vec::new();
        }
        let mut found: Vec<(bool, Self)> = Self::all()
            .filter_map(|quantity| {
                let names = quantity.names();
                let all = names.join(" ");
                let is_named = wanted.split(' ').all(|word| all.contains(word));
                let tight = wanted.replace(' ', "");
                let begins = |name: &String| name.replace(' ', "").starts_with(&tight);
                let is_first = names.iter().any(begins);
                (is_named || is_first).then_some((!is_first, quantity))
            })
            .collect();
        found.sort_by_key(|(is_later, _)| *is_later);
        found.into_iter().map(|(_, quantity)| quantity).collect()
    }

    /// Its label, address and trade words as they are compared.
    fn names(self) -> Vec<String> {
        let words = self.trade_words().split(", ");
        let all = [self.label(), self.address()].into_iter().chain(words);
        all.map(plain).filter(|name| !name.is_empty()).collect()
    }
}

/// Letters and digits in lower case, with one space for all between them.
fn plain(text: &str) -> String {
    let lower = text.to_lowercase();
    let words = lower.split(|letter: char| !letter.is_alphanumeric());
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_report_s_words_find_what_they_mean() {
        let first = |words: &str| Quantity::named_by(words).first().copied();
        assert_eq!(first("TR jet"), Some(Quantity::RIGHT_VENTRICLE_VELOCITY));
        assert_eq!(first("LVEDD"), Some(Quantity::LEFT_VENTRICLE_DIAMETER));
        assert_eq!(first("QpQs"), Some(Quantity::FLOW_QP_QS));
        assert_eq!(first("qp:qs"), Some(Quantity::FLOW_QP_QS));
        assert_eq!(first("Qp/Qs"), Some(Quantity::FLOW_QP_QS));
        assert_eq!(first("PVR"), Some(Quantity::PULMONARY_RESISTANCE_INDEXED));
        assert_eq!(first("SVRi"), Some(Quantity::SYSTEMIC_RESISTANCE_INDEXED));
        assert_eq!(first("aortic rim"), Some(Quantity::AORTIC_RIM));
        assert_eq!(first("wedge"), Some(Quantity::PULMONARY_WEDGE_MEAN));
        assert_eq!(first("hgb"), Some(Quantity::BLOOD_HAEMOGLOBIN));
    }

    #[test]
    fn every_quantity_is_found_by_its_own_label() {
        for quantity in Quantity::all() {
            assert_eq!(
                Quantity::named_by(quantity.label()).first(),
                Some(&quantity)
            );
        }
    }

    #[test]
    fn no_words_and_strange_words_name_nothing() {
        for words in ["", "  ", ":/", "xyzzy"] {
            assert_eq!(Quantity::named_by(words), []);
        }
    }

    #[test]
    fn no_quantity_has_two_rows() {
        let mut seen: Vec<Quantity> = TRADE_WORDS.iter().map(|(one, _)| *one).collect();
        seen.sort();
        seen.dedup();
        assert_eq!(seen.len(), TRADE_WORDS.len());
    }
}
