use crate::Part;
use geometry::Mm;
use std::fmt;

/// How a part is drawn, lengths in millimetres of the picture.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    pub(super) width: Mm,
    pub(super) dashes: &'static str,
    pub(super) fill: &'static str,
}

/// The fills that the looks refer to.
pub(super) const PATTERNS: &str = "<defs>\
<pattern id=\"wall\" width=\"0.5\" height=\"0.5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">\
<path d=\"M0 0V0.5\" stroke=\"#999\" stroke-width=\"0.06\"/></pattern>\
<pattern id=\"overlap\" width=\"0.3\" height=\"0.3\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(-45)\">\
<path d=\"M0 0V0.3M0 0H0.3\" stroke=\"black\" stroke-width=\"0.12\"/></pattern></defs>";

/// A white edge round letters, so that they read over lines.
pub(super) const HALO: &str =
    "stroke=\"white\" stroke-width=\"0.25\" stroke-linejoin=\"round\" paint-order=\"stroke\"";

const NO_DASHES: &str = "none";
const DASHED: &str = "0.4 0.2";
const DOTTED: &str = "0.06 0.18";
const UNFILLED: &str = "none";

/// The look of a part: what is sewn to the child thin or patterned, what is laid
/// in thick, what must be seen black.
pub(super) const fn of(part: Part) -> Look {
    let (width, dashes, fill) = match part {
        Part::Wall => (0.05, NO_DASHES, "url(#wall)"),
        Part::HoleEdge => (0.12, NO_DASHES, UNFILLED),
        Part::Throat => (0.1, DOTTED, UNFILLED),
        Part::Bundle => (0.35, DOTTED, UNFILLED),
        Part::Tract(_) => (0.1, DASHED, UNFILLED),
        Part::Plate(_) | Part::Hinge(_) => (0.16, NO_DASHES, UNFILLED),
        Part::Cusps(_) => (0.05, DOTTED, "#eee"),
        Part::Disc(_) => (0.14, NO_DASHES, "#ddd"),
        Part::DiscBeside(_) => (0.06, DOTTED, UNFILLED),
        Part::Waist => (0.07, DASHED, "#f4f4f4"),
        Part::Overlap(_) => (0.12, NO_DASHES, "url(#overlap)"),
        Part::Clearance(_) => (0.1, NO_DASHES, UNFILLED),
        Part::Rim(_)
        | Part::Reach(_)
        | Part::Open(_)
        | Part::Thickness
        | Part::Clock
        | Part::Caption => (0.05, NO_DASHES, UNFILLED),
    };
    Look {
        width,
        dashes,
        fill,
    }
}

impl fmt::Display for Look {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        write!(
            formatter,
            "fill=\"{}\" stroke=\"black\" stroke-width=\"{}\" stroke-dasharray=\"{}\"",
            self.fill, self.width, self.dashes
        )
    }
}
