//! The files that come with the program, each its name and text.

/// A scenario's name and text.
macro_rules! ship {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../scenarios/", $name)))
    };
}

/// A lesson's name and text.
macro_rules! ship_lesson {
    ($name:literal) => {
        (
            $name,
            include_str!(concat!("../../../scenarios/lessons/", $name)),
        )
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
    ship!("twice-the-weight.ron"),
    ship!("unmeasured-rim.ron"),
    ship!("year-of-follow-up.ron"),
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

/// The lessons, in their order of difficulty.
pub const LESSONS: &[(&str, &str)] = &[
    ship_lesson!("wide-disc.ron"),
    ship_lesson!("too-small-too-large.ron"),
    ship_lesson!("jet-or-edges.ron"),
    ship_lesson!("two-readings.ron"),
    ship_lesson!("slit-perimeter.ron"),
    ship_lesson!("short-waist.ron"),
    ship_lesson!("offset-disc.ron"),
    ship_lesson!("clear-valves.ron"),
    ship_lesson!("prolapse.ron"),
    ship_lesson!("infant-outflow.ron"),
    ship_lesson!("artery-or-vein.ron"),
    ship_lesson!("can-and-should.ron"),
    ship_lesson!("inside-as-measured.ron"),
    ship_lesson!("no-size-fits.ron"),
    ship_lesson!("measured-until-it-fits.ron"),
    ship_lesson!("first-touches.ron"),
    ship_lesson!("three-touch.ron"),
    ship_lesson!("short-view.ron"),
    ship_lesson!("trivial-leak.ron"),
    ship_lesson!("four-and-ten.ron"),
    ship_lesson!("resistance.ron"),
    ship_lesson!("small-ventricle.ron"),
    ship_lesson!("malaligned.ron"),
    ship_lesson!("not-measured.ron"),
];

/// The lesson of a name, with or without its ending.
pub fn lesson(name: &str) -> Option<(&'static str, &'static str)> {
    named(LESSONS, name)
}

/// The scenario of a name, with or without its ending.
pub fn scenario(name: &str) -> Option<(&'static str, &'static str)> {
    named(SCENARIOS, name)
}

fn named(
    files: &[(&'static str, &'static str)],
    name: &str,
) -> Option<(&'static str, &'static str)> {
    let mut files = files.iter().copied();
    files.find(|(known, _)| *known == name || known.strip_suffix(".ron") == Some(name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// The files of a folder beside the crates, by their names.
    fn on_disk(folder: &str) -> BTreeSet<String> {
        let folder = format!("{}/../../{folder}", env!("CARGO_MANIFEST_DIR"));
        std::fs::read_dir(folder)
            .unwrap()
            .map(Result::unwrap)
            .filter(|entry| entry.file_type().unwrap().is_file())
            .map(|entry| entry.file_name().into_string().unwrap())
            .collect()
    }

    fn is_shipped_once(files: &[(&str, &str)], folder: &str) {
        let shipped: BTreeSet<String> = files.iter().map(|(name, _)| (*name).to_owned()).collect();
        assert_eq!(shipped, on_disk(folder));
        assert_eq!(shipped.len(), files.len());
    }

    #[test]
    fn every_scenario_of_the_folder_is_shipped_once() {
        is_shipped_once(SCENARIOS, "scenarios");
    }

    #[test]
    fn every_lesson_of_the_folder_is_shipped_once_and_in_order() {
        is_shipped_once(LESSONS, "scenarios/lessons");
        let order = LESSONS.iter().map(|(name, text)| {
            let file = crate::parse_lesson(name, text);
            file.unwrap_or_else(|faults| panic!("{faults:?}"))
                .into_value()
                .lesson
                .order
        });
        assert!(order.eq(1..=u32::try_from(LESSONS.len()).unwrap()));
    }
}
