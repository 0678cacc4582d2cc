//! JSON whose control characters are all escaped, in strings and keys alike, written
//! as it is made.

use anyhow::Result;
use files::visible;
use serde::Serialize;
use serde_json::ser::{CompactFormatter, Formatter, PrettyFormatter};
use std::io::{self, Write};

/// Writes a value for people as well, one line a field.
pub(super) fn pretty(out: &mut dyn Write, value: &impl Serialize) -> Result<()> {
    let formatter = Harmless(PrettyFormatter::new());
    value.serialize(&mut serde_json::Serializer::with_formatter(
        &mut *out, formatter,
    ))?;
    writeln!(out)?;
    Ok(())
}

/// Writes a value in one line.
pub(super) fn line(out: &mut dyn Write, value: &impl Serialize) -> Result<()> {
    let formatter = Harmless(CompactFormatter);
    value.serialize(&mut serde_json::Serializer::with_formatter(
        &mut *out, formatter,
    ))?;
    writeln!(out)?;
    Ok(())
}

/// A formatter that escapes what no terminal is to be sent.
struct Harmless<F>(F);

/// Hands what is no text on to the formatter within.
macro_rules! handed_on {
    ($($name:ident($($argument:ident: $type:ty),*);)*) => {$(
        fn $name<W: ?Sized + Write>(&mut self, out: &mut W, $($argument: $type),*) -> io::Result<()> {
            self.0.$name(out, $($argument),*)
        }
    )*};
}

impl<F: Formatter> Formatter for Harmless<F> {
    handed_on! {
        begin_array();
        end_array();
        begin_array_value(first: bool);
        end_array_value();
        begin_object();
        end_object();
        begin_object_key(first: bool);
        end_object_key();
        begin_object_value();
        end_object_value();
    }

    fn write_string_fragment<W: ?Sized + Write>(
        &mut self,
        out: &mut W,
        text: &str,
    ) -> io::Result<()> {
        let is_plain = |byte: u8| byte == b' ' || byte.is_ascii_graphic();
        if text.bytes().all(is_plain) {
            return out.write_all(text.as_bytes());
        }
        let mut buffer = [0; 4];
        for letter in text.chars() {
            let letter = letter.encode_utf8(&mut buffer);
            if visible(letter) == *letter {
                out.write_all(letter.as_bytes())?;
            } else {
                for unit in letter.encode_utf16() {
                    write!(out, "\\u{unit:04x}")?;
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_are_escaped_and_read_back() {
        let text = "a \u{9b}31m b\u{202e}c\u{7f} d\n\u{e000}é";
        let value = serde_json::json!({ "k\u{9b}": [text, 1.5, null], "empty": [] });
        let mut written = Vec::new();
        pretty(&mut written, &value).unwrap();
        let pretty = String::from_utf8(written).unwrap();
        assert!(
            pretty
                .chars()
                .all(|one| one == '\n' || visible(&one.to_string()) == one.to_string())
        );
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&pretty).unwrap(),
            value
        );
        let mut written = Vec::new();
        line(&mut written, &value).unwrap();
        assert_eq!(String::from_utf8_lossy(&written).lines().count(), 1);
        assert_eq!(
            serde_json::from_slice::<serde_json::Value>(&written).unwrap(),
            value
        );
    }
}
