//! A file with a text at the beginning of every string that may so begin.

use std::collections::{BTreeMap, BTreeSet};

/// What is read of a file when a text stands at the beginning of every string that
/// may so begin, and the fields that these are of: all strings of a field, or none.
pub(super) fn everywhere<T>(
    file: &str,
    text: &str,
    parse: impl Fn(&str) -> Option<T>,
) -> (T, BTreeSet<String>) {
    let mut read = parse(file).unwrap();
    let mut begun: BTreeMap<usize, String> = BTreeMap::new();
    let mut fields = BTreeSet::new();
    for (field, places) in strings(file) {
        let mut more = begun.clone();
        more.extend(
            places
                .iter()
                .map(|place| (*place, text.escape_unicode().to_string())),
        );
        if let Some(value) = parse(&with(file, &more)) {
            read = value;
            begun = more;
            fields.insert(field);
        }
    }
    (read, fields)
}

/// Where the strings of each field begin, comments left out.
fn strings(file: &str) -> BTreeMap<String, Vec<usize>> {
    let mut strings: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    let mut begin = 0;
    while let Some(found) = file[begin..].find(['"', '/']) {
        let at = begin + found;
        let rest = &file[at + 1..];
        if file[at..].starts_with('/') {
            let is_comment = rest.starts_with('/');
            let line = rest.find('\n').unwrap_or(rest.len());
            begin = at + 1 + if is_comment { line } else { 0 };
            continue;
        }
        let before = file[..at].trim_end().trim_end_matches(':');
        let field = before.rsplit(|letter: char| !letter.is_alphanumeric() && letter != '_');
        let field = field.take(1).collect::<String>();
        strings.entry(field).or_default().push(at + 1);
        begin = at + 1 + end(rest);
    }
    strings
}

/// Behind the end of a string.
fn end(rest: &str) -> usize {
    let mut is_escaped = false;
    let quote = rest.find(|letter| {
        let ends = letter == '"' && !is_escaped;
        is_escaped = letter == '\\' && !is_escaped;
        ends
    });
    quote.map_or(rest.len(), |quote| quote + 1)
}

/// The file with texts put in at places.
fn with(file: &str, texts: &BTreeMap<usize, String>) -> String {
    let mut whole = String::new();
    let mut begin = 0;
    for (place, text) in texts {
        whole.push_str(&file[begin..*place]);
        whole.push_str(text);
        begin = *place;
    }
    whole + &file[begin..]
}
