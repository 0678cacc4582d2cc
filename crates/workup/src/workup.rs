use crate::drawn::FigureDraws;
use crate::{
    Banner, Input, Limits, Line, Section, contradictions, derived, indication, inputs_used,
    other_ways, published, unmeasured,
};
use measurement::DrawsError;

/// The work-up of a case: a page of sections, as plain data.
#[derive(Clone, Debug, PartialEq)]
pub struct Workup {
    /// The title of the case.
    pub title: String,
    /// The site in words.
    pub site: &'static str,
    /// The banner above a ranking.
    pub banner: Banner,
    /// The sections in the order of the page.
    pub sections: Vec<Section>,
    /// The number of draws behind intervals and chances; 0 where there are none of these.
    pub draws: usize,
    /// The seed of the draws.
    pub seed: u64,
}

/// The contradictions of a case as lines, each with the quantities it rests on, so that a
/// verdict on the same quantities can be held.
pub fn contradicted(
    input: &Input,
    limits: &Limits,
    draws: usize,
    seed: u64,
) -> Result<Vec<Line>, DrawsError> {
    let at = limits.circumstances(input);
    let drawn = FigureDraws::new(input, &at, draws, seed)?;
    Ok(contradictions::lines(input, limits, &drawn))
}

impl Workup {
    /// The work-up of a case against published limits, with a number of draws
    /// from a seed; with 0 draws only the values as measured.
    pub fn new(
        input: &Input,
        limits: &Limits,
        draws: usize,
        seed: u64,
    ) -> Result<Self, DrawsError> {
        let at = limits.circumstances(input);
        let drawn = FigureDraws::new(input, &at, draws, seed)?;
        let standings = published::standings(input, limits, at.is_adult, &drawn);
        Ok(Self {
            title: input.title.clone(),
            site: input.site.label(),
            banner: indication::banner(&standings),
            sections: vec![
                published::section(&standings, limits, at.is_adult),
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

    /// The section with an id.
    pub fn section(&self, id: &str) -> Option<&Section> {
        self.sections.iter().find(|section| section.id == id)
    }
}
