use super::list::Named;
use super::{Splice, SpliceError, faithful, names};
use crate::catalogue::{CatalogueFile, parse_catalogue};
use crate::document::Step;
use crate::kind::CATALOGUE_CAP;
use crate::ron_text::{Field, quoted, record};
use crate::size_text::{disc_fields, shape_head, shape_record, size_fields};
use geometry::Face;
use sizing::{Catalogue, Shape, Size};
use std::borrow::Cow;
use std::collections::BTreeSet;

const CATALOGUE_FIELDS: [&str; 4] = ["format", "title", "shapes", "out_of_stock"];

const SHAPES: Named<Shape> = Named {
    name: |shape| Cow::Borrowed(&shape.id),
    write: shape_record,
};

const SIZES: Named<Size> = Named {
    name: |size| Cow::Borrowed(&size.label),
    write: |size, style| record(&size_fields(size), style),
};

impl CatalogueFile {
    /// The file changed to another catalogue: comments, order and layout stay where the two
    /// agree.
    ///
    /// The sizes of a series stay a series while they stand last and as they
    /// were; otherwise each becomes a row.
    pub fn with(&self, catalogue: &Catalogue) -> Result<Self, SpliceError> {
        let was = self.value();
        let mut splice = Splice::new(self.source().text());
        let title = |title: &str| [("title", Some(quoted(title)))];
        splice.set_fields(
            &[],
            &title(&was.title),
            &title(&catalogue.title),
            &CATALOGUE_FIELDS,
        );
        SHAPES.sync(
            &mut splice,
            &[Step::Field("shapes")],
            &was.shapes,
            &catalogue.shapes,
            shape,
        );
        put_aside(&mut splice, &was.put_aside, &catalogue.put_aside);
        if catalogue.shapes.is_empty() {
            // Without a shape it says at least that it is laid over others.
            splice.ensure_field(&[], "out_of_stock", "[]", &CATALOGUE_FIELDS);
        }
        let text = self.source().marked(splice.text);
        let read = parse_catalogue(self.source().name(), &text);
        faithful(read, catalogue, CATALOGUE_CAP)
    }

    /// The number of sizes of a shape that are rows and not of a series. They stand first,
    /// and a size added behind them leaves the series as it is.
    pub fn rows_of(&self, shape: usize) -> usize {
        let sizes = [
            Step::Field("shapes"),
            Step::Item(shape),
            Step::Field("sizes"),
        ];
        let all = self
            .value()
            .shapes
            .get(shape)
            .map_or(0, |shape| shape.sizes.len());
        let is_row = |row: &usize| {
            self.span(&[sizes[0], sizes[1], sizes[2], Step::Item(*row)])
                .is_some()
        };
        (0..all).take_while(is_row).count()
    }
}

fn put_aside(splice: &mut Splice, was: &BTreeSet<String>, wanted: &BTreeSet<String>) {
    let list = [Step::Field("out_of_stock")];
    for gone in was.difference(wanted) {
        if let Some(index) = splice.index_of_text(&list, gone) {
            splice.remove(&list, index);
        }
    }
    for new in wanted.difference(was) {
        splice.ensure_field(&[], "out_of_stock", "[]", &CATALOGUE_FIELDS);
        splice.push(&list, &quoted(new));
    }
}

fn shape(splice: &mut Splice, at: &[Step], was: &Shape, wanted: &Shape) {
    let head = shape_head(wanted);
    splice.set_record(at, &shape_head(was), &head);
    let within = |name| -> Vec<Step> { at.iter().copied().chain([Step::Field(name)]).collect() };
    let list = within("sizes");
    let rows = splice.node(&list).map_or(0, |node| node.inner.len());
    let (rows, series) = was.sizes.split_at(rows.min(was.sizes.len()));
    let keeps = wanted.sizes.len().checked_sub(series.len());
    let wanted = match keeps.map(|keeps| wanted.sizes.split_at(keeps)) {
        Some((wanted, last)) if fields(last) == fields(series) => wanted,
        _ => {
            splice.set_field(at, "series", None, &[]);
            &wanted.sizes
        }
    };
    if fields(rows) == fields(wanted) {
        return;
    }
    splice.ensure_field(at, "sizes", "[]", &names(&head));
    SIZES.sync(splice, &list, rows, wanted, size);
}

fn size(splice: &mut Splice, at: &[Step], was: &Size, wanted: &Size) {
    let mut was_fields = size_fields(was);
    let wanted_fields = size_fields(wanted);
    for (face, side) in [(Face::Left, "left"), (Face::Right, "right")] {
        let discs = (was.occluder.disc(face), wanted.occluder.disc(face));
        if let (Some(was), Some(wanted)) = discs {
            let at: Vec<Step> = at.iter().copied().chain([Step::Field(side)]).collect();
            splice.set_record(&at, &disc_fields(was), &disc_fields(wanted));
            // What is done is not to be done again.
            for (was, wanted) in was_fields.iter_mut().zip(&wanted_fields) {
                if was.0 == side {
                    was.1.clone_from(&wanted.1);
                }
            }
        }
    }
    splice.set_record(at, &was_fields, &wanted_fields);
}

/// The text of some sizes, without what they share with their shape.
fn fields(sizes: &[Size]) -> Vec<Vec<Field>> {
    sizes.iter().map(size_fields).collect()
}
