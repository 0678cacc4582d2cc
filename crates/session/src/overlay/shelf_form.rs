mod part;

pub use part::ShelfPart;

use super::{Taken, line_beside};
use crate::editor::Editor;
use crate::key::{Key, KeyCode};
use crate::{Edit, Refused, Session};
use files::check_shape;
use sizing::{Shape, Size};

/// A shape, or one size of it, line by line; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfForm {
    /// What was typed in each line.
    pub lines: Vec<(ShelfPart, Editor)>,
    /// The selected line, from 0.
    pub line: usize,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
    /// The shape as it was opened.
    shape: Shape,
    makes: Makes,
}

/// What a form makes of what was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Makes {
    /// The shape as a whole, otherwise.
    Shape,
    /// A copy of it under another short name.
    Copy,
    /// The size with an index, otherwise.
    Size(usize),
    /// A size behind the one with an index.
    NewSize(usize),
}

impl ShelfForm {
    /// A shape to be edited.
    pub(crate) fn shape(shape: Shape) -> Self {
        Self::new(shape, Makes::Shape, 0)
    }

    /// A copy of a shape.
    pub(crate) fn copy(shape: Shape) -> Self {
        Self::new(shape, Makes::Copy, 0)
    }

    /// The size of a shape with an index.
    pub(crate) fn size(shape: Shape, index: usize) -> Self {
        Self::new(shape, Makes::Size(index), index)
    }

    /// Another size like the one with an index.
    pub(crate) fn new_size(shape: Shape, index: usize) -> Self {
        Self::new(shape, Makes::NewSize(index), index)
    }

    fn new(shape: Shape, makes: Makes, index: usize) -> Self {
        let parts: Vec<ShelfPart> = match makes {
            Makes::Shape => ShelfPart::OF_SHAPE.to_vec(),
            Makes::Copy => [ShelfPart::Id]
                .into_iter()
                .chain(ShelfPart::OF_SHAPE)
                .collect(),
            Makes::Size(_) | Makes::NewSize(_) => ShelfPart::OF_SIZE.to_vec(),
        };
        let size = shape.sizes.get(index);
        let lines = parts.into_iter().map(|part| {
            let text = size.map_or_else(String::new, |size| part.written(&shape, size));
            (part, Editor::selected(text))
        });
        Self {
            lines: lines.collect(),
            line: 0,
            error: None,
            shape,
            makes,
        }
    }

    /// What is edited, short enough for a line.
    pub fn title(&self) -> String {
        let label = |index: usize| self.shape.sizes.get(index).map_or("", |size| &size.label);
        match self.makes {
            Makes::Shape => format!("shape {}: all its sizes", self.shape.id),
            Makes::Copy => format!("copy of {} with all its sizes", self.shape.id),
            Makes::Size(index) => format!("size {}/{}", self.shape.id, label(index)),
            Makes::NewSize(index) => {
                format!("new size of {}, from {}", self.shape.id, label(index))
            }
        }
    }

    pub(crate) fn editor_mut(&mut self) -> Option<&mut Editor> {
        self.lines.get_mut(self.line).map(|(_, editor)| editor)
    }

    pub(crate) fn key(&mut self, key: Key) -> Taken {
        match key.code {
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            _ => {}
        }
        if let Some(line) = line_beside(key, self.line, self.lines.len()) {
            self.line = line;
        } else {
            if let Some(editor) = self.editor_mut() {
                editor.key(key);
            }
            self.error = None;
        }
        Taken::Yes
    }

    /// The edit it asks for; what is wrong with it otherwise, on the line where it
    /// is wrong.
    pub(crate) fn read(&mut self, session: &Session) -> Result<Edit, Refused> {
        let shape = self.changed()?;
        let shelf = session.document().shelf();
        let is_taken = shelf.shapes().any(|(_, other)| other.id == shape.id);
        if self.makes == Makes::Copy && is_taken {
            return Err(self.wrong(ShelfPart::Id, "expected one that no other shape has"));
        }
        let mut labels: Vec<&str> = shape.sizes.iter().map(|size| &*size.label).collect();
        labels.sort_unstable();
        if labels.windows(2).any(|two| two[0] == two[1]) {
            let says = "expected another label: this one is there";
            return Err(self.wrong(ShelfPart::Label, says));
        }
        let shape = check_shape(&shape).map_err(|faults| {
            let fault = faults.first();
            let is_of = |part: ShelfPart| fault.is_some_and(|it| it.field.ends_with(part.field()));
            let part = self
                .lines
                .iter()
                .map(|(part, _)| *part)
                .find(|part| is_of(*part));
            let says = fault.map_or_else(String::new, |fault| {
                let remedy = match fault.remedy.as_str() {
                    "" => String::new(),
                    remedy => format!(". {remedy}"),
                };
                format!("expected {}{remedy}", fault.expected)
            });
            match part {
                Some(part) => self.wrong(part, &says),
                None => Refused::new(says),
            }
        })?;
        if self.makes != Makes::Copy && shape == self.shape {
            return Err(Refused::new(
                "nothing is otherwise: change a line, or leave with esc",
            ));
        }
        let called = match self.makes {
            Makes::Shape => format!("changed {}", shape.id),
            Makes::Copy => format!("copied {} to {}", self.shape.id, shape.id),
            Makes::Size(index) => {
                let label = |shape: &Shape| shape.sizes.get(index).map(|it| it.label.clone());
                let label = label(&shape).unwrap_or_default();
                format!("changed {}/{label}", shape.id)
            }
            Makes::NewSize(index) => {
                let label = shape.sizes.get(index + 1).map(|it| it.label.clone());
                format!("added {}/{}", shape.id, label.unwrap_or_default())
            }
        };
        Ok(session.reshelved(shelf.with_shape(shape), called))
    }

    /// The shape with what was typed.
    fn changed(&mut self) -> Result<Shape, Refused> {
        let mut shape = self.shape.clone();
        let of = match self.makes {
            Makes::Shape | Makes::Copy => 0,
            Makes::Size(index) | Makes::NewSize(index) => index,
        };
        let Some(mut size) = shape.sizes.get(of).cloned() else {
            return Err(Refused::new("there is no such size"));
        };
        for (part, editor) in self.lines.clone() {
            let text = editor.text().trim().to_owned();
            if part.is_text() {
                part.set_text(&text, &mut shape, &mut size);
            } else if text.is_empty() && part.may_be_empty() {
                part.set_number(None, &mut size);
            } else {
                let text = text.strip_suffix(part.unit()).unwrap_or(&text).trim_end();
                let value: Option<f64> = text.replace(',', ".").parse().ok();
                let Some(value) = value.filter(|value| value.is_finite()) else {
                    return Err(self.wrong(part, "expected a number"));
                };
                part.set_number(Some(value), &mut size);
            }
        }
        match self.makes {
            Makes::Shape | Makes::Copy => spread(&size, &mut shape.sizes),
            Makes::Size(index) => shape.sizes[index] = size,
            Makes::NewSize(index) => shape.sizes.insert(index + 1, size),
        }
        Ok(shape)
    }

    fn wrong(&mut self, part: ShelfPart, says: &str) -> Refused {
        let line = self.lines.iter().position(|(one, _)| *one == part);
        self.line = line.unwrap_or(self.line);
        Refused::new(format!("{}: {says}", part.label().trim_start()))
    }
}

/// What all sizes of a shape share is that of one.
fn spread(from: &Size, sizes: &mut [Size]) {
    for size in sizes {
        size.occluder.conformability = from.occluder.conformability;
        size.occluder.braid_angle = from.occluder.braid_angle;
    }
}
