use crate::drawn::Drawn;
use crate::{
    Banner, Input, Limits, Line, Section, contradictions, derived, indication, inputs_used,
    other_ways, published, unmeasured,
};
use measurement::DrawsError;

/// The work-up of a case: the page, as data.
#[derive(Clone, Debug, PartialEq)]
pub struct Workup {
    /// The case's title.
    pub title: String,
    /// The site in words.
    pub site: &'static str,
    /// What stands above a ranking.
    pub banner: Banner,
    /// Its sections, in the order in which they are read.
    pub sections: Vec<Section>,
    /// How many draws its intervals and chances come from; 0: it has none.
    pub draws: usize,
    /// The seed of the draws.
    pub seed: u64,
}

/// What does not add up in a case, with the quantities it rests on: the page's own
/// section alone, for what else rests on them.
pub fn contradicted(
    input: &Input,
    limits: &Limits,
    draws: usize,
    seed: u64,
) -> Result<Vec<Line>, DrawsError> {
    let at = limits.circumstances(input);
    let drawn = Drawn::new(input, &at, draws, seed)?;
    Ok(contradictions::lines(input, limits, &drawn))
}

impl Workup {
    /// The work-up of a case against published limits, with a number of draws
    /// from a seed; 0 draws: values as read alone.
    pub fn new(
        input: &Input,
        limits: &Limits,
        draws: usize,
        seed: u64,
    ) -> Result<Self, DrawsError> {
        let at = limits.circumstances(input);
        let drawn = Drawn::new(input, &at, draws, seed)?;
        let standings = published::standings(input, limits, at.is_adult, &drawn);
        Ok(Self {
            title: input.title.clone(),
            site: input.site.label(),
            banner: indication::banner(&standings),
            sections: vec![
                published::section(&standings, at.is_adult),
                indication::section(input, &at, limits, &drawn),
                unmeasured::section(input, limits),
                contradictions::section(input, limits, &drawn),
                other_ways::section(input, limits),
                derived::section(input, &at, &drawn),
                inputs_used::section(input),
            ],
            draws,
            seed,
        })
    }

    /// The section of a short name.
    pub fn section(&self, id: &str) -> Option<&Section> {
        self.sections.iter().find(|section| section.id == id)
    }
}
