use geometry::{Disc, Face, Occluder, PerFace, Vec2, Waist, degrees};
use sizing::{Shape, Sheath, Size};

/// One field of a shape or of a size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShelfPart {
    /// The short name of a shape.
    Id,
    /// Its plain name.
    Name,
    /// What it is for.
    About,
    /// How its discs answer to the wall.
    Conformability,
    /// How its wires lie.
    BraidAngle,
    /// The label of a size.
    Label,
    /// Diameter of the waist.
    Waist,
    /// Length of the waist.
    Length,
    /// The disc on a face: its diameter; nothing: no disc.
    Disc(Face),
    /// Its thickness.
    Thickness(Face),
    /// Its offset toward the reference valve.
    OffsetU(Face),
    /// Its offset a quarter turn clockwise of it.
    OffsetV(Face),
    /// The sheath it goes through.
    Sheath,
    /// The outer diameter of that.
    SheathOuter,
}

impl ShelfPart {
    /// The fields of a shape.
    pub(super) const OF_SHAPE: [Self; 4] = [
        Self::Name,
        Self::About,
        Self::Conformability,
        Self::BraidAngle,
    ];

    /// The fields of a size.
    pub(super) const OF_SIZE: [Self; 13] = [
        Self::Label,
        Self::Waist,
        Self::Length,
        Self::Disc(Face::Left),
        Self::Thickness(Face::Left),
        Self::OffsetU(Face::Left),
        Self::OffsetV(Face::Left),
        Self::Disc(Face::Right),
        Self::Thickness(Face::Right),
        Self::OffsetU(Face::Right),
        Self::OffsetV(Face::Right),
        Self::Sheath,
        Self::SheathOuter,
    ];

    /// The name of the field on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Id => "short name",
            Self::Name => "name",
            Self::About => "what for",
            Self::Conformability => "conformability",
            Self::BraidAngle => "braid angle",
            Self::Label => "size",
            Self::Waist => "waist",
            Self::Length => "length",
            Self::Disc(Face::Left) => "left disc",
            Self::Disc(Face::Right) => "right disc",
            Self::Thickness(_) => "  thickness",
            Self::OffsetU(_) => "  offset up",
            Self::OffsetV(_) => "  offset across",
            Self::Sheath => "sheath",
            Self::SheathOuter => "sheath outside",
        }
    }

    /// The unit of the field.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Id | Self::Name | Self::About | Self::Label | Self::Conformability => "",
            Self::BraidAngle => "deg",
            Self::Sheath => "Fr",
            _ => "mm",
        }
    }

    /// What it means, in a phrase.
    pub const fn means(self) -> &'static str {
        match self {
            Self::Id => "for the command line: small letters, digits, hyphens",
            Self::Name => "a plain name, not a brand",
            Self::About => "its purpose in a sentence",
            Self::Conformability => "0: discs stay flat; 1: they lie on the wall as cloth",
            Self::BraidAngle => {
                "angle of the wires to the axis; 0: a squeezed waist keeps its length"
            }
            Self::Label => "waist and length as a rule, such as 5x3",
            Self::Waist => "diameter of the waist when free",
            Self::Length => "length of the waist when free",
            Self::Disc(_) => "its diameter, not its radius; empty where there is no such disc",
            Self::Thickness(_) => "thickness of the disc when free",
            Self::OffsetU(_) => {
                "offset of its centre toward the reference valve; below 0 is away from it"
            }
            Self::OffsetV(_) => "offset of its centre toward 3 o'clock, seen from the left",
            Self::Sheath => "the smallest sheath, by its inner size in French",
            Self::SheathOuter => "its outer diameter, where it is known",
        }
    }

    /// Where a file has it, behind the shape or the size.
    pub(super) const fn field(self) -> &'static str {
        match self {
            Self::Id => "id",
            Self::Name => "name",
            Self::About => "about",
            Self::Conformability => "conformability",
            Self::BraidAngle => "braid_angle_deg",
            Self::Label => "label",
            Self::Waist => "waist",
            Self::Length => "length",
            Self::Disc(Face::Left) => "left.diameter",
            Self::Disc(Face::Right) => "right.diameter",
            Self::Thickness(Face::Left) => "left.thickness",
            Self::Thickness(Face::Right) => "right.thickness",
            Self::OffsetU(Face::Left) => "left.offset_toward_12",
            Self::OffsetU(Face::Right) => "right.offset_toward_12",
            Self::OffsetV(Face::Left) => "left.offset_toward_3",
            Self::OffsetV(Face::Right) => "right.offset_toward_3",
            Self::Sheath => "sheath_fr",
            Self::SheathOuter => "sheath_outer_mm",
        }
    }

    /// Whether it may not be left empty; of a new shape nothing is known.
    pub(super) const fn is_needed(self, is_new: bool) -> bool {
        match self {
            Self::Waist | Self::Length | Self::Sheath => true,
            Self::Conformability | Self::BraidAngle => is_new,
            _ => false,
        }
    }

    /// Whether it is words, not a number.
    pub(super) const fn is_text(self) -> bool {
        matches!(self, Self::Id | Self::Name | Self::About | Self::Label)
    }

    /// What a shape and a size of it say.
    pub(super) fn written(self, shape: &Shape, size: &Size) -> String {
        let occluder = &size.occluder;
        let number = |value: f64| {
            // A sum of tenths is a tenth.
            let value = (value * ROUNDING).round() / ROUNDING;
            (value + 0.0).to_string()
        };
        let of_disc = |face, of: fn(&Disc) -> f64| {
            let disc = occluder.disc(face);
            disc.map_or_else(String::new, |disc| number(of(disc)))
        };
        match self {
            Self::Id => shape.id.clone(),
            Self::Name => shape.name.clone(),
            Self::About => shape.about.clone(),
            Self::Conformability => number(occluder.conformability),
            Self::BraidAngle => number(occluder.braid_angle.to_degrees()),
            Self::Label => size.label.clone(),
            Self::Waist => number(occluder.waist.diameter),
            Self::Length => number(occluder.waist.length),
            Self::Disc(face) => of_disc(face, |disc| 2.0 * disc.radius),
            Self::Thickness(face) => of_disc(face, |disc| disc.thickness),
            Self::OffsetU(face) => of_disc(face, |disc| disc.offset.u),
            Self::OffsetV(face) => of_disc(face, |disc| disc.offset.v),
            Self::Sheath => number(size.sheath.french),
            Self::SheathOuter => size.sheath.outer_diameter.map_or_else(String::new, number),
        }
    }

    /// Sets a text of a shape or of a size.
    pub(super) fn set_text(self, text: &str, shape: &mut Shape, size: &mut Size) {
        let of = match self {
            Self::Id => &mut shape.id,
            Self::Name => &mut shape.name,
            Self::About => &mut shape.about,
            Self::Label => &mut size.label,
            _ => return,
        };
        text.clone_into(of);
    }

    /// Sets a number of a size; `None`: it is left out.
    pub(super) fn set_number(self, value: Option<f64>, size: &mut Size) {
        let occluder = &mut size.occluder;
        match (self, value) {
            (Self::Conformability, Some(value)) => occluder.conformability = value,
            (Self::BraidAngle, Some(value)) => occluder.braid_angle = degrees(value),
            (Self::Waist, Some(value)) => occluder.waist.diameter = value,
            (Self::Length, Some(value)) => occluder.waist.length = value,
            (Self::Sheath, Some(value)) => size.sheath.french = value,
            (Self::SheathOuter, value) => size.sheath.outer_diameter = value,
            (Self::Disc(face), None) => occluder.discs[face] = None,
            (Self::Disc(face), Some(value)) => {
                occluder.discs[face].get_or_insert(NEW_DISC).radius = 0.5 * value;
            }
            (Self::Thickness(face) | Self::OffsetU(face) | Self::OffsetV(face), value) => {
                if let Some(disc) = &mut occluder.discs[face] {
                    match self {
                        // What was left empty is as it is of a new disc.
                        Self::Thickness(_) => {
                            disc.thickness = value.unwrap_or(NEW_DISC.thickness);
                        }
                        Self::OffsetU(_) => disc.offset.u = value.unwrap_or_default(),
                        _ => disc.offset.v = value.unwrap_or_default(),
                    }
                }
            }
            _ => {}
        }
    }
}

/// A shape with one size, of which nothing is known yet.
pub(super) fn nothing() -> Shape {
    Shape {
        id: String::new(),
        name: String::new(),
        about: String::new(),
        sizes: vec![Size {
            label: String::new(),
            occluder: Occluder::new(
                Waist {
                    diameter: 0.0,
                    length: 0.0,
                },
                PerFace::new(None, None),
            ),
            sheath: Sheath {
                french: 0.0,
                outer_diameter: None,
            },
        }],
    }
}

/// Numbers are written to a ten-thousandth.
const ROUNDING: f64 = 1e4;

/// A disc of which only the diameter was given.
const NEW_DISC: Disc = Disc {
    radius: 0.0,
    thickness: 1.0,
    offset: Vec2::ZERO,
};
