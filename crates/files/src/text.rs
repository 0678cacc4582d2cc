//! Makes text from files safe to show.

use std::borrow::Cow;

/// Longest excerpt of a file in a message, in characters.
const EXCERPT: usize = 60;

/// The text with every character made visible that would steer a terminal,
/// reverse the reading direction, break the line or show nothing at all.
///
/// Nothing from a file is shown without it.
pub fn visible(text: &str) -> Cow<'_, str> {
    let is_plain = |byte: &u8| (b' '..=b'~').contains(byte);
    if !text.as_bytes().iter().all(is_plain) && text.chars().any(is_hidden) {
        Cow::Owned(
            text.chars()
                .fold(String::with_capacity(text.len()), push_visible),
        )
    } else {
        Cow::Borrowed(text)
    }
}

/// A visible excerpt short enough for a message, `…` where it was cut.
pub(crate) fn excerpt(text: &str) -> String {
    let mut characters = text.chars();
    let mut kept: String = characters.by_ref().take(EXCERPT).collect();
    if characters.next().is_some() {
        kept.push('…');
    }
    visible(&kept).into_owned()
}

fn push_visible(mut shown: String, character: char) -> String {
    match character {
        // U+2400 ␀ and on are the pictures of the C0 controls, in their order.
        '\0'..='\x1f' => shown.extend(char::from_u32(0x2400 + u32::from(character))),
        '\x7f' => shown.push('␡'),
        _ if is_hidden(character) => shown.push_str(&code_point(character)),
        _ => shown.push(character),
    }
    shown
}

fn code_point(character: char) -> String {
    format!("‹U+{:04X}›", u32::from(character))
}

pub(crate) const fn is_hidden(character: char) -> bool {
    matches!(character,
        '\0'..='\x1f' | '\x7f'..='\u{9f}'      // C0, DEL, C1
        | '\u{61c}' | '\u{200e}' | '\u{200f}'  // direction marks
        | '\u{202a}'..='\u{202e}'              // embeddings and overrides
        | '\u{2066}'..='\u{206f}'              // isolates, old format marks
        | '\u{2028}' | '\u{2029}'              // line and paragraph separator
        | '\u{ad}' | '\u{34f}' | '\u{180e}' | '\u{200b}'..='\u{200d}'
        | '\u{2060}'..='\u{2064}' | '\u{feff}' // no width
        | '\u{fff9}'..='\u{fffb}'              // interlinear notes
        | '\u{e0000}'..='\u{e007f}'            // tags
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn plain_text_is_left_as_it_is() {
        assert!(matches!(visible("Ränder 1,5 mm · α"), Cow::Borrowed(_)));
    }

    #[test]
    fn what_steers_or_hides_is_shown() {
        for (text, shown) in [
            ("\u{1b}[2J", "␛[2J"),
            ("a\0b\nc\td\x7f", "a␀b␊c␉d␡"),
            ("\u{9b}31m", "‹U+009B›31m"),
            ("5 mm\u{202e}mm 8", "5 mm‹U+202E›mm 8"),
            ("\u{2066}x\u{2069}", "‹U+2066›x‹U+2069›"),
            ("a\u{2028}b\u{200b}c\u{feff}", "a‹U+2028›b‹U+200B›c‹U+FEFF›"),
            ("\u{e0041}", "‹U+E0041›"),
        ] {
            assert_eq!(visible(text), shown);
        }
    }

    #[test]
    fn an_excerpt_is_short() {
        assert_eq!(excerpt(&"x".repeat(60)).chars().count(), 60);
        assert_eq!(excerpt(&"x".repeat(61)).chars().count(), 61);
        assert!(excerpt(&"x".repeat(61)).ends_with('…'));
    }

    proptest! {
        #[test]
        fn nothing_hidden_is_left(text in any::<String>()) {
            prop_assert!(!visible(&text).chars().any(is_hidden));
        }
    }
}
