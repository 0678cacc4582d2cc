//! The files that come with the program, each its name and text.

/// A scenario's name and text.
macro_rules! ship {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../scenarios/", $name)))
    };
}

/// The house rules.
pub const HOUSE_RULES: (&str, &str) = (
    "house_rules.ron",
    include_str!("../../../catalogs/house_rules.ron"),
);

/// The catalogue of generic shapes.
pub const SHAPES: (&str, &str) = ("shapes.ron", include_str!("../../../catalogs/shapes.ron"));

/// Published limits, what is to be measured before, and the other ways.
pub const GUIDANCE: (&str, &str) = (
    "guidance.ron",
    include_str!("../../../catalogs/guidance.ron"),
);

/// The name of the scenario that opens where no case is named.
pub const DEMONSTRATION: &str = "three-neighbours.ron";

/// The cases, invented for teaching.
pub const SCENARIOS: &[(&str, &str)] = &[
    ship!("outlet-infant.ron"),
    ship!("perimembranous-shifted-opening.ron"),
    ship!("mid-muscular.ron"),
    ship!("thick-wall.ron"),
    ship!("systolic-reading.ron"),
    ship!("slit.ron"),
    ship!("prolapsing-cusp.ron"),
    ship!("bundle.ron"),
    ship!("unmeasured-rim.ron"),
    ship!("small-defect.ron"),
    ship!("nothing-fits.ron"),
    ship!("contradiction.ron"),
    ship!("apical-small-ventricle.ron"),
    ship!("disputed-readings.ron"),
    ship!("malaligned-septum.ron"),
    ship!("arterial-way.ron"),
    ship!("three-neighbours.ron"),
    ship!("contact-first.ron"),
    ship!("pulled-through.ron"),
    ship!("observation-against-reading.ron"),
    ship!("nothing-left.ron"),
    ship!("gradient-only.ron"),
];

/// The scenario of a name, with or without its ending.
pub fn scenario(name: &str) -> Option<(&'static str, &'static str)> {
    SCENARIOS
        .iter()
        .copied()
        .find(|(known, _)| *known == name || known.strip_suffix(".ron") == Some(name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_scenario_of_the_folder_is_shipped_once() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios");
        let on_disk: BTreeSet<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        let shipped: BTreeSet<String> = SCENARIOS
            .iter()
            .map(|(name, _)| (*name).to_owned())
            .collect();
        assert_eq!(shipped, on_disk);
        assert_eq!(shipped.len(), SCENARIOS.len());
    }
}
