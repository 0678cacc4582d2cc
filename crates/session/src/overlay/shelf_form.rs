mod part;

pub use part::ShelfPart;

use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::{Model, Refused};
use files::check_shape;
use geometry::Occluder;
use sizing::{Shape, Size};

/// A shape, or one size of it, line by line.
pub type ShelfForm = Form<ShapeDraft, ShelfPart>;

/// A shape before its form was filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct ShapeDraft {
    shape: Shape,
    action: ShapeAction,
}

/// What a form action of what was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
enum ShapeAction {
    /// The shape as a whole, otherwise.
    Shape,
    /// A copy of it under another short name.
    Copy,
    /// A shape of its own with a first size, from nothing.
    New,
    /// The size with an index, otherwise.
    Size(usize),
    /// A size behind the one with an index.
    NewSize(usize),
}

impl ShelfForm {
    /// A shape to be edited.
    pub(crate) fn shape(shape: Shape) -> Self {
        Self::new(shape, ShapeAction::Shape, 0)
    }

    /// A copy of a shape.
    pub(crate) fn copy(shape: Shape) -> Self {
        Self::new(shape, ShapeAction::Copy, 0)
    }

    /// A shape with a first size, nothing filled in.
    pub(crate) fn new_shape() -> Self {
        Self::new(part::nothing(), ShapeAction::New, 0)
    }

    /// The size of a shape with an index.
    pub(crate) fn size(shape: Shape, index: usize) -> Self {
        Self::new(shape, ShapeAction::Size(index), index)
    }

    /// A form for another size like the one with an index.
    pub(crate) fn new_size(shape: Shape, index: usize) -> Self {
        Self::new(shape, ShapeAction::NewSize(index), index)
    }

    fn new(shape: Shape, action: ShapeAction, index: usize) -> Self {
        let (id, of_shape, of_size) = (
            &[ShelfPart::Id][..],
            &ShelfPart::OF_SHAPE[..],
            &ShelfPart::OF_SIZE[..],
        );
        let parts = match action {
            ShapeAction::Shape => of_shape.to_vec(),
            ShapeAction::Copy => [id, of_shape].concat(),
            ShapeAction::New => [id, of_shape, of_size].concat(),
            ShapeAction::Size(_) | ShapeAction::NewSize(_) => of_size.to_vec(),
        };
        // Of a new shape no figure is filled in, not even a nought.
        let size = shape
            .sizes
            .get(index)
            .filter(|_| action != ShapeAction::New);
        let lines = parts.into_iter().map(|part| {
            let text = size.map_or_else(String::new, |size| part.written(&shape, size));
            (part, FormEntry::typed(text))
        });
        let lines = lines.collect();
        Self::with(ShapeDraft { shape, action }, lines)
    }

    /// What is edited, short enough for a line.
    pub fn title(&self) -> String {
        let label = |index: usize| {
            self.of
                .shape
                .sizes
                .get(index)
                .map_or("", |size| &size.label)
        };
        match self.of.action {
            ShapeAction::Shape => format!("shape {}: all its sizes", self.of.shape.id),
            ShapeAction::New => "new shape with its first size".to_owned(),
            ShapeAction::Copy => format!("copy of {} with all its sizes", self.of.shape.id),
            ShapeAction::Size(index) => format!("size {}/{}", self.of.shape.id, label(index)),
            ShapeAction::NewSize(index) => {
                format!("new size of {}, from {}", self.of.shape.id, label(index))
            }
        }
    }

    /// The shape with what was typed.
    fn changed(&self) -> Result<Shape, FormError<ShelfPart>> {
        let mut shape = self.of.shape.clone();
        let of = match self.of.action {
            ShapeAction::Shape | ShapeAction::Copy | ShapeAction::New => 0,
            ShapeAction::Size(index) | ShapeAction::NewSize(index) => index,
        };
        let Some(mut size) = shape.sizes.get(of).cloned() else {
            return Err(Refused::SizeGone.into());
        };
        for &(part, _) in &self.lines {
            if part.is_text() {
                part.set_text(&self.text(part), &mut shape, &mut size);
                continue;
            }
            match self.number(part, part.unit()) {
                Ok(None) if part.is_needed(self.of.action == ShapeAction::New) => {
                    return Err(wrong(part, "expected a number"));
                }
                Ok(value) => part.set_number(value, &mut size),
                Err(_) => return Err(wrong(part, "expected a number")),
            }
        }
        match self.of.action {
            ShapeAction::Shape | ShapeAction::Copy => spread(&size, &mut shape.sizes),
            ShapeAction::New => shape.sizes = vec![size],
            ShapeAction::Size(index) => shape.sizes[index] = size,
            ShapeAction::NewSize(index) => shape.sizes.insert(index + 1, size),
        }
        Ok(shape)
    }
}

impl FormSubject<ShelfPart> for ShapeDraft {
    fn read(form: &ShelfForm, model: &Model) -> Result<Task, FormError<ShelfPart>> {
        let shape = form.changed()?;
        let shelf = model.document().shelf();
        let is_taken = shelf.shapes().any(|(_, other)| other.id == shape.id);
        let is_another = matches!(form.of.action, ShapeAction::Copy | ShapeAction::New);
        if is_another && is_taken {
            return Err(wrong(
                ShelfPart::Id,
                "expected a name that no other shape has",
            ));
        }
        let mut labels: Vec<&str> = shape.sizes.iter().map(|size| &*size.label).collect();
        labels.sort_unstable();
        if labels.windows(2).any(|two| two[0] == two[1]) {
            let says = "expected another label; this one exists";
            return Err(wrong(ShelfPart::Label, says));
        }
        let shape = check_shape(&shape).map_err(|faults| {
            let fault = faults.first();
            let is_of = |part: ShelfPart| fault.is_some_and(|it| it.field.ends_with(part.field()));
            let mut parts = form.lines.iter().map(|(part, _)| *part);
            let part = parts.find(|part| is_of(*part));
            let says = fault.map_or_else(String::new, |fault| {
                let remedy = match fault.remedy.as_str() {
                    "" => String::new(),
                    remedy => format!(". {remedy}"),
                };
                format!("expected {}{remedy}", fault.expected)
            });
            match part {
                Some(part) => wrong(part, &says),
                None => FormError::of_form(says),
            }
        })?;
        if !is_another && shape == form.of.shape {
            return Err(Refused::NothingChanged.into());
        }
        let called = match form.of.action {
            ShapeAction::Shape => format!("changed {}", shape.id),
            ShapeAction::New => format!("added {}", shape.id),
            ShapeAction::Copy => format!("copied {} to {}", form.of.shape.id, shape.id),
            ShapeAction::Size(index) => {
                let label = |shape: &Shape| shape.sizes.get(index).map(|it| it.label.clone());
                let label = label(&shape).unwrap_or_default();
                format!("changed {}/{label}", shape.id)
            }
            ShapeAction::NewSize(index) => {
                let label = shape.sizes.get(index + 1).map(|it| it.label.clone());
                format!("added {}/{}", shape.id, label.unwrap_or_default())
            }
        };
        let mut changed = shelf.with_shape(shape.clone());
        if let ShapeAction::Size(index) = form.of.action {
            // Under another label it is as much there as before.
            let name = |shape: &Shape| {
                let size = shape.sizes.get(index);
                size.map(|size| format!("{}/{}", shape.id, size.label))
            };
            let (was, now) = (name(&form.of.shape), name(&shape));
            if was.is_some_and(|was| shelf.is_aside(&was)) {
                changed = changed.with_aside(&Vec::from_iter(now), true);
            }
        }
        Ok(Task::Edit(model.reshelved(changed, called)))
    }

    fn takes_words(&self, part: ShelfPart) -> bool {
        part.is_text()
    }
}

fn wrong(part: ShelfPart, says: &str) -> FormError<ShelfPart> {
    FormError::on(part, part.label(), says)
}

/// What all sizes of a shape share is that of one.
fn spread(from: &Size, sizes: &mut [Size]) {
    for size in sizes {
        size.occluder = Occluder {
            waist: size.occluder.waist,
            discs: size.occluder.discs,
            ..from.occluder
        };
    }
}
