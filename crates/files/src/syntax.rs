//! Faults of a text that `ron` refuses, in words for someone who edits it by hand.

use crate::faults::{did_you_mean, one_of};
use crate::outline::{Node, Outline, Unclosed, Via};
use crate::text::excerpt;
use crate::{Diagnostic, Position, Source};
use ron::error::{Error, SpannedError};

/// The fault behind an error of `ron`.
pub(crate) fn explain(source: &Source, outline: &Outline, error: &SpannedError) -> Diagnostic {
    let at = Position {
        line: error.span.end.line,
        column: error.span.end.col,
    };
    let stop = StopPoint {
        source,
        outline,
        offset: source.offset(at),
    };
    stop.words_and_fields(&error.code)
        .or_else(|| stop.endless(&error.code))
        .or_else(|| stop.decimal_comma())
        .or_else(|| stop.number_with_unit())
        .or_else(|| stop.runaway_text())
        .or_else(|| stop.unclosed())
        .unwrap_or_else(|| stop.other(&error.code))
}

/// The place at which `ron` stopped, with the values around it.
struct StopPoint<'a> {
    source: &'a Source,
    outline: &'a Outline,
    offset: usize,
}

impl StopPoint<'_> {
    /// A fault at a byte, in the innermost of some values.
    fn fault(
        &self,
        offset: usize,
        within: &[&Node],
        found: &str,
        expected: impl AsRef<str>,
        remedy: impl AsRef<str>,
    ) -> Diagnostic {
        let mut path = String::new();
        let mut around: Option<&Node> = None;
        for node in within {
            if around.is_some_and(|around| is_stray(node, around)) {
                break;
            }
            node.push_to(&mut path, self.source.text());
            around = Some(node);
        }
        let (expected, remedy) = (expected.as_ref(), remedy.as_ref());
        Diagnostic::new(self.source, offset, &path, found, expected, remedy)
    }

    /// The values around the last thing that was read, blanks apart.
    fn last_read(&self) -> Vec<&Node> {
        self.outline
            .containing(self.before().trim_end().len().saturating_sub(1))
    }

    /// The values around the last byte that was read.
    fn behind(&self) -> Vec<&Node> {
        self.outline.containing(self.offset.saturating_sub(1))
    }

    /// The values around the next byte.
    fn ahead(&self) -> Vec<&Node> {
        self.outline.containing(self.offset)
    }

    fn before(&self) -> &str {
        self.source.slice(&(0..self.offset))
    }

    fn after(&self) -> &str {
        self.source.slice(&(self.offset..self.source.text().len()))
    }

    /// What is written where `ron` stopped.
    fn next(&self) -> String {
        let rest = self.after();
        let value = self.ahead().last().map(|node| node.span.clone());
        match (rest.chars().next(), value) {
            (None, _) => "the end of the file".to_owned(),
            (Some(sign), _) if "()[]{},:".contains(sign) => format!("`{sign}`"),
            (Some(_), Some(value)) if value.start == self.offset => {
                self.source.slice(&value).to_owned()
            }
            _ => leading(rest, |it| !it.is_whitespace() && !"()[]{},:".contains(it)).to_owned(),
        }
    }

    /// A misspelt, missing or doubled name, or a value of another kind.
    fn words_and_fields(&self, code: &Error) -> Option<Diagnostic> {
        let behind = self.behind();
        let innermost = behind.last()?;
        let start = innermost.extent().start;
        Some(match code {
            Error::NoSuchStructField {
                expected, found, ..
            } => {
                let known = expected.iter().copied();
                let mut remedy = did_you_mean(found, known.clone());
                if remedy.is_empty() {
                    remedy = self.why_unknown(found);
                }
                self.fault(
                    start,
                    &behind,
                    &format!("a field {found}"),
                    one_of(known),
                    remedy,
                )
            }
            Error::NoSuchEnumVariant {
                expected, found, ..
            } => {
                let known = expected.iter().copied();
                let remedy = did_you_mean(found, known.clone());
                self.fault(innermost.span.start, &behind, found, one_of(known), remedy)
            }
            Error::DuplicateStructField { field, .. } => self.fault(
                start,
                &behind,
                &format!("the field {field} again"),
                "it once",
                "Remove one.",
            ),
            Error::MissingStructField { field, .. } => {
                let ahead = self.ahead();
                let start = ahead.last()?.span.start;
                let found = format!("no field {field}");
                self.fault(
                    start,
                    &ahead,
                    &found,
                    "it here",
                    format!("Add `{field}: …`."),
                )
            }
            Error::InvalidValueForType { expected, .. } => {
                let found = self.source.slice(&innermost.span);
                self.fault(innermost.span.start, &behind, found, expected, "")
            }
            _ => return None,
        })
    }

    /// Why a field may stand where it is not known.
    fn why_unknown(&self, field: &str) -> String {
        let of_another = match field {
            "shapes" => "Is this file a catalogue?",
            "parameters" | "limits" => "Does this file hold a centre's rules?",
            "readings" => "Is this file a case?",
            _ if self.outline.unclosed.is_some() => "Is a `)` missing before it?",
            _ => "Take it out.",
        };
        of_another.to_owned()
    }

    /// Text or a comment that runs to the end of the file.
    fn endless(&self, code: &Error) -> Option<Diagnostic> {
        let (found, expected) = match code {
            Error::ExpectedStringEnd => ("text that does not end", "a closing quote"),
            Error::UnclosedBlockComment => ("a comment that does not end", "`*/`"),
            _ => return None,
        };
        let mut within = self.behind();
        within.pop();
        Some(self.fault(self.offset, &within, found, expected, "Close it."))
    }

    /// `8,5`: a number, a comma and at once another number.
    fn decimal_comma(&self) -> Option<Diagnostic> {
        let whole = self.before().strip_suffix(',')?;
        let start = whole.len() - trailing_digits(whole).len();
        let decimals = leading_digits(self.after());
        if start == whole.len() || decimals.is_empty() {
            return None;
        }
        let whole = &whole[start..];
        let remedy = format!("Write the decimal sign as a point: {whole}.{decimals}.");
        let within = self.outline.containing(start);
        Some(self.fault(
            start,
            &within,
            &format!("{whole},{decimals}"),
            "a number",
            remedy,
        ))
    }

    /// `8mm`: a number and at once a word.
    fn number_with_unit(&self) -> Option<Diagnostic> {
        let number = trailing_digits(self.before());
        let word: &str = leading(self.after(), |it| {
            it.is_alphabetic() || matches!(it, '/' | '%')
        });
        if number.is_empty() || word.is_empty() {
            return None;
        }
        let start = self.offset - number.len();
        let remedy = "Write the number alone; a unit has a field of its own.";
        let within = self.outline.containing(start);
        Some(self.fault(
            start,
            &within,
            &format!("{number}{word}"),
            "a number",
            remedy,
        ))
    }

    /// Text over several lines right before the error: its closing quote is
    /// likely missing, and the next opening quote has closed it.
    fn runaway_text(&self) -> Option<Diagnostic> {
        let end = self.before().trim_end().len();
        let within = self.last_read();
        let text = within.last()?;
        let written = self.source.slice(&text.span);
        if text.span.end != end || !written.starts_with('"') || !written.contains('\n') {
            return None;
        }
        let first_line = written.lines().next().unwrap_or_default();
        let last = self.source.position(end).line;
        let found = format!("{first_line}… up to the next quote in line {last}");
        let remedy = "Is its own closing quote missing?";
        Some(self.fault(text.span.start, &within, &found, "text in quotes", remedy))
    }

    /// A bracket without its counterpart, opened before the error.
    fn unclosed(&self) -> Option<Diagnostic> {
        let Unclosed {
            opened,
            closes,
            until,
        } = self.outline.unclosed.clone()?;
        // One that `ron` stops at is of the wrong kind, whatever follows.
        if opened >= self.offset {
            return None;
        }
        let opening = self.source.slice(&(opened..opened + 1));
        let until = self
            .source
            .slice(&(until..self.source.text().len()))
            .chars()
            .next()
            .map_or_else(
                || "the end of the file".to_owned(),
                |other| format!("the `{other}` in line {}", self.source.position(until).line),
            );
        let found = format!("`{opening}` that is not closed");
        let expected = format!("`{closes}` before {until}");
        let remedy = format!("Add the `{closes}`.");
        Some(self.fault(
            opened,
            &self.outline.containing(opened),
            &found,
            expected,
            remedy,
        ))
    }

    /// A fault of any other kind.
    fn other(&self, code: &Error) -> Diagnostic {
        let (expected, remedy) = match code {
            Error::ExpectedFloat => ("a number", ""),
            Error::ExpectedInteger => ("a whole number", ""),
            Error::ExpectedBoolean => ("true or false", ""),
            Error::ExpectedString if self.after().starts_with(char::is_alphabetic) => {
                ("text in quotes", "Put it in quotes.")
            }
            Error::ExpectedString => ("text in quotes", ""),
            Error::ExpectedIdentifier if self.after().starts_with('"') => {
                ("a word without quotes", "Take the quotes off.")
            }
            Error::ExpectedIdentifier | Error::SuggestRawIdentifier(_) => {
                ("a word of letters, digits and _", "")
            }
            Error::ExpectedArray => ("a list, `[ … ]`", ""),
            Error::ExpectedMap => ("a map, `{ \"name\": value, … }`", ""),
            Error::ExpectedStructLike
            | Error::ExpectedNamedStructLike(_)
            | Error::ExpectedDifferentStructName { .. } => ("`( … )`", ""),
            Error::ExpectedComma => ("a comma", "A comma stands between two values or fields."),
            Error::ExpectedMapColon => ("a colon", "A colon stands before each value."),
            Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd => ("`)`", ""),
            Error::ExpectedArrayEnd => ("`]`", ""),
            Error::ExpectedMapEnd => ("`}`", ""),
            Error::TrailingCharacters => ("nothing more", "The file ends with its last bracket."),
            Error::InvalidEscape(_) => return self.escape(),
            Error::ExceededRecursionLimit => ("brackets nested at most 128 deep", ""),
            Error::Eof => ("a value", ""),
            _ => return self.in_other_words(code),
        };
        let within = match code {
            Error::ExpectedComma => self.last_read(),
            _ => self.ahead(),
        };
        self.fault(self.offset, &within, &self.next(), expected, remedy)
    }

    /// A backslash in text before something it does not go with.
    fn escape(&self) -> Diagnostic {
        let start = self.before().rfind('\\').unwrap_or(self.offset);
        let found = self.source.slice(&(start..self.offset));
        let remedy = "Write a backslash that is meant as one twice.";
        self.fault(
            start,
            &self.behind(),
            found,
            r#"`\\`, `\"`, `\n` or `\u{…}`"#,
            remedy,
        )
    }

    /// The fault in the words of `ron` itself, where nothing better is known.
    fn in_other_words(&self, code: &Error) -> Diagnostic {
        let remedy = format!("{}.", excerpt(&code.to_string()));
        self.fault(
            self.offset,
            &self.ahead(),
            &self.next(),
            "well-formed RON",
            remedy,
        )
    }
}

/// Whether a value without a name stands among fields, where none can.
fn is_stray(node: &Node, around: &Node) -> bool {
    matches!(node.via, Via::Item(_))
        && around
            .inner
            .iter()
            .any(|inner| matches!(inner.via, Via::Field(_)))
}

fn leading(text: &str, wanted: impl Fn(char) -> bool) -> &str {
    &text[..text.find(|it| !wanted(it)).unwrap_or(text.len())]
}

fn leading_digits(text: &str) -> &str {
    leading(text, |it| it.is_ascii_digit())
}

/// The number at the end of a text: digits with a sign and points.
fn trailing_digits(text: &str) -> &str {
    let number = text.trim_end_matches(|it: char| it.is_ascii_digit() || it == '.');
    let number = number.strip_suffix(['-', '+']).unwrap_or(number);
    &text[number.len()..]
}
