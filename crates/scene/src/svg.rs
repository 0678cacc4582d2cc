//! A drawing as an SVG 1.1 document: the only SVG writer.

use crate::stroke::colours::colour;
use crate::stroke::{
    Anchor, Dash, Drawing, Ink, PageGround, Path, PathStep, Rgb, Role, Stroke, Word,
};
use geometry::Mm;
use std::fmt::{self, Write as _};

/// The faces that words are set in, the embedded one first; each word says its
/// length, so that another face does not move it over its neighbours.
const FACES: &str = "Liberation Sans, Arial, Helvetica, sans-serif";

/// The rim of the ground round letters, as a share of their size.
const HALO: f64 = 0.26;

/// The drawing on a ground as a document of its own, one unit a millimetre: the
/// same bytes for the same drawing.
pub fn svg(drawing: &Drawing, ground: PageGround) -> String {
    let mut page = SvgPage {
        ground,
        text: String::new(),
    };
    let [width, height] = [drawing.width, drawing.height].map(Number);
    page.put(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" font-family=\"{FACES}\" role=\"img\">\n\
         <title>{}</title>\n<desc>{}</desc>\n\
         <rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n",
        Escaped(&drawing.title),
        Escaped(&drawing.alternative_text),
        Hex(colour(Role::Ground, ground)),
    ));
    for stroke in &drawing.strokes {
        page.stroke(stroke);
    }
    page.put(format_args!("</svg>\n"));
    page.text
}

struct SvgPage {
    ground: PageGround,
    text: String,
}

impl SvgPage {
    fn put(&mut self, text: fmt::Arguments) {
        // Writing to a string cannot fail.
        let _ = self.text.write_fmt(text);
    }

    fn stroke(&mut self, stroke: &Stroke) {
        let colour = Hex(colour(stroke.role, self.ground));
        match &stroke.ink {
            Ink::Fill(path) => {
                self.put(format_args!(
                    "<path fill=\"{colour}\" d=\"{}\"/>\n",
                    Steps(path)
                ));
            }
            Ink::Line { path, width, dash } => self.put(format_args!(
                "<path fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\" \
                 stroke-linejoin=\"round\"{} d=\"{}\"/>\n",
                Number(*width),
                Dashes(dash.as_ref()),
                Steps(path)
            )),
            Ink::Word(word) => self.word(word, &colour),
        }
    }

    fn word(&mut self, word: &Word, ink: &Hex) {
        let anchor = match word.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let weight = if word.is_bold {
            " font-weight=\"bold\""
        } else {
            ""
        };
        let length = Number(word.width());
        let placed = format!(
            "x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{anchor}\" \
             textLength=\"{length}\" lengthAdjust=\"spacingAndGlyphs\"{weight}",
            Number(word.at.x),
            Number(word.at.y),
            Number(word.size),
        );
        let text = Escaped(&word.text);
        if word.has_halo {
            // Under the letters, as a picture: nobody is to hear it read twice.
            let rim = Hex(colour(Role::Ground, self.ground));
            self.put(format_args!(
                "<text aria-hidden=\"true\" {placed} fill=\"{rim}\" stroke=\"{rim}\" \
                 stroke-width=\"{}\" stroke-linejoin=\"round\">{text}</text>\n",
                Number(word.size * HALO)
            ));
        }
        self.put(format_args!(
            "<text {placed} fill=\"{ink}\">{text}</text>\n"
        ));
    }
}

/// A length in the fewest letters that hold a thousandth.
struct Number(Mm);

impl fmt::Display for Number {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        let text = format!("{:.3}", self.0);
        let text = text.trim_end_matches('0').trim_end_matches('.');
        formatter.write_str(if text == "-0" { "0" } else { text })
    }
}

struct Hex(Rgb);

impl fmt::Display for Hex {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        let Rgb { red, green, blue } = self.0;
        write!(formatter, "#{red:02x}{green:02x}{blue:02x}")
    }
}

struct Dashes<'a>(Option<&'a Dash>);

impl fmt::Display for Dashes<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        match self.0 {
            Some(dash) => write!(
                formatter,
                " stroke-dasharray=\"{} {}\"",
                Number(dash.on),
                Number(dash.off)
            ),
            None => Ok(()),
        }
    }
}

struct Steps<'a>(&'a Path);

impl fmt::Display for Steps<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        for step in &self.0.0 {
            match step {
                PathStep::Move(to) => write!(formatter, "M{} {}", Number(to.x), Number(to.y))?,
                PathStep::Line(to) => write!(formatter, "L{} {}", Number(to.x), Number(to.y))?,
                PathStep::Cubic(first, second, to) => write!(
                    formatter,
                    "C{} {} {} {} {} {}",
                    Number(first.x),
                    Number(first.y),
                    Number(second.x),
                    Number(second.y),
                    Number(to.x),
                    Number(to.y)
                )?,
                PathStep::Close => formatter.write_str("Z")?,
            }
        }
        Ok(())
    }
}

/// Text that cannot be taken for markup: in SVG, in HTML and in other XML.
#[derive(Clone, Copy, Debug)]
pub struct Escaped<'a>(pub &'a str);

impl fmt::Display for Escaped<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        for letter in self.0.chars() {
            match letter {
                '&' => formatter.write_str("&amp;")?,
                '<' => formatter.write_str("&lt;")?,
                '>' => formatter.write_str("&gt;")?,
                '"' => formatter.write_str("&quot;")?,
                // XML has no place for these, not even as numbers.
                '\u{fffe}' | '\u{ffff}' => formatter.write_str("\u{fffd}")?,
                letter if letter.is_control() => formatter.write_str("\u{fffd}")?,
                letter => formatter.write_char(letter)?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
