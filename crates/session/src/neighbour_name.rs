use sizing::Neighbour;

/// A neighbour's name in a sentence.
pub(crate) const fn neighbour(neighbour: Neighbour) -> &'static str {
    match neighbour {
        Neighbour::Valve(valve) => valve.label(),
        Neighbour::LeftOutflow => "left outflow tract",
        Neighbour::RightOutflow => "right outflow tract",
    }
}
