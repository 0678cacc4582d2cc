use super::layer::{Layer, Outcome};
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::model::Model;
use sizing::Setting;
use sizing::why::WhyStep;
use std::sync::Arc;

/// The walk through the neighbours of a size: which limit stops each.
#[derive(Clone, Debug)]
pub struct WhyWalk {
    /// The size, `shape/size`.
    pub name: String,
    /// The case that its sentences are of.
    pub setting: Arc<Setting>,
    /// Its steps.
    pub steps: Arc<[WhyStep]>,
    /// The step that is shown, by index.
    pub index: usize,
}

impl WhyWalk {
    /// The step that is shown.
    pub fn step(&self) -> Option<&WhyStep> {
        self.steps.get(self.index)
    }

    /// The waist and the overhang of the step, where the fit map has such a form, in
    /// millimetres: both discs, the wider of them counts.
    fn cell(&self) -> Option<(f64, f64)> {
        let occluder = &self.step()?.candidate.as_ref()?.size.occluder;
        let radii = occluder.discs.iter().flatten().map(|disc| disc.radius);
        let radius = radii.reduce(f64::max)?;
        let waist = occluder.waist.diameter;
        Some((waist, radius - 0.5 * waist))
    }
}

impl PartialEq for WhyWalk {
    fn eq(&self, other: &Self) -> bool {
        // Nobody changes the steps: the same allocation is the same walk.
        Arc::ptr_eq(&self.steps, &other.steps) && self.index == other.index
    }
}

impl Layer for WhyWalk {
    fn key(&mut self, key: Key, _model: &Model) -> Outcome {
        let last = self.steps.len().saturating_sub(1);
        match key.code {
            KeyCode::Esc | KeyCode::Char('i') => return Outcome::Close,
            KeyCode::Right | KeyCode::Down | KeyCode::Char('j' | 'l' | ' ') => {
                self.index = (self.index + 1).min(last);
            }
            KeyCode::Left | KeyCode::Up | KeyCode::Char('k' | 'h') => {
                self.index = self.index.saturating_sub(1);
            }
            KeyCode::Home => self.index = 0,
            KeyCode::End => self.index = last,
            KeyCode::Enter | KeyCode::Char('m') => {
                return self.cell().map_or(Outcome::Stay, |(waist, overhang)| {
                    Outcome::MapAt(waist, overhang)
                });
            }
            _ => {}
        }
        Outcome::Stay
    }

    fn footer(&self, _model: &Model) -> Vec<Hint> {
        hints(&[
            ("down", "next step"),
            ("up", "back"),
            ("enter", "fit map here"),
            ("esc", "close"),
        ])
    }
}
