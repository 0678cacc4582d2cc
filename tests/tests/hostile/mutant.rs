//! A text of a file changed at random, token by token.

use outside::stream::Stream;

/// What a hand, a program or someone with an intent may write in place of a token.
const WORDS: [&str; 44] = [
    "0",
    "-0.0",
    "-1",
    "1e308",
    "-1e308",
    "1e-320",
    "1e999",
    "NaN",
    "inf",
    "-inf",
    "99999999999999999999",
    "0x10",
    "1_000",
    "0.1e",
    "--1",
    "12 o'clock",
    "true",
    "None",
    "Some(",
    "Some(1)",
    "()",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ",",
    ",,",
    ":",
    "::",
    "\"",
    "\"\"",
    "'",
    "//",
    "/*",
    "*/",
    "r#\"",
    "\\",
    "#![enable(implicit_some)]",
    "\"\\u{202e}\"",
    "\"\u{1b}[2J\"",
    "\"\\u{0}\"",
    "\u{feff}",
];

/// Cuts a text into numbers and words, strings, comments, white space and single signs.
pub(crate) fn tokens(text: &str) -> Vec<&str> {
    let mut tokens = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let is_word = |letter: char| letter.is_alphanumeric() || "_.+-".contains(letter);
        let length = if first == '"' {
            let end = rest[1..].find('"');
            end.map_or(rest.len(), |end| end + 2)
        } else if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if is_word(first) {
            rest.find(|letter| !is_word(letter)).unwrap_or(rest.len())
        } else if first.is_whitespace() {
            let end = rest.find(|letter: char| !letter.is_whitespace());
            end.unwrap_or(rest.len())
        } else {
            first.len_utf8()
        };
        let (token, behind) = rest.split_at(length);
        tokens.push(token);
        rest = behind;
    }
    tokens
}

/// A text as a hand would change it: figures, words of a field for others that the
/// field has elsewhere, whole rows gone. Most of these are files still.
pub(crate) fn edited(text: &str, others: &[&str], stream: &mut Stream) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..=stream.place(3) {
        let at = stream.place(lines.len());
        let is_row = |line: &str| {
            let line = line.trim_end();
            line.ends_with("),") && line.matches('(').count() == line.matches(')').count()
        };
        if is_row(&lines[at]) && stream.number() < 0.3 {
            lines.remove(at);
            continue;
        }
        let cut = tokens(&lines[at]);
        let mut cut: Vec<String> = cut.into_iter().map(str::to_owned).collect();
        if !cut.is_empty() {
            let first = stream.place(cut.len());
            value(&mut cut, first, others, stream);
        }
        lines[at] = cut.concat();
    }
    lines.join("\n")
}

/// Puts another value in the place of the first one from a token on.
fn value(tokens: &mut [String], first: usize, others: &[&str], stream: &mut Stream) {
    let Some(colon) = tokens[first..].iter().position(|token| token == ":") else {
        return;
    };
    let (name, at) = (first + colon, first + colon + 2);
    if name == 0 || at >= tokens.len() {
        return;
    }
    if is_number(&tokens[at]) {
        tokens[at] = number(&tokens[at], stream);
        return;
    }
    let name = tokens[name - 1].as_str();
    let elsewhere: Vec<&str> = others
        .windows(4)
        .filter(|four| four[0] == name && four[1] == ":")
        .map(|four| four[3])
        .collect();
    if !elsewhere.is_empty() {
        elsewhere[stream.place(elsewhere.len())].clone_into(&mut tokens[at]);
    }
}

/// A text with one to six changes. `others` lends tokens of files of the same kind.
pub(crate) fn mutant(tokens: &[&str], others: &[&str], stream: &mut Stream) -> String {
    let mut changed: Vec<String> = tokens.iter().map(|&token| token.to_owned()).collect();
    for _ in 0..=stream.place(6) {
        change(&mut changed, others, stream);
    }
    changed.concat()
}

fn change(tokens: &mut Vec<String>, others: &[&str], stream: &mut Stream) {
    if tokens.is_empty() {
        return;
    }
    let at = stream.place(tokens.len());
    let span = at..(at + 1 + stream.place(12)).min(tokens.len());
    match stream.place(9) {
        0 => WORDS[stream.place(WORDS.len())].clone_into(&mut tokens[at]),
        // A number, the likeliest thing to be wrong, becomes another.
        1 | 2 => {
            let ahead = tokens[at..].iter().position(|token| is_number(token));
            if let Some(ahead) = ahead {
                tokens[at + ahead] = number(&tokens[at + ahead], stream);
            }
        }
        3 => others[stream.place(others.len())].clone_into(&mut tokens[at]),
        4 => drop(tokens.drain(span)),
        5 => {
            let twice: Vec<String> = tokens[span.clone()].to_vec();
            tokens.splice(span.end..span.end, twice);
        }
        6 => {
            let to = stream.place(tokens.len());
            tokens.swap(at, to);
        }
        7 => tokens.insert(at, WORDS[stream.place(WORDS.len())].to_owned()),
        // The end is lost, or one part is there very often.
        _ if stream.number() < 0.5 => tokens.truncate(at),
        _ => {
            let part: String = tokens[span.clone()].concat();
            let times = 1 << stream.place(12);
            tokens.insert(span.end, part.repeat(times));
        }
    }
}

fn is_number(token: &str) -> bool {
    token.starts_with(|first: char| first.is_ascii_digit() || first == '-')
}

/// Another number: ten times as much, with another sign, next to it, or from a list.
fn number(token: &str, stream: &mut Stream) -> String {
    let Ok(value) = token.parse::<f64>() else {
        return "0".to_owned();
    };
    match stream.place(8) {
        0 => format!("{}", value * 10.0),
        1 => format!("{}", value / 10.0),
        2 => format!("{}", -value),
        3 => format!("{}", value + 1.0),
        4 => format!("{}", value * 1e-9),
        5 => format!("{}", value * stream.between(0.2, 5.0)),
        _ => WORDS[stream.place(11)].to_owned(),
    }
}
