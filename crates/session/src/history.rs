use crate::edit::label;
use crate::{Document, Edit, Refused};

/// What was done, so that it can be undone, and what was undone.
///
/// Nudges of one reading in a row are one step: the step goes on until the
/// operator does anything else, were it only to move the selection. A typed value
/// is a step of its own. A row of nudges that ends where it began leaves no step.
///
/// Steps are kept without limit, and not between two runs of the program.
#[derive(Clone, Debug, Default)]
pub struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
    /// Whether the last step still takes nudges in.
    open: bool,
}

/// One step: what it did in words, and the edit that takes it back.
#[derive(Clone, Debug)]
struct Step {
    label: String,
    back: Edit,
}

impl History {
    /// What would be undone next.
    pub fn last_done(&self) -> Option<&str> {
        self.done.last().map(|step| step.label.as_str())
    }

    /// What would be done again next.
    pub(crate) fn last_undone(&self) -> Option<&str> {
        self.undone.last().map(|step| step.label.as_str())
    }

    /// How many steps can be undone.
    pub const fn len(&self) -> usize {
        self.done.len()
    }

    /// Whether there is nothing to undo.
    pub const fn is_empty(&self) -> bool {
        self.done.is_empty()
    }

    /// Makes an edit as a step of its own and says what was done; `None` where
    /// nothing changed, which is no step.
    pub(crate) fn edit(
        &mut self,
        edit: &Edit,
        document: &mut Document,
    ) -> Result<Option<String>, Refused> {
        self.open = false;
        let back = edit.apply(document)?;
        if back == *edit {
            return Ok(None);
        }
        self.undone.clear();
        let label = label(edit, &back, document);
        self.done.push(Step {
            label: label.clone(),
            back,
        });
        Ok(Some(label))
    }

    /// Makes a nudge, within the last step if that nudged the same reading.
    pub(crate) fn nudge(
        &mut self,
        edit: &Edit,
        document: &mut Document,
    ) -> Result<Option<String>, Refused> {
        match self.done.last_mut() {
            Some(step) if self.open && are_of_one(&step.back, edit) => {
                edit.apply(document)?;
                self.undone.clear();
                step.label = label(edit, &step.back, document);
                let label = step.label.clone();
                if step.back == *edit {
                    self.done.pop();
                    self.open = false;
                }
                Ok(Some(label))
            }
            _ => {
                let label = self.edit(edit, document)?;
                self.open = label.is_some();
                Ok(label)
            }
        }
    }

    /// Whether the last step still takes nudges in.
    pub(crate) const fn is_open(&self) -> bool {
        self.open
    }

    /// Ends the step that takes nudges in.
    pub(crate) const fn close(&mut self) {
        self.open = false;
    }

    /// Takes the last step back; gives what it did and the edit that took it back.
    pub(crate) fn undo(&mut self, document: &mut Document) -> Result<(String, Edit), Refused> {
        self.open = false;
        turn_back(
            &mut self.done,
            &mut self.undone,
            document,
            Refused::NothingToUndo,
        )
    }

    /// Does the last undone step again.
    pub(crate) fn redo(&mut self, document: &mut Document) -> Result<(String, Edit), Refused> {
        self.open = false;
        turn_back(
            &mut self.undone,
            &mut self.done,
            document,
            Refused::NothingToRedo,
        )
    }
}

fn turn_back(
    from: &mut Vec<Step>,
    to: &mut Vec<Step>,
    document: &mut Document,
    nothing: Refused,
) -> Result<(String, Edit), Refused> {
    let Some(Step { label, back: edit }) = from.last().cloned() else {
        return Err(nothing);
    };
    let back = edit.apply(document)?;
    from.pop();
    to.push(Step {
        label: label.clone(),
        back,
    });
    Ok((label, edit))
}

fn are_of_one(one: &Edit, other: &Edit) -> bool {
    matches!((one, other), (Edit::Replace(one), Edit::Replace(other)) if one.id == other.id)
}

#[cfg(test)]
mod tests;
