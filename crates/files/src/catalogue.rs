mod series;

use crate::document::Checked;
use crate::faults::{Faults, LineOfName};
use crate::kind::CATALOGUE_CAP;
use crate::place::FieldPlace;
use crate::{Diagnostic, FileError, FileKind, Source};
use geometry::{Disc, Occluder, PerFace, Vec2, Waist, degrees};
use serde::Deserialize;
use series::SeriesForm;
use sizing::{Catalogue, Shape, Sheath, Size};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;
use std::path::Path;

/// A catalogue with the text it came from.
pub type CatalogueFile = Checked<Catalogue>;

/// Reads a catalogue from a file.
pub fn read_catalogue(path: &Path) -> Result<CatalogueFile, FileError> {
    Ok(Checked::read(
        FileKind::Catalogue,
        Source::read(path, CATALOGUE_CAP)?,
        catalogue,
    )?)
}

/// Reads a catalogue from a text; all faults at once where it is RON of the
/// right form, the first one otherwise.
pub fn parse_catalogue(name: &str, text: &str) -> Result<CatalogueFile, Vec<Diagnostic>> {
    Checked::read(FileKind::Catalogue, Source::new(name, text), catalogue)
}

/// Most sizes in one catalogue: every one is laid into every draw.
const MOST_SIZES: usize = 20_000;

// Limits of what any shape for the heart can be: beyond them stands a slip of
// the pen, not a size. Millimetres but for the French.
const WAIST: RangeInclusive<f64> = 1.0..=60.0;
const LENGTH: RangeInclusive<f64> = 0.5..=60.0;
const DIAMETER: RangeInclusive<f64> = 1.0..=120.0;
const THICKNESS: RangeInclusive<f64> = 0.1..=20.0;
const OFFSET: RangeInclusive<f64> = -60.0..=60.0;
const SHEATH_FR: RangeInclusive<f64> = 1.0..=30.0;
const SHEATH_OUTER: RangeInclusive<f64> = 0.3..=15.0;
const BRAID_ANGLE_DEG: RangeInclusive<f64> = 0.0..=80.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CatalogueForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    shapes: Vec<ShapeForm>,
    out_of_stock: Option<Vec<String>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShapeForm {
    id: String,
    name: String,
    about: String,
    conformability: f64,
    braid_angle_deg: f64,
    #[serde(default)]
    sizes: Vec<SizeForm>,
    #[serde(default)]
    series: Vec<SeriesForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SizeForm {
    label: String,
    waist: f64,
    length: f64,
    left: Option<DiscForm>,
    right: Option<DiscForm>,
    sheath_fr: f64,
    sheath_outer_mm: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DiscForm {
    diameter: f64,
    thickness: f64,
    #[serde(default)]
    offset_toward_12: f64,
    #[serde(default)]
    offset_toward_3: f64,
}

/// The properties that all sizes of a shape share.
#[derive(Clone, Copy)]
struct Stuff {
    conformability: f64,
    braid_angle_deg: f64,
}

impl Stuff {
    fn size(
        self,
        label: String,
        waist: Waist,
        discs: PerFace<Option<Disc>>,
        sheath: Sheath,
    ) -> Size {
        let Self {
            conformability,
            braid_angle_deg,
        } = self;
        let braid_angle = degrees(braid_angle_deg);
        Size {
            label,
            occluder: Occluder {
                waist,
                discs,
                conformability,
                braid_angle,
            },
            sheath,
        }
    }
}

fn catalogue(form: CatalogueForm, at: &FieldPlace, faults: &mut Faults) -> Catalogue {
    let title = faults.text(&at.field("title"), form.title);
    let is_laid_over = form.out_of_stock.is_some();
    let names = form.out_of_stock.unwrap_or_default();
    let put_aside = put_aside(names, &at.field("out_of_stock"), faults);
    let at = at.field("shapes");
    // A catalogue that is laid over another may say only what is not there.
    if form.shapes.is_empty() && !is_laid_over {
        faults.add(&at, "at least one shape", "");
    }
    let mut ids = LineOfName::new();
    let mut room = MOST_SIZES;
    let each = form.shapes.into_iter().enumerate();
    let shapes = each
        .map(|(index, form)| {
            let at = at.item(index);
            faults.once(&mut ids, &form.id, &at.field("id"));
            shape(form, &at, &mut room, faults)
        })
        .collect();
    Catalogue {
        title,
        shapes,
        put_aside,
    }
}

/// The names of shapes and sizes not in stock, each once.
fn put_aside(names: Vec<String>, at: &FieldPlace, faults: &mut Faults) -> BTreeSet<String> {
    let mut seen = LineOfName::new();
    for (index, name) in names.iter().enumerate() {
        let at = at.item(index);
        faults.once(&mut seen, name, &at);
        let is_name = name
            .split_once('/')
            .is_some_and(|(shape, size)| is_shape_id(shape) && !size.is_empty());
        if !is_name {
            faults.add(&at, "a shape and a size, such as \"even-medium/5x3\"", "");
        }
    }
    names.into_iter().collect()
}

/// Reads a shape with all its sizes, of which at most `room` are allowed.
fn shape(form: ShapeForm, at: &FieldPlace, room: &mut usize, faults: &mut Faults) -> Shape {
    let stuff = Stuff {
        conformability: faults.number(
            &at.field("conformability"),
            form.conformability,
            0.0..=1.0,
            "",
        ),
        braid_angle_deg: faults.number(
            &at.field("braid_angle_deg"),
            form.braid_angle_deg,
            BRAID_ANGLE_DEG,
            "degrees",
        ),
    };
    if form.sizes.is_empty() && form.series.is_empty() {
        faults.say(
            at,
            "no size",
            "sizes, a series or both",
            "Add a row to `sizes`.",
        );
    }
    let mut labels = LineOfName::new();
    let mut sizes = Vec::new();
    for (index, form) in form.sizes.into_iter().enumerate() {
        let at = at.field("sizes").item(index);
        if take_room(room, 1, &at, faults) {
            faults.once(&mut labels, &form.label, &at.field("label"));
            sizes.push(size(form, stuff, &at, faults));
        }
    }
    for (index, form) in form.series.into_iter().enumerate() {
        let at = at.field("series").item(index);
        if let Some(series) = form.check(&at, faults)
            && take_room(room, series.count(), &at, faults)
        {
            for size in series.sizes(stuff) {
                faults.once(&mut labels, &size.label, &at);
                sizes.push(size);
            }
        }
    }
    Shape {
        id: shape_id(form.id, &at.field("id"), faults),
        name: faults.text(&at.field("name"), form.name),
        about: faults.text(&at.field("about"), form.about),
        sizes,
    }
}

fn take_room(room: &mut usize, wanted: usize, at: &FieldPlace, faults: &mut Faults) -> bool {
    let left = room.checked_sub(wanted);
    if let Some(left) = left {
        *room = left;
    } else {
        let found = format!("{wanted} more where {room} are left");
        faults.say(at, &found, format!("at most {MOST_SIZES} sizes in all"), "");
    }
    left.is_some()
}

fn is_shape_id(id: &str) -> bool {
    let is_plain = |it: char| it.is_ascii_lowercase() || it.is_ascii_digit() || it == '-';
    !id.is_empty() && id.chars().all(is_plain)
}

/// The name of a shape, as the command line takes it before a slash.
fn shape_id(id: String, at: &FieldPlace, faults: &mut Faults) -> String {
    if !is_shape_id(&id) {
        faults.add(at, "a name of small letters, digits and hyphens", "");
    }
    id
}

fn size(form: SizeForm, stuff: Stuff, at: &FieldPlace, faults: &mut Faults) -> Size {
    let label = faults.name(&at.field("label"), form.label);
    let waist = Waist {
        diameter: faults.number(&at.field("waist"), form.waist, WAIST, "mm"),
        length: faults.number(&at.field("length"), form.length, LENGTH, "mm"),
    };
    let discs = PerFace::new((form.left, "left"), (form.right, "right"))
        .map(|(form, side)| form.map(|form| disc(&form, waist.diameter, &at.field(side), faults)));
    let french = faults.number(&at.field("sheath_fr"), form.sheath_fr, SHEATH_FR, "Fr");
    let outer_diameter = form.sheath_outer_mm.map(|outer| {
        let at = at.field("sheath_outer_mm");
        let outer = faults.number(&at, outer, SHEATH_OUTER, "mm");
        let inner = Sheath {
            french,
            outer_diameter: None,
        }
        .outer_diameter(0.0);
        if SHEATH_FR.contains(&french) && outer <= inner {
            let expected = format!("more than its inner diameter, {inner:.2} mm");
            faults.add(&at, expected, "A sheath is named by what fits inside.");
        }
        outer
    });
    stuff.size(
        label,
        waist,
        discs,
        Sheath {
            french,
            outer_diameter,
        },
    )
}

fn disc(form: &DiscForm, waist: f64, at: &FieldPlace, faults: &mut Faults) -> Disc {
    let diameter = faults.number(&at.field("diameter"), form.diameter, DIAMETER, "mm");
    let offset = offset(form.offset_toward_12, form.offset_toward_3, at, faults);
    if diameter < waist {
        faults.add(
            &at.field("diameter"),
            format!("at least the waist, {waist} mm"),
            "Leave the disc out where there is none.",
        );
    } else {
        covers_waist(offset, diameter - waist, at, faults);
    }
    Disc {
        radius: 0.5 * diameter,
        thickness: thickness(form.thickness, diameter, at, faults),
        offset,
    }
}

/// A thickness that a disc of a diameter can have.
fn thickness(thickness: f64, diameter: f64, at: &FieldPlace, faults: &mut Faults) -> f64 {
    let at = at.field("thickness");
    let thickness = faults.number(&at, thickness, THICKNESS, "mm");
    if thickness > diameter {
        faults.add(&at, format!("at most the diameter, {diameter} mm"), "");
    }
    thickness
}

fn offset(u: f64, v: f64, at: &FieldPlace, faults: &mut Faults) -> Vec2 {
    Vec2::new(
        faults.number(&at.field("offset_toward_12"), u, OFFSET, "mm"),
        faults.number(&at.field("offset_toward_3"), v, OFFSET, "mm"),
    )
}

/// A disc off the axis still covers the end of its waist. What moves it most is at fault.
fn covers_waist(offset: Vec2, wider: f64, at: &FieldPlace, faults: &mut Faults) {
    let most = 0.5 * wider;
    if offset.length() > most {
        let found = format!("an offset of {} mm", offset.length());
        let remedy = "The disc must cover the whole end of the waist.";
        let field = if offset.u.abs() >= offset.v.abs() {
            "offset_toward_12"
        } else {
            "offset_toward_3"
        };
        let expected = format!("at most {most} mm");
        faults.say(&at.field(field), &found, expected, remedy);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Face;

    fn sizes(rows: &str) -> Vec<Size> {
        let text = format!(
            "(format: 2, title: \"x\", shapes: [(id: \"x\", name: \"x\", about: \"x\", \
             conformability: 0.5, braid_angle_deg: 45, {rows})])",
        );
        let catalogue = parse_catalogue("x", &text).map_err(|faults| faults[0].to_string());
        catalogue.unwrap().into_value().shapes.remove(0).sizes
    }

    #[test]
    fn a_row_is_a_size() {
        let rows = "sizes: [(label: \"5x3\", waist: 5, length: 3, \
                    left: (diameter: 9, thickness: 1.2, offset_toward_12: -1), \
                    sheath_fr: 5, sheath_outer_mm: 2.2)]";
        let size = sizes(rows).remove(0);
        assert_eq!(size.label, "5x3");
        assert_eq!(
            size.occluder.waist,
            Waist {
                diameter: 5.0,
                length: 3.0
            }
        );
        let disc = Disc {
            radius: 4.5,
            thickness: 1.2,
            offset: Vec2::new(-1.0, 0.0),
        };
        assert_eq!(size.occluder.disc(Face::Left), Some(&disc));
        assert_eq!(size.occluder.disc(Face::Right), None);
        assert_eq!(
            size.sheath,
            Sheath {
                french: 5.0,
                outer_diameter: Some(2.2)
            }
        );
    }

    #[test]
    fn a_series_is_every_waist_with_every_length() {
        let rows = "series: [(waists: (from: 3, to: 3.3, step: 0.1), lengths: [2, 3.5], \
                    left_disc: (wider_than_waist: 4.2, thickness: 1), \
                    sheath_fr: (base: 3, per_mm: 0.5))]";
        let sizes = sizes(rows);
        let labels: Vec<_> = sizes.iter().map(|size| size.label.as_str()).collect();
        assert_eq!(
            labels,
            [
                "3x2", "3x3.5", "3.1x2", "3.1x3.5", "3.2x2", "3.2x3.5", "3.3x2", "3.3x3.5"
            ],
        );
        let french: Vec<_> = sizes.iter().map(|size| size.sheath.french).collect();
        // 4.5 stays, 4.55 to 4.65 go up to the next half.
        assert_eq!(french, [4.5, 4.5, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0]);
        assert_eq!(sizes[2].occluder.disc(Face::Left).unwrap().radius, 3.65);
    }

    #[test]
    fn listed_sheaths_go_with_the_waists() {
        let rows = "series: [(waists: [4, 6], lengths: [3, 4], sheath_fr: [5, 6.5])]";
        let french: Vec<_> = sizes(rows).iter().map(|size| size.sheath.french).collect();
        assert_eq!(french, [5.0, 5.0, 6.5, 6.5]);
    }
}
