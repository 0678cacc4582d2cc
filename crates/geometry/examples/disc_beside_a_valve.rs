//! The clearance of a disc from the aortic hinge as the rim grows, and one of them
//! drawn in section as SVG.
//!
//! `cargo run -p geometry --example disc_beside_a_valve > disc.svg`

use geometry::{
    Accuracy, AnnulusPlate, Ellipse, Face, HingedPlate, Mm, Opening, SeatedDisc, Tilt, Vec2,
    clearance::signed_clearance, degrees,
};

/// A disc of 11 mm flat on the left face, its centre over the defect.
const DISC: SeatedDisc = SeatedDisc {
    face: Face::Left,
    radius: 5.5,
    thickness: 0.8,
    stand_off: 0.0,
    centre: Vec2::ZERO,
    tilt: Tilt::NONE,
};

/// The left opening of a round defect of 5 mm.
const OPENING: Opening = Opening {
    centre: Vec2::ZERO,
    edge: Ellipse::circle(2.5),
};

fn main() {
    for rim in [2.0, 3.0, 4.0, 5.0] {
        let valve = aortic_annulus(rim);
        let clearance = signed_clearance(&DISC, &valve, Accuracy::DEFAULT);
        eprintln!("rim {rim:.1} mm: clearance {clearance:+.1} mm");
    }
    print!("{}", section(&aortic_annulus(4.0)));
}

/// An annulus of 9 mm, square to the septum at 12 o'clock.
fn aortic_annulus(rim: Mm) -> HingedPlate {
    let annulus = AnnulusPlate {
        face: Face::Left,
        clock_position: 0.0,
        rim,
        diameter: 9.0,
        diameter_across: 9.0,
        annulus_angle: degrees(90.0),
        cusp_depth: 0.0,
    };
    annulus.hinged(&OPENING)
}

/// Septum, disc and annulus in the plane through the hinge: the left ventricle on the
/// left, 12 o'clock upward.
fn section(valve: &HingedPlate) -> String {
    const WALL: Mm = 3.0;
    let (radius, thickness) = (DISC.radius, DISC.thickness);
    let (edge, hinge) = (OPENING.edge.semi_major, valve.hinge().u);
    let plate = valve.plate();
    let far = plate.centre + plate.first * plate.semi_first;
    format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="-12 -10 18 20" width="540">
<rect x="0" y="{}" width="{WALL}" height="8" fill="#b5706a"/>
<rect x="0" y="{edge}" width="{WALL}" height="8" fill="#b5706a"/>
<rect x="{}" y="{}" width="{thickness}" height="{}" fill="#556"/>
<line x1="0" y1="{}" x2="{}" y2="{}" stroke="#245" stroke-width="0.3"/>
</svg>
"##,
        -edge - 8.0,
        -thickness,
        -radius,
        2.0 * radius,
        -hinge,
        -far.n,
        -far.u,
    )
}
