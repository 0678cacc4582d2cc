use super::{Bounds, Condition, NamedFigure};
use crate::figures::Figures;
use crate::truth::Truth;
use measurement::{Findings, Site};

/// The bearing of a row of guidance, where it is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// It speaks for closing the defect, in whatever way.
    ForClosing,
    /// It speaks against closing the defect.
    AgainstClosing,
    /// It speaks of the way of closing.
    OfTheWay,
    /// It speaks of what must be found out first.
    Before,
}

/// The cases that a row of guidance speaks of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reach {
    /// The sites; empty for every site.
    pub sites: Vec<Site>,
    /// The weight in kilograms.
    pub weight: Bounds,
    /// The age in years.
    pub age: Bounds,
}

impl Reach {
    /// Whether the row may speak of a case; what was not measured excludes none.
    pub(crate) fn may_hold(&self, site: Site, weight: Option<f64>, age: Option<f64>) -> bool {
        (self.sites.is_empty() || self.sites.contains(&site))
            && weight.is_none_or(|weight| self.weight.hold(weight))
            && age.is_none_or(|age| self.age.hold(age))
    }
}

/// One published limit, in the words of this project.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitRow<M> {
    /// The id of the row, the same in every run.
    pub id: String,
    /// The limit in words.
    pub says: String,
    /// The cases that the row speaks of.
    pub reach: Reach,
    /// The conditions: at least one of each list must hold. Empty where the row is met in
    /// every case it speaks of.
    pub all: Vec<Vec<Condition<M>>>,
    /// What the row speaks of, where it is met.
    pub bearing: Bearing,
    /// The class and level of evidence, where they are published.
    pub class: Option<String>,
    /// The source.
    pub source: String,
    /// Whether the row was written from memory.
    pub from_memory: bool,
}

impl<M: NamedFigure> LimitRow<M> {
    /// Whether a case meets the row.
    pub(crate) fn truth(&self, figures: &Figures, findings: &Findings) -> Truth {
        Truth::all(
            self.all
                .iter()
                .map(|any| Truth::any(any.iter().map(|one| one.holds(figures, findings)))),
        )
    }

    /// The figures and findings that are missing, in words, each once.
    pub(crate) fn unknown(&self, figures: &Figures, findings: &Findings) -> Vec<&'static str> {
        let mut about = Vec::new();
        for one in self.all.iter().flatten() {
            if one.holds(figures, findings) == Truth::NotKnown && !about.contains(&one.about()) {
                about.push(one.about());
            }
        }
        about
    }
}
