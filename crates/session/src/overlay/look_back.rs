mod ask;

use super::layer::{Layer, Outcome};
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::look_back::LookBackFound;
use crate::model::Model;
use files::{ProposedRows, proposed_rows};
use sizing::HouseRules;
use sizing::look_back::ReadingRow;
use std::path::PathBuf;
use std::sync::Arc;

/// What the cases of a folder say together, over the whole page, with the rows that a
/// person may put into your centre's rules.
#[derive(Clone, Debug, PartialEq)]
pub struct LookBackPage {
    /// Which look-back it is, of all that were asked for.
    pub(crate) number: u64,
    /// The folder.
    pub folder: PathBuf,
    /// What the cases say; `None`: they are being read. Err: why they were not.
    pub found: Option<Result<Arc<LookBackFound>, String>>,
    /// Its lines, none wider than 80 columns.
    pub lines: Arc<[String]>,
    /// How many of them are above what is shown.
    pub above: usize,
    /// What is said of a key that could do nothing; empty: nothing.
    pub refused: String,
}

/// A row that is proposed for your centre's rules, on its key.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// Its key.
    pub key: char,
    /// What was read, and by what.
    pub label: String,
    /// What the rules would say, in a few words.
    pub says: String,
    /// Whether a row of a look-back over such readings is in the rules already.
    pub is_there: bool,
}

impl LookBackPage {
    /// A page whose cases are being read.
    pub(crate) fn new(number: u64, folder: PathBuf) -> Self {
        Self {
            number,
            folder,
            found: None,
            lines: Arc::from([]),
            above: 0,
            refused: String::new(),
        }
    }

    /// Takes what came of reading the folder.
    pub(crate) fn fill(&mut self, found: Result<Arc<LookBackFound>, String>) {
        if let Ok(found) = &found {
            let mut lines = Vec::new();
            if !found.left_out.is_empty() {
                let (out, all) = (found.left_out.len(), found.files);
                lines.push(format!("{out} of {all} files left out:"));
                let each = found.left_out.iter().flat_map(|says| says.lines());
                lines.extend(each.map(str::to_owned));
                lines.push(String::new());
            }
            lines.extend(found.look_back.page());
            self.lines = lines.into();
        }
        self.found = Some(found);
    }

    /// What is proposed for your centre's rules, each on a key.
    pub fn proposals(&self, rules: &HouseRules) -> Vec<Proposal> {
        let each = ('1'..='9').zip(self.proposed());
        let each = each.map(|(key, (row, rows))| Proposal {
            key,
            label: row.of.label(),
            says: ask::then(&rows),
            is_there: rows.earlier(rules).is_some(),
        });
        each.collect()
    }

    fn proposed(&self) -> Vec<(&ReadingRow, ProposedRows)> {
        let found = self.found.iter().flatten();
        let rows = found.flat_map(|found| found.look_back.proposals());
        rows.filter_map(|row| Some((row, proposed_rows(row)?)))
            .collect()
    }

    /// Asks whether a proposal is put into the rules.
    fn ask(&mut self, letter: char, model: &Model) -> Outcome {
        let proposed = self.proposed();
        let mut each = ('1'..='9').zip(&proposed);
        let asked = each.find(|(key, _)| *key == letter);
        let asked = asked.map(|(_, (row, rows))| ask::question(row, rows, model));
        match asked {
            None => Outcome::Stay,
            Some(Ok(task)) => Outcome::Also(task),
            Some(Err(refused)) => {
                self.refused = refused.to_string();
                Outcome::Stay
            }
        }
    }
}

impl Layer for LookBackPage {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        self.refused.clear();
        let seen = model.view().visible.overlay;
        let last = self.lines.len().saturating_sub(seen);
        match key.code {
            KeyCode::Esc | KeyCode::Char('B') => return Outcome::Close,
            KeyCode::Down | KeyCode::Char('j') => self.above += 1,
            KeyCode::Up | KeyCode::Char('k') => self.above = self.above.saturating_sub(1),
            KeyCode::PageDown | KeyCode::Char(' ') => self.above += seen,
            KeyCode::PageUp => self.above = self.above.saturating_sub(seen),
            KeyCode::Home => self.above = 0,
            KeyCode::End => self.above = last,
            KeyCode::Char(letter) => return self.ask(letter, model),
            _ => {}
        }
        self.above = self.above.min(last);
        Outcome::Stay
    }

    fn footer(&self, model: &Model) -> Vec<Hint> {
        let mut all = hints(&[("down", "on"), ("up", "back")]);
        let proposals = self.proposals(&model.document().rules);
        all.extend(
            proposals
                .iter()
                .filter(|one| !one.is_there)
                .map(|one| Hint {
                    key: one.key.to_string(),
                    does: "into your rules",
                }),
        );
        all.extend(hints(&[("esc", "close")]));
        all
    }
}
