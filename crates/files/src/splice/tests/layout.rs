//! The same text laid out otherwise, and its comments.

use crate::CaseFile;
use crate::document::Step;
use sizing::Case;

/// A text in pieces: values, punctuation, comments; blanks left out.
fn pieces(text: &str) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.trim_start().chars().next() {
        rest = rest.trim_start();
        let length = match first {
            '"' => {
                let mut escaped = false;
                1 + rest[1..]
                    .find(|it| {
                        let ends = it == '"' && !escaped;
                        escaped = it == '\\' && !escaped;
                        ends
                    })
                    .unwrap()
                    + 1
            }
            '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
            '/' => rest.find("*/").unwrap() + 2,
            '(' | ')' | '[' | ']' | '{' | '}' | ',' | ':' => 1,
            _ => rest
                .find(|it: char| it.is_whitespace() || "()[]{},:/\"".contains(it))
                .unwrap_or(rest.len()),
        };
        pieces.push(rest[..length].to_owned());
        rest = &rest[length..];
    }
    pieces
}

/// Every comment of a text, trimmed.
pub(super) fn comments(text: &str) -> Vec<String> {
    let mut comments = pieces(text);
    comments.retain(|piece| piece.starts_with('/'));
    comments
        .iter()
        .map(|comment| comment.trim_end().to_owned())
        .collect()
}

/// The text with other blanks, new comments that are numbered, and commas at the
/// end of a group or none.
pub(super) fn laid_out(text: &str, shuffle: u64) -> String {
    let mut state = shuffle | 1;
    let mut random = |most: u64| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % most
    };
    let pieces = pieces(text);
    let mut written = String::new();
    for (number, piece) in pieces.iter().enumerate() {
        let next = pieces.get(number + 1).map_or("", String::as_str);
        let closes = |piece: &str| matches!(piece, ")" | "]" | "}");
        if piece == "," && closes(next) && random(2) == 0 {
            continue;
        }
        written.push_str(piece);
        if closes(next)
            && !matches!(piece.as_str(), "," | "(" | "[" | "{")
            && !piece.starts_with('/')
            && random(2) == 0
        {
            written.push(',');
        }
        if piece.starts_with("//") {
            written.push('\n');
            continue;
        }
        let number = number.to_string();
        // Between a name and its value a comment goes with the value.
        let kind = if piece == ":" || next == ":" {
            "v"
        } else {
            "c"
        };
        match random(12) {
            0 => written.extend([" /* ", kind, &number, " */ "]),
            1 => written.extend([" // ", kind, &number, "\n   "]),
            2 => written.extend(["/* ", kind, &number, "\n two lines */"]),
            3 => written.push_str("\r\n\t"),
            4 | 5 => written.push_str("\n        "),
            6 => written.push_str("\n\n"),
            _ => written.push(' '),
        }
    }
    written
}

/// The comments of a file that stay while it comes to say a case: all but those
/// within a reading or an exception that is taken out, or between a name and its
/// value.
pub(super) fn lasting(file: &CaseFile, wanted: &Case) -> Vec<String> {
    let was = file.value();
    let is_read = |id| wanted.readings.iter().any(|one| one.id == id);
    let is_excepted = |rule| wanted.exceptions.iter().any(|one| one.rule == rule);
    let readings = was.readings.iter().map(|one| is_read(one.id.clone()));
    let exceptions = was
        .exceptions
        .iter()
        .map(|one| is_excepted(one.rule.clone()));
    let mut spans = Vec::new();
    for (list, stays) in [
        ("readings", readings.collect::<Vec<_>>()),
        ("exceptions", exceptions.collect()),
    ] {
        let gone = (0..stays.len()).filter(|&index| !stays[index]);
        spans.extend(gone.map(|index| file.span(&[Step::Field(list), Step::Item(index)]).unwrap()));
    }
    spans.sort_by_key(|span| span.start);
    let (mut text, mut end) = (String::new(), 0);
    for span in spans {
        text.push_str(&file.source().text()[end..span.start]);
        end = span.end;
    }
    text.push_str(&file.source().text()[end..]);
    let mut comments = comments(&text);
    comments.retain(|comment| !comment.starts_with("// v") && !comment.starts_with("/* v"));
    comments
}
