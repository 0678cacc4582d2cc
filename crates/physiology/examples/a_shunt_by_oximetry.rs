//! Qp:Qs and indexed pulmonary resistance of an invented infant, by Fick's principle.
//!
//! `cargo run -p physiology --example a_shunt_by_oximetry`

use measurement::{GPerDl, LPerMinM2, MlPerMinM2, MmHg, Percent};
use physiology::{Blood, Flows, OxygenConstants, Samples, flows, oxygen_content, resistance};
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let haemoglobin = GPerDl(12.0);
    let saturations = Samples {
        aorta: Percent(97.0),
        mixed_venous: Percent(68.0),
        pulmonary_vein: Percent(98.0),
        pulmonary_artery: Percent(86.0),
    };
    let contents = saturations.map(|saturation| {
        let blood = Blood::saturated(saturation);
        oxygen_content(haemoglobin, blood, OxygenConstants::USUAL)
    });
    // Uptake was measured and is indexed to body surface, so flows are as well.
    let flows: Flows<LPerMinM2> = flows(MlPerMinM2(160.0), contents)?;
    let pulmonary = resistance(MmHg(28.0), MmHg(9.0), flows.pulmonary)?;
    println!("Qp     {:.1} L/min/m²", flows.pulmonary.value());
    println!("Qs     {:.1} L/min/m²", flows.systemic.value());
    println!("Qp:Qs  {:.1}", flows.qp_qs().value());
    println!("PVRi   {:.1} WU·m²", pulmonary.value());
    Ok(())
}
