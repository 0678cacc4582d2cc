//! The faces as a file carries them: the glyphs that are used and no others.

use super::{compressed, points};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Dict, Finish, Name, Pdf, Rect, Ref, Str};
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;
use typeface::{CAP_HEIGHT, Weight};

const SYSTEM: SystemInfo = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};
/// The mark of a face that has not all of its glyphs.
const SUBSET: &str = "RIMWIS+";

/// Both faces, with the glyphs that were asked for.
pub(super) struct Faces([Used; 2]);

struct Used {
    weight: Weight,
    name: &'static [u8],
    refs: [Ref; 5],
    glyphs: GlyphRemapper,
    /// The letter of each glyph, by the number it has in the file.
    letters: BTreeMap<u16, char>,
}

/// Text as glyphs of a face.
pub(super) struct GlyphRun {
    /// The numbers of its glyphs, two bytes each.
    pub(super) bytes: Vec<u8>,
    /// Whether a reader gets back the very letters.
    pub(super) is_plain: bool,
}

impl Faces {
    pub(super) fn new(next: &mut Ref) -> Self {
        let mut used = |weight, name: &'static [u8]| Used {
            weight,
            name,
            refs: [(); 5].map(|()| next.bump()),
            glyphs: GlyphRemapper::new(),
            letters: BTreeMap::new(),
        };
        Self([used(Weight::Regular, b"F0"), used(Weight::Bold, b"F1")])
    }

    fn of(&mut self, weight: Weight) -> &mut Used {
        let [regular, bold] = &mut self.0;
        match weight {
            Weight::Regular => regular,
            Weight::Bold => bold,
        }
    }

    /// The name of a face in the resources of a page.
    pub(super) fn name(&mut self, weight: Weight) -> Name<'static> {
        Name(self.of(weight).name)
    }

    /// A text whose letters the face has, as glyphs.
    pub(super) fn shown(&mut self, text: &str, weight: Weight) -> GlyphRun {
        let used = self.of(weight);
        let mut shown = GlyphRun {
            bytes: Vec::with_capacity(2 * text.len()),
            is_plain: true,
        };
        for letter in text.chars() {
            let Some(glyph) = weight.glyph_number(letter) else {
                shown.is_plain = false;
                continue;
            };
            let number = used.glyphs.remap(glyph);
            let first = used.letters.entry(number).or_insert(letter);
            shown.is_plain &= *first == letter;
            shown.bytes.extend(number.to_be_bytes());
        }
        shown
    }

    pub(super) fn name_in(&self, fonts: &mut Dict) {
        for used in &self.0 {
            fonts.pair(Name(used.name), used.refs[0]);
        }
    }

    pub(super) fn write(&self, pdf: &mut Pdf) {
        for used in &self.0 {
            used.write(pdf);
        }
    }
}

impl Used {
    fn write(&self, pdf: &mut Pdf) {
        let face = self.weight.embedding();
        let name = format!("{SUBSET}{}", face.name);
        let name = Name(name.as_bytes());
        let [font, cid, descriptor, data, to_unicode] = self.refs;
        let mut writer = pdf.type0_font(font);
        writer.base_font(name);
        writer.encoding_predefined(Name(b"Identity-H"));
        writer.descendant_font(cid).to_unicode(to_unicode);
        writer.finish();
        let mut writer = pdf.cid_font(cid);
        writer.subtype(CidFontType::Type2).base_font(name);
        writer.system_info(SYSTEM).font_descriptor(descriptor);
        writer.cid_to_gid_map_predefined(Name(b"Identity"));
        let width = |number| {
            let letter = self.letters.get(&number);
            letter.map_or(0.0, |&letter| points(self.weight.thousandths(letter)))
        };
        let widths = (0..self.glyphs.num_gids()).map(width);
        writer.widths().consecutive(0, widths);
        writer.finish();
        let mut writer = pdf.font_descriptor(descriptor);
        let [left, bottom, right, top] = face.bounds.map(points);
        writer.name(name).flags(FontFlags::NON_SYMBOLIC);
        writer.bbox(Rect::new(left, bottom, right, top));
        writer.italic_angle(0.0).stem_v(points(face.stem));
        writer
            .ascent(points(face.ascent))
            .descent(points(face.descent));
        writer
            .cap_height(points(1000.0 * CAP_HEIGHT))
            .font_file2(data);
        writer.finish();
        // The face is its own subset where a part of it cannot be cut out.
        let cut = subsetter::subset(face.data, 0, &self.glyphs);
        debug_assert!(cut.is_ok());
        compressed(pdf, data, &cut.unwrap_or_default());
        let mut letters = UnicodeCmap::new(Name(b"Letters"), SYSTEM);
        for (&number, &letter) in &self.letters {
            letters.pair(number, letter);
        }
        compressed(pdf, to_unicode, &letters.finish());
    }
}
