//! Three readings of one rim, fused into one value with its doubt.
//!
//! `cargo run -p measurement --example three_readings_fused`

use measurement::{Corrected, Method, Modality, Phase, Quantity, Reading, ReadingId, Side, fuse};

/// Readings this many combined standard deviations apart are in dispute.
const DISPUTE_LIMIT: f64 = 3.0;

fn main() {
    let read = [
        ("first", Modality::TransthoracicEcho, 2.1, 0.5),
        ("second", Modality::TransoesophagealEcho, 2.6, 0.3),
        ("third", Modality::ThreeDimensionalEcho, 4.4, 0.4),
    ];
    let readings = read.map(|(id, modality, value, sd)| Reading {
        id: ReadingId(id.to_owned()),
        quantity: Quantity::AORTIC_RIM,
        value,
        sd: Some(sd),
        modality,
        side: Side::Left,
        phase: Phase::EndDiastole,
        method: Method::EdgeToEdge,
        image: None,
        set_aside: None,
    });
    // No method's bias is known here, so each value stands as it was entered.
    let corrected: Vec<Corrected> = readings
        .iter()
        .map(|reading| Corrected {
            reading,
            value: reading.value,
            sd: reading.sd.unwrap_or_default(),
        })
        .collect();
    let Some(fused) = fuse(&corrected, DISPUTE_LIMIT) else {
        return;
    };
    println!("{}", Quantity::AORTIC_RIM.info().label);
    for (one, weight) in corrected.iter().zip(&fused.weights) {
        let id = &one.reading.id.0;
        println!(
            "  {id:<8}{:.1} ± {:.1} mm, weight {weight:.2}",
            one.value, one.sd
        );
    }
    println!("  fused   {:.1} ± {:.1} mm", fused.value, fused.sd);
    if let Some(dispute) = fused.dispute {
        let apart = dispute.separation;
        println!(
            "  {} and {} are {apart:.1} SD apart",
            dispute.first.0, dispute.second.0
        );
    }
}
