//! How values are written in RON.

use crate::text::is_hidden;
use std::fmt::Write as _;

/// One step of indentation.
pub(crate) const INDENT: &str = "    ";

/// A text in quotes, which reads as the same text again.
///
/// Characters that steer a terminal or show nothing are written as escapes.
pub(crate) fn quoted(text: &str) -> String {
    let mut written = String::with_capacity(text.len() + 2);
    written.push('"');
    for character in text.chars() {
        match character {
            '"' | '\\' => written.extend(['\\', character]),
            '\n' => written.push_str("\\n"),
            '\r' => written.push_str("\\r"),
            '\t' => written.push_str("\\t"),
            _ if is_hidden(character) => {
                // Writing to a string does not fail.
                let _ = write!(written, "\\u{{{:x}}}", u32::from(character));
            }
            _ => written.push(character),
        }
    }
    written.push('"');
    written
}

/// A number in its shortest form that reads as the same number again.
pub(crate) fn number(value: f64) -> String {
    format!("{}", value + 0.0)
}

/// The layout of the items of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Style {
    /// What stands before an item on its line.
    pub(crate) indent: String,
    /// Whether each field of an item has a line of its own.
    pub(crate) is_spread: bool,
    /// What ends a line.
    pub(crate) line_break: &'static str,
}

impl Style {
    /// The layout with all items on one line.
    pub(crate) const ROW: Self = Self {
        indent: String::new(),
        is_spread: false,
        line_break: "\n",
    };
}

/// A field's name and its text; `None` where the field is left out.
pub(crate) type Field = (&'static str, Option<String>);

/// Named fields in round brackets; those left out are not written.
pub(crate) fn record(fields: &[Field], style: &Style) -> String {
    let written = fields
        .iter()
        .filter_map(|(name, value)| value.as_ref().map(|value| format!("{name}: {value}")));
    if !style.is_spread {
        return format!("({})", written.collect::<Vec<_>>().join(", "));
    }
    let Style {
        indent, line_break, ..
    } = style;
    let lines: Vec<String> = written
        .map(|field| format!("{line_break}{indent}{INDENT}{field},"))
        .collect();
    format!("({}{line_break}{indent})", lines.concat())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn fields_on_one_line_or_each_on_its_own() {
        let fields = [
            ("a", Some("1".into())),
            ("b", None),
            ("c", Some("x".into())),
        ];
        let mut style = Style {
            indent: "  ".into(),
            is_spread: false,
            line_break: "\n",
        };
        assert_eq!(record(&fields, &style), "(a: 1, c: x)");
        style.is_spread = true;
        assert_eq!(record(&fields, &style), "(\n      a: 1,\n      c: x,\n  )");
    }

    proptest! {
        #[test]
        fn any_text_reads_as_itself(text in any::<String>()) {
            let written = quoted(&text);
            prop_assert!(!written.chars().any(is_hidden));
            prop_assert_eq!(ron::from_str::<String>(&written), Ok(text));
        }

        #[test]
        fn any_number_reads_as_itself(value in prop_oneof![-1e3..1e3_f64, prop::num::f64::NORMAL]) {
            prop_assert_eq!(ron::from_str::<f64>(&number(value)), Ok(value));
        }
    }
}
