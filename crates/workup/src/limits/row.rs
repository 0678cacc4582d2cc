use super::{Bounds, Condition, Measure};
use crate::figures::Figures;
use crate::truth::Truth;
use measurement::{Findings, Site};

/// What a row that is met speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// For closing the defect by whatever way.
    ForClosing,
    /// Against closing it.
    AgainstClosing,
    /// Of the way it is closed.
    OfTheWay,
    /// Of what is to be found out first.
    Before,
}

/// The cases a row speaks of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reach {
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// The weight in kilograms.
    pub weight: Bounds,
    /// The age in years.
    pub age: Bounds,
}

impl Reach {
    /// Whether it may hold a case: what was not read shuts none out.
    pub fn may_hold(&self, site: Site, weight: Option<f64>, age: Option<f64>) -> bool {
        (self.sites.is_empty() || self.sites.contains(&site))
            && weight.is_none_or(|weight| self.weight.hold(weight))
            && age.is_none_or(|age| self.age.hold(age))
    }
}

/// One published limit, in our words.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitRow<M> {
    /// A short name, the same in every run.
    pub id: String,
    /// What is published.
    pub says: String,
    /// The cases it speaks of.
    pub reach: Reach,
    /// What it asks: one of each list must hold; nothing where it is said of every
    /// case it may hold.
    pub all: Vec<Vec<Condition<M>>>,
    /// What it speaks of.
    pub bearing: Bearing,
    /// Its class and level of evidence, where it has them.
    pub class: Option<String>,
    /// Its source.
    pub source: String,
    /// Whether it was written down from memory.
    pub from_memory: bool,
}

impl<M: Measure> LimitRow<M> {
    /// Whether a case meets it.
    pub(crate) fn truth(&self, figures: &Figures, findings: &Findings) -> Truth {
        Truth::all(
            self.all
                .iter()
                .map(|any| Truth::any(any.iter().map(|one| one.holds(figures, findings)))),
        )
    }

    /// What keeps it from being known, in words, each once.
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
