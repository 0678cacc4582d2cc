use super::{Node, Outline, Unclosed, Via};

/// The deepest nesting that is followed, which is that of `ron`.
const NESTING: usize = 128;

/// Reads a text once from its start to its end.
pub(super) struct Scanner<'a> {
    text: &'a str,
    at: usize,
    nesting: usize,
    unclosed: Option<Unclosed>,
}

impl<'a> Scanner<'a> {
    pub(super) const fn new(text: &'a str) -> Self {
        Self {
            text,
            at: 0,
            nesting: 0,
            unclosed: None,
        }
    }

    /// The end of the comment that begins at a byte, without the line break
    /// after it; `None` where no comment begins.
    pub(super) fn comment_end(text: &'a str, at: usize) -> Option<usize> {
        let mut scanner = Self {
            at,
            ..Self::new(text)
        };
        if scanner.rest().starts_with("//") {
            scanner.skip_while(|it| it != '\n');
        } else if scanner.rest().starts_with("/*") {
            scanner.skip_block_comment();
        } else {
            return None;
        }
        Some(scanner.at)
    }

    pub(super) fn outline(mut self) -> Outline {
        self.skip_blank();
        while self.peek() == Some('#') {
            self.skip_attribute();
        }
        let root = self.value(Via::Root);
        Outline {
            root,
            unclosed: self.unclosed,
        }
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    fn skip_while(&mut self, wanted: impl Fn(char) -> bool) {
        self.at += self
            .rest()
            .find(|it| !wanted(it))
            .unwrap_or(self.rest().len());
    }

    /// To the end of the first such text, or of the file.
    fn skip_past(&mut self, wanted: &str) {
        self.at += self
            .rest()
            .find(wanted)
            .map_or(self.rest().len(), |found| found + wanted.len());
    }

    /// White space and comments.
    fn skip_blank(&mut self) {
        loop {
            self.skip_while(is_white);
            if self.rest().starts_with("//") {
                self.skip_past("\n");
            } else if self.rest().starts_with("/*") {
                self.skip_block_comment();
            } else {
                return;
            }
        }
    }

    fn skip_block_comment(&mut self) {
        let mut level = 0_usize;
        loop {
            let rest = self.rest();
            if rest.starts_with("/*") {
                level += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                level -= 1;
                self.at += 2;
            } else {
                self.skip();
                self.skip_while(|it| !matches!(it, '/' | '*'));
            }
            if level == 0 || self.rest().is_empty() {
                return;
            }
        }
    }

    /// `#![enable(…)]` and the like, before the value.
    fn skip_attribute(&mut self) {
        self.skip();
        self.skip_while(|it| it == '!' || is_white(it));
        if self.peek() == Some('[') {
            self.group();
        }
        self.skip_blank();
    }

    fn value(&mut self, via: Via) -> Node {
        self.skip_blank();
        let start = self.at;
        let inner = match self.peek() {
            None | Some(')' | ']' | '}' | ',') => Vec::new(),
            Some('(' | '[' | '{') => self.group(),
            Some(_) => self.scalar(),
        };
        Node {
            via,
            span: start..self.at,
            inner,
        }
    }

    /// Text, a character, a number, a word, or a word with a group after it.
    fn scalar(&mut self) -> Vec<Node> {
        let rest = self.rest();
        let unprefixed = rest.strip_prefix('b').unwrap_or(rest);
        let prefix = rest.len() - unprefixed.len();
        if unprefixed.starts_with('"') {
            self.at += prefix;
            self.skip_string();
        } else if unprefixed.starts_with('\'') {
            self.at += prefix;
            self.skip_character();
        } else if let Some(hashes) = raw_string_hashes(unprefixed) {
            self.at += prefix + 1 + hashes.len() + 1;
            self.skip_past(&format!("\"{hashes}"));
        } else {
            return self.word();
        }
        Vec::new()
    }

    fn skip_string(&mut self) {
        self.skip();
        loop {
            self.skip_while(|it| !matches!(it, '"' | '\\'));
            match self.peek() {
                Some('\\') => {
                    self.skip();
                    self.skip();
                }
                // Its closing quote, or the end of the text.
                _ => return self.skip(),
            }
        }
    }

    fn skip_character(&mut self) {
        self.skip();
        if self.peek() == Some('\\') {
            self.skip();
            self.skip();
            // The digits of \x41 and \u{41}.
            self.skip_while(|it| it.is_ascii_alphanumeric() || matches!(it, '{' | '}'));
        } else {
            self.skip();
        }
        if self.peek() == Some('\'') {
            self.skip();
        }
    }

    fn word(&mut self) -> Vec<Node> {
        let start = self.at;
        self.skip_word();
        let word = &self.text[start..self.at];
        if word.is_empty() {
            // A stray colon: left behind, or nothing would ever be.
            self.skip();
            return Vec::new();
        }
        let end = self.at;
        self.skip_blank();
        if !word.starts_with(is_word_start) || self.peek() != Some('(') {
            self.at = end;
            return Vec::new();
        }
        let mut inner = self.group();
        // `Some(value)` is the value.
        if word == "Some"
            && matches!(
                inner.as_slice(),
                [Node {
                    via: Via::Item(0),
                    ..
                }]
            )
        {
            return inner.pop().map_or_else(Vec::new, |only| only.inner);
        }
        inner
    }

    fn skip_word(&mut self) {
        loop {
            self.skip_while(|it| !is_white(it) && !ends_word(it));
            let rest = self.rest();
            if !rest.starts_with('/') || rest.starts_with("//") || rest.starts_with("/*") {
                return;
            }
            self.skip();
        }
    }

    /// What is in a bracket, up to the one that closes it.
    fn group(&mut self) -> Vec<Node> {
        let opened = self.at;
        let opening = self.peek();
        let closes = match opening {
            Some('(') => ')',
            Some('[') => ']',
            _ => '}',
        };
        self.skip();
        let mut inner = Vec::new();
        if self.nesting == NESTING {
            self.at = self.text.len();
            return inner;
        }
        self.nesting += 1;
        loop {
            self.skip_blank();
            match self.peek() {
                Some(it) if it == closes => {
                    self.skip();
                    break;
                }
                None | Some(')' | ']' | '}') => {
                    let until = self.at;
                    self.unclosed.get_or_insert(Unclosed {
                        opened,
                        closes,
                        until,
                    });
                    break;
                }
                Some(',') => self.skip(),
                Some(_) => inner.push(match opening {
                    Some('(') => self.field_or_item(inner.len()),
                    Some('[') => self.value(Via::Item(inner.len())),
                    _ => self.entry(),
                }),
            }
        }
        self.nesting -= 1;
        inner
    }

    fn field_or_item(&mut self, index: usize) -> Node {
        let start = self.at;
        if self.peek().is_some_and(is_word_start) && !self.starts_text() {
            self.skip_word();
            let name = start..self.at;
            self.skip_blank();
            if self.peek() == Some(':') {
                self.skip();
                return self.value(Via::Field(name));
            }
            self.at = start;
        }
        self.value(Via::Item(index))
    }

    fn entry(&mut self) -> Node {
        let key = self.value(Via::Root).span;
        self.skip_blank();
        if self.peek() == Some(':') {
            self.skip();
        }
        self.value(Via::Entry(key))
    }

    /// Whether text or a character with a prefix begins here: `b"…"`, `r#"…"#`.
    fn starts_text(&self) -> bool {
        let rest = self.rest();
        let unprefixed = rest.strip_prefix('b').unwrap_or(rest);
        unprefixed.starts_with(['"', '\'']) || raw_string_hashes(unprefixed).is_some()
    }
}

/// The hashes of `r"…"`, `r#"…"#` and so on.
fn raw_string_hashes(text: &str) -> Option<&str> {
    let after = text.strip_prefix('r')?;
    let quote = after.find(|it| it != '#')?;
    after[quote..].starts_with('"').then_some(&after[..quote])
}

/// White space as `ron` takes it.
const fn is_white(character: char) -> bool {
    matches!(
        character,
        ' ' | '\t'..='\r' | '\u{85}' | '\u{200e}' | '\u{200f}' | '\u{2028}' | '\u{2029}'
    )
}

fn is_word_start(character: char) -> bool {
    character == '_' || character.is_alphabetic()
}

const fn ends_word(character: char) -> bool {
    matches!(
        character,
        ',' | ':' | '(' | ')' | '[' | ']' | '{' | '}' | '"' | '\'' | '/'
    )
}
