//! Translation of the words of format 1 into those of format 2.
//!
//! This is the one place that knows the old words. A text of format 1 is put into
//! today's words before it is read, each word at its own place, and keeps the way
//! back: faults are told at the lines and columns, and in the words, of the file as
//! it is. Nothing else of a text is touched.

use crate::outline::{Node, Outline, Via, push_field};
use crate::source::Replacement;
use crate::{Diagnostic, FileKind, Source};
use FileKind::{Case, Catalogue, Guidance, HouseRules};
use measurement::Quantity;
use std::ops::Range;

/// The number of the format that is translated.
const OLD: &str = "1";
/// The number of the format of today.
pub(crate) const NEW: &str = "2";

/// A word of format 1, and its word of format 2.
type Renamed = (&'static str, &'static str);

/// Fields: in which files, within what, and both names. A list's items are written
/// `[]`.
const FIELDS: &[(FileKind, &str, &[Renamed])] = &[
    (
        Case,
        "",
        &[("route", "access"), ("no_such_neighbour", "out_of_reach")],
    ),
    (Case, "facts", &[("holes", "defects")]),
    (Case, "exceptions[]", LIMITS),
    (HouseRules, "limits[]", LIMITS),
    (Catalogue, "", &[("put_aside", "out_of_stock")]),
    (Catalogue, "shapes[].sizes[].left", OFFSETS),
    (Catalogue, "shapes[].sizes[].right", OFFSETS),
    (Catalogue, "shapes[].series[].left_disc", OFFSETS),
    (Catalogue, "shapes[].series[].right_disc", OFFSETS),
];

const LIMITS: &[Renamed] = &[("stop", "limit"), ("caution", "warning")];

const OFFSETS: &[Renamed] = &[
    ("offset_u", "offset_toward_12"),
    ("offset_v", "offset_toward_3"),
];

/// Values that are words of a list: in which files, where, and which words.
const VALUES: &[(FileKind, &str, Words)] = &[
    (Case, "readings[].of", Words::Address),
    (Case, "out_of_reach[]", Words::Of(NEIGHBOURS)),
    (Case, "exceptions[].rule", Words::Rule),
    (HouseRules, "parameters[].name", Words::Of(PARAMETERS)),
    (HouseRules, "limits[].check", Words::Of(CHECKS)),
    (HouseRules, "defaults[].of", Words::Address),
    (HouseRules, "doubts[].of[]", Words::Address),
    (HouseRules, "biases[].of[]", Words::Address),
    (HouseRules, "preferences[].of[]", Words::Address),
    (HouseRules, "wide_bounds[].of[]", Words::Address),
    (HouseRules, "measured_first[].all[]", Words::Address),
    (HouseRules, "measured_first[].one_of[]", Words::Address),
    (Guidance, "not_measured[].read[]", Words::Address),
];

/// The words that a value may be.
#[derive(Clone, Copy)]
enum Words {
    /// The words of a list.
    Of(&'static [Renamed]),
    /// The address of a quantity or of a fact.
    Address,
    /// The address of a rule, which begins with a check, a parameter or a quantity.
    Rule,
}

const NEIGHBOURS: &[Renamed] = &[
    ("left_tract", "left_outflow"),
    ("right_tract", "right_outflow"),
];

const PARAMETERS: &[Renamed] = &[("turn_sd", "rotation_sd")];

const CHECKS: &[Renamed] = &[
    ("hold_left", "rim_overlap_left"),
    ("hold_right", "rim_overlap_right"),
    ("hinge_lip_left", "rim_overlap_toward_valve_left"),
    ("hinge_lip_right", "rim_overlap_toward_valve_right"),
    ("grip", "waist_anchoring"),
    ("tract_share_left", "outflow_share_left"),
    ("tract_share_right", "outflow_share_right"),
    ("tract_gradient_left", "outflow_gradient_left"),
    ("tract_gradient_right", "outflow_gradient_right"),
    ("tract_width_left", "outflow_width_left"),
    ("tract_width_right", "outflow_width_right"),
    ("conduction_excess", "av_block_waist"),
    ("conduction_ratio", "av_block_ratio"),
    ("conduction_clamp", "av_block_pinched_wall"),
    ("conduction_disc", "av_block_disc"),
    ("chamber", "ventricle"),
    ("passage", "sheath_fit"),
];

/// The parts of an address: structures, then features.
const PARTS: [&[Renamed]; 2] = [
    &[
        ("throat", "defect"),
        ("left_tract", "left_outflow"),
        ("right_tract", "right_outflow"),
    ],
    &[
        ("major", "long_axis"),
        ("minor", "short_axis"),
        ("turn", "rotation"),
        ("shift_u", "offset_toward_12"),
        ("shift_v", "offset_toward_3"),
        ("azimuth", "clock_position"),
        ("lean", "annulus_angle"),
        ("sag", "cusp_depth"),
        // Of the facts.
        ("holes", "defects"),
    ],
];

/// The direction of a translation.
#[derive(Clone, Copy, PartialEq, Eq)]
enum TranslationDirection {
    /// From format 1 to format 2.
    Forward,
    /// From format 2 to format 1.
    Back,
}

impl TranslationDirection {
    /// The translation of a word of a list.
    fn in_list(self, list: &[Renamed], word: &str) -> Option<&'static str> {
        let found = list.iter().find(|(old, new)| match self {
            Self::Forward => *old == word,
            Self::Back => *new == word,
        });
        found.map(|(old, new)| match self {
            Self::Forward => *new,
            Self::Back => *old,
        })
    }

    /// The other address; `None` where an address is the same in both formats, or
    /// none.
    fn in_address(self, address: &str) -> Option<String> {
        let (structure, feature) = address.split_once('.')?;
        let parts = [
            self.in_list(PARTS[0], structure),
            self.in_list(PARTS[1], feature),
        ];
        if parts == [None, None] {
            return None;
        }
        let other = format!(
            "{}.{}",
            parts[0].unwrap_or(structure),
            parts[1].unwrap_or(feature)
        );
        let new = match self {
            Self::Forward => other.as_str(),
            Self::Back => address,
        };
        let is_known = Quantity::from_address(new).is_some() || new == "facts.defects";
        is_known.then_some(other)
    }

    /// The other address of a rule.
    fn in_rule(self, rule: &str) -> Option<String> {
        let name = rule.split([' ', '#']).next().unwrap_or_default();
        let other = self
            .in_list(CHECKS, name)
            .or_else(|| self.in_list(PARAMETERS, name))
            .map(ToOwned::to_owned)
            .or_else(|| self.in_address(name))?;
        Some(format!("{other}{}", &rule[name.len()..]))
    }

    fn in_words(self, words: Words, word: &str) -> Option<String> {
        match words {
            Words::Of(list) => self.in_list(list, word).map(ToOwned::to_owned),
            Words::Address => self.in_address(word),
            Words::Rule => self.in_rule(word),
        }
    }
}

/// A text in today's words, whatever words it is written in; or every word that
/// does not belong to the format it names.
pub(crate) fn in_todays_words(kind: FileKind, source: Source) -> Result<Source, Vec<Diagnostic>> {
    let text = source.text();
    let outline = Outline::of(text);
    let Some(format) = outline.root.field(text, "format") else {
        return Ok(source);
    };
    let format = format.span.clone();
    let (way, named) = match source.slice(&format) {
        OLD => (TranslationDirection::Forward, OLD),
        NEW => (TranslationDirection::Back, NEW),
        _ => return Ok(source),
    };
    // A word of the other format is one that this way leads away from.
    let of_other = match way {
        TranslationDirection::Forward => TranslationDirection::Back,
        TranslationDirection::Back => TranslationDirection::Forward,
    };
    let mut walk = Walk {
        kind,
        source: &source,
        way,
        of_other,
        named,
        replaced: Vec::new(),
        faults: Vec::new(),
    };
    walk.inside(&outline.root, "", "");
    if !walk.faults.is_empty() {
        return Err(walk.faults);
    }
    if way == TranslationDirection::Back {
        return Ok(source);
    }
    let mut replaced = walk.replaced;
    replaced.push((format, NEW.to_owned()));
    Ok(source.with_words(replaced))
}

/// One pass over a text.
struct Walk<'a> {
    kind: FileKind,
    source: &'a Source,
    way: TranslationDirection,
    of_other: TranslationDirection,
    /// The format that the file names.
    named: &'static str,
    replaced: Vec<Replacement>,
    faults: Vec<Diagnostic>,
}

impl Walk<'_> {
    /// Goes through the values in one. `at` is its path in today's words, with `[]`
    /// for every item, `path` the one that faults tell.
    fn inside(&mut self, node: &Node, at: &str, path: &str) {
        for inner in &node.inner {
            let mut here = at.to_owned();
            match &inner.via {
                Via::Field(span) => {
                    let name = self.source.slice(span);
                    let name = name.strip_prefix("r#").unwrap_or(name).to_owned();
                    push_field(&mut here, &self.field(at, path, span, &name));
                }
                Via::Item(_) => here.push_str("[]"),
                Via::Entry(_) | Via::Root => here.push_str("{}"),
            }
            if !self.is_asked(&here) {
                continue;
            }
            let mut told = path.to_owned();
            inner.push_to(&mut told, self.source.text());
            if inner.inner.is_empty() {
                self.value(inner, &here, &told);
            }
            self.inside(inner, &here, &told);
        }
    }

    /// Whether any word at a path, or further in, is one of either format alone: most of
    /// a text is passed over.
    fn is_asked(&self, at: &str) -> bool {
        let fields = FIELDS.iter().map(|(kind, within, _)| (kind, within));
        let values = VALUES.iter().map(|(kind, within, _)| (kind, within));
        fields
            .chain(values)
            .any(|(kind, within)| *kind == self.kind && within.starts_with(at))
    }

    /// A field's name in today's words.
    fn field(&mut self, at: &str, path: &str, span: &Range<usize>, name: &str) -> String {
        let all = FIELDS.iter();
        let here = all.filter(|(kind, within, _)| *kind == self.kind && *within == at);
        for (_, _, list) in here {
            if let Some(other) = self.of_other.in_list(list, name) {
                let mut told = path.to_owned();
                push_field(&mut told, name);
                self.fault(span, &told, name, other);
                return name.to_owned();
            }
            if let Some(new) = self
                .way
                .in_list(list, name)
                .filter(|_| self.way == TranslationDirection::Forward)
            {
                self.replaced.push((span.clone(), new.to_owned()));
                return new.to_owned();
            }
        }
        name.to_owned()
    }

    /// A value that may be a word of a list.
    fn value(&mut self, node: &Node, at: &str, path: &str) {
        let all = VALUES.iter();
        let mut here = all.filter(|(kind, within, _)| *kind == self.kind && *within == at);
        let Some((_, _, words)) = here.next() else {
            return;
        };
        let written = self.source.slice(&node.span);
        let is_quoted = written.ends_with(['"', '#']);
        let word = if is_quoted {
            ron::from_str::<String>(written).unwrap_or_default()
        } else {
            written.strip_prefix("r#").unwrap_or(written).to_owned()
        };
        if let Some(other) = self.of_other.in_words(*words, &word) {
            self.fault(&node.span, path, &word, &other);
        } else if self.way == TranslationDirection::Forward
            && let Some(new) = self.way.in_words(*words, &word)
        {
            let new = if is_quoted {
                crate::ron_text::quoted(&new)
            } else {
                new
            };
            self.replaced.push((node.span.clone(), new));
        }
    }

    /// A word of the other format.
    fn fault(&mut self, span: &Range<usize>, path: &str, found: &str, expected: &str) {
        let remedy = if self.named == NEW {
            format!("{found} is a word of format 1; the file says it is of format 2.")
        } else {
            format!(
                "{found} is a word of format 2; the file says it is of format 1. \
                 `rimwise check --fix` puts a whole file into the words of format 2, \
                 once it has those of one format alone."
            )
        };
        self.faults.push(Diagnostic::new(
            self.source,
            span.start,
            path,
            found,
            expected,
            &remedy,
        ));
    }
}

/// Whether a text says that it is of format 1.
pub(crate) fn is_of_format_1(text: &str) -> bool {
    let source = Source::new("", text);
    let outline = Outline::of(source.text());
    let format = outline.root.field(source.text(), "format");
    format.is_some_and(|format| source.slice(&format.span) == OLD)
}
