//! Text for a terminal, and bytes as a terminal takes them.

pub(crate) use paper::columns::{fitted, fitted_at_end, paragraph, wrapped};

/// Bytes in base 64 (RFC 4648, section 4).
pub(crate) fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let byte = |place: usize| u32::from(three.get(place).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for place in 0..4 {
            let letter = LETTERS[(bits >> (18 - 6 * place) & 63) as usize];
            text.push(if place > three.len() {
                '='
            } else {
                char::from(letter)
            });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::visible;
    use proptest::prelude::*;
    use unicode_width::UnicodeWidthStr;

    /// Letters of every kind that files may bring.
    const LETTERS: &str = "([a-z 心가ａé\u{301}\u{200d}\u{fe0f}\u{202e}\u{7}\tلا⠤‑…]|👩🏽|👧){0,60}";

    proptest! {
        #[test]
        fn no_text_of_a_file_is_wider_than_its_room(text in LETTERS, columns in 0..40_usize) {
            let text = visible(&text);
            prop_assert_eq!(fitted(&text, columns).width(), columns);
            prop_assert_eq!(fitted_at_end(&text, columns).width(), columns);
            // One wide letter needs two columns.
            let columns = columns.max(2);
            for line in wrapped(&text, columns) {
                prop_assert!(line.width() <= columns, "{line:?}");
            }
        }
    }

    #[test]
    fn base64_is_that_of_the_standard() {
        // RFC 4648, section 10.
        for (text, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(text.as_bytes()), coded);
        }
    }
}
