use super::object::{Object, Reader, utf_16};
use std::collections::BTreeMap;

/// Words printed in one go.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What is copied from them.
    pub text: String,
    /// What the eye sees of them.
    pub printed: String,
    /// The number that ties them to their tag; `None` for what is only seen.
    pub mark: Option<i64>,
    /// Where they begin, in the units in which the page is written: millimetres from
    /// its upper left corner.
    pub at: [f64; 2],
    /// The size of their letters, in the same units.
    pub size: f64,
    /// The name of their face in the page.
    pub face: String,
}

/// The letters of the glyphs of a face, by its own table.
pub(super) fn letters(table: &[u8]) -> BTreeMap<u16, String> {
    let mut letters = BTreeMap::new();
    let mut reader = Reader {
        bytes: table,
        at: 0,
    };
    let mut is_in_table = false;
    let mut glyph = None;
    while let Some(next) = reader.object() {
        match (next, glyph.take()) {
            (Object::Word(word), _) => is_in_table = word == "beginbfchar",
            (Object::Bytes(bytes), None) if is_in_table => glyph = Some(number(&bytes)),
            (Object::Bytes(bytes), Some(glyph)) => {
                letters.insert(glyph, utf_16(&bytes));
            }
            _ => {}
        }
    }
    letters
}

fn number(bytes: &[u8]) -> u16 {
    bytes
        .iter()
        .fold(0, |all, &byte| all << 8 | u16::from(byte))
}

/// What a content prints, with the letters of the glyphs of each face.
pub fn parts(content: &[u8], faces: &BTreeMap<String, BTreeMap<u16, String>>) -> Vec<Part> {
    let mut reader = Reader {
        bytes: content,
        at: 0,
    };
    let mut operands: Vec<Object> = Vec::new();
    let mut marks: Vec<Mark> = Vec::new();
    let mut parts: Vec<Part> = Vec::new();
    let (mut at, mut face, mut size) = ([0.0; 2], String::new(), 0.0);
    while let Some(next) = reader.object() {
        let Object::Word(operator) = next else {
            operands.push(next);
            continue;
        };
        match operator.as_str() {
            "BMC" => marks.push(Mark::default()),
            "BDC" => marks.push(Mark::of(&operands[1])),
            "EMC" => {
                marks.pop();
            }
            "Tf" => {
                operands[0].name().clone_into(&mut face);
                size = operands[1].number();
            }
            "Tm" => at = [operands[4].number(), operands[5].number()],
            "Tj" => {
                let Object::Bytes(bytes) = &operands[0] else {
                    panic!("a string")
                };
                let glyphs = bytes.chunks(2).map(number);
                let printed = glyphs.map(|glyph| faces[&face][&glyph].as_str()).collect();
                parts.push(part(&mut marks, printed, at, size, &face));
            }
            _ => {}
        }
        operands.clear();
    }
    assert!(marks.is_empty(), "what is begun is ended");
    parts
}

fn part(marks: &mut [Mark], printed: String, at: [f64; 2], size: f64, face: &str) -> Part {
    let mark = marks.iter().find_map(|mark| mark.number);
    let mut texts = marks.iter_mut().filter_map(|mark| mark.text.as_mut());
    // What stands for the printed words is said once.
    let text = texts.next().map_or_else(|| printed.clone(), std::mem::take);
    Part {
        text,
        printed,
        mark,
        at,
        size,
        face: face.to_owned(),
    }
}

/// A marked part of the content.
#[derive(Debug, Default)]
struct Mark {
    number: Option<i64>,
    text: Option<String>,
}

impl Mark {
    fn of(properties: &Object) -> Self {
        let number = match properties.get("MCID") {
            Object::Number(number) => Some(*number as i64),
            _ => None,
        };
        let text = match properties.get("ActualText") {
            Object::Null => None,
            text => Some(text.text()),
        };
        Self { number, text }
    }
}
