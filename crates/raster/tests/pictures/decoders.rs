//! Bytes and cells back to pixels, written from the formats' own descriptions and
//! sharing nothing with the encoders.

use raster::{Cell, CellColour, Cells};
use scene::stroke::Rgb;

/// A picture read back, line by line.
pub(crate) struct Picture {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) colours: Vec<Option<Rgb>>,
}

impl Picture {
    fn new(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            colours: vec![None; width * height],
        }
    }

    /// The colour at shares of width and height.
    pub(crate) fn at(&self, [across, down]: [f64; 2]) -> Rgb {
        let (x, y) = (place(across, self.width), place(down, self.height));
        self.colours[y * self.width + x].expect("every pixel is painted")
    }
}

/// The element at a share of a length.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of 0 to 1"
)]
pub(crate) fn place(share: f64, length: usize) -> usize {
    (share * length as f64).floor() as usize
}

/// Reads sixels as a VT340 does: `ESC P … q`, raster attributes, colours in per cent
/// of red, green and blue, repeats, `$` and `-`.
pub(crate) fn sixel(bytes: &[u8]) -> Picture {
    let text = std::str::from_utf8(bytes).expect("sixels are ASCII");
    assert!(
        text.bytes()
            .all(|byte| byte == 0x1b || (0x20..0x7f).contains(&byte))
    );
    assert_eq!(text.matches('\x1b').count(), 2, "it begins and ends once");
    let body = text.strip_prefix("\x1bP").expect("begins");
    let body = body.strip_suffix("\x1b\\").expect("ends");
    let (_, body) = body.split_once('q').expect("sixels");
    let mut tokens = Tokens { rest: body };
    let mut picture = Picture::new(0, 0);
    let mut palette = vec![None; 256];
    let (mut colour, mut x, mut y, mut repeat) = (None, 0, 0, 1);
    while let Some(letter) = tokens.next() {
        match letter {
            '"' => {
                let size = tokens.numbers();
                assert_eq!(size[..2], [1, 1], "square pixels");
                picture = Picture::new(size[2], size[3]);
            }
            '#' => {
                let numbers = tokens.numbers();
                if let [number, 2, red, green, blue] = numbers[..] {
                    let channel = |share: usize| {
                        assert!(share <= 100);
                        u8::try_from((share * 255 + 50) / 100).expect("a byte")
                    };
                    let [red, green, blue] = [red, green, blue].map(channel);
                    palette[number] = Some(Rgb { red, green, blue });
                } else {
                    colour = Some(palette[numbers[0]].expect("a colour that was named"));
                }
            }
            '!' => repeat = tokens.numbers()[0],
            '$' => x = 0,
            '-' => (x, y) = (0, y + 6),
            '?'..='~' => {
                let bits = letter as u8 - b'?';
                for column in x..x + repeat {
                    for line in (0..6).filter(|line| bits >> line & 1 == 1) {
                        assert!(column < picture.width && y + line < picture.height);
                        picture.colours[(y + line) * picture.width + column] = colour;
                    }
                }
                (x, repeat) = (x + repeat, 1);
            }
            other => panic!("a stray {other:?}"),
        }
    }
    picture
}

struct Tokens<'a> {
    rest: &'a str,
}

impl Tokens<'_> {
    fn next(&mut self) -> Option<char> {
        let letter = self.rest.chars().next()?;
        self.rest = &self.rest[letter.len_utf8()..];
        Some(letter)
    }

    fn numbers(&mut self) -> Vec<usize> {
        let end = self
            .rest
            .find(|letter: char| !letter.is_ascii_digit() && letter != ';')
            .unwrap_or(self.rest.len());
        let (numbers, rest) = self.rest.split_at(end);
        self.rest = rest;
        numbers
            .split(';')
            .map(|number| number.parse().expect("a number"))
            .collect()
    }
}

/// The bytes that kitty escapes carry, their keys checked.
pub(crate) fn kitty(bytes: &[u8]) -> Vec<u8> {
    let text = std::str::from_utf8(bytes).expect("ASCII");
    let mut data = String::new();
    let mut escapes = text.split("\x1b_G").skip(1).peekable();
    assert!(text.starts_with("\x1b_G") && text.ends_with("\x1b\\"));
    let mut is_first = true;
    while let Some(escape) = escapes.next() {
        let escape = escape.strip_suffix("\x1b\\").expect("each escape ends");
        let (keys, chunk) = escape.split_once(';').expect("keys; data");
        let keys: Vec<&str> = keys.split(',').collect();
        assert!(keys.contains(&"q=2"), "it asks for no answer: {keys:?}");
        assert_eq!(keys.contains(&"m=1"), escapes.peek().is_some(), "{keys:?}");
        assert_eq!(keys.contains(&"a=T"), is_first, "{keys:?}");
        assert!(chunk.len() <= 4096);
        data.push_str(chunk);
        is_first = false;
    }
    base64(&data)
}

fn base64(text: &str) -> Vec<u8> {
    let mut bytes = Vec::new();
    let (mut bits, mut count) = (0_u32, 0);
    for letter in text.trim_end_matches('=').bytes() {
        let six = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            other => panic!("a stray {other}"),
        };
        bits = bits << 6 | u32::from(six);
        count += 6;
        if count >= 8 {
            count -= 8;
            bytes.push(u8::try_from(bits >> count & 0xff).expect("a byte"));
        }
    }
    bytes
}

/// Cells as a terminal paints them, two pixels across and four down each; `None` is
/// shown for the letters of words.
pub(crate) fn cells(cells: &Cells) -> Picture {
    let (columns, rows) = (
        usize::from(cells.size.columns),
        usize::from(cells.size.rows),
    );
    let mut picture = Picture::new(2 * columns, 4 * rows);
    for (index, cell) in cells.cells.iter().enumerate() {
        let [column, row] = [index % columns, index / columns];
        for part in 0..8 {
            let [x, y] = [2 * column + part % 2, 4 * row + part / 2];
            picture.colours[y * 2 * columns + x] =
                is_ink(cell, part).map(|ink| shown(if ink { cell.ink } else { cell.ground }));
        }
    }
    picture
}

/// Whether a part of a cell, of two by four, is ink; `None` for letters.
fn is_ink(cell: &Cell, part: usize) -> Option<bool> {
    let [right, line] = [part % 2, part / 2];
    let lower = line / 2;
    // Upper left, upper right, lower left, lower right.
    let quadrants = match cell.glyph {
        ' ' => "....",
        '▘' => "#...",
        '▝' => ".#..",
        '▀' => "##..",
        '▖' => "..#.",
        '▌' => "#.#.",
        '▞' => ".##.",
        '▛' => "###.",
        '▗' => "...#",
        '▚' => "#..#",
        '▐' => ".#.#",
        '▜' => "##.#",
        '▄' => "..##",
        '▙' => "#.##",
        '▟' => ".###",
        '█' => "####",
        _ => return None,
    };
    Some(quadrants.as_bytes()[2 * lower + right] == b'#')
}

fn shown(colour: CellColour) -> Rgb {
    match colour {
        CellColour::Rgb(colour) => colour,
        CellColour::Index(index) => Rgb::of_index(index).expect("16 or more"),
    }
}
