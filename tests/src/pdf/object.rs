use std::collections::BTreeMap;

/// A value of the file.
#[derive(Clone, Debug, PartialEq)]
pub enum Object {
    /// Nothing.
    Null,
    /// True or false.
    Truth(bool),
    /// A number.
    Number(f64),
    /// A name, without its slash.
    Name(String),
    /// A string of bytes.
    Bytes(Vec<u8>),
    /// A list.
    List(Vec<Self>),
    /// A dictionary, with its stream where it has one.
    Dictionary(BTreeMap<String, Self>, Vec<u8>),
    /// A reference to the object of a number.
    Reference(u32),
    /// A word that is none of these: an operator.
    Word(String),
}

impl Object {
    /// A value of a dictionary; `Null` where it has none.
    pub fn get(&self, key: &str) -> &Self {
        match self {
            Self::Dictionary(entries, _) => entries.get(key).unwrap_or(&Self::Null),
            _ => &Self::Null,
        }
    }

    /// The entries of a dictionary.
    pub fn entries(&self) -> impl Iterator<Item = (&str, &Self)> {
        let entries = match self {
            Self::Dictionary(entries, _) => Some(entries),
            _ => None,
        };
        let entries = entries.into_iter().flatten();
        entries.map(|(key, value)| (key.as_str(), value))
    }

    /// The items of a list.
    pub fn items(&self) -> &[Self] {
        match self {
            Self::List(items) => items,
            _ => &[],
        }
    }

    /// A name; empty where it is none.
    pub fn name(&self) -> &str {
        match self {
            Self::Name(name) => name,
            _ => "",
        }
    }

    /// A number; 0 where it is none.
    pub fn number(&self) -> f64 {
        match self {
            Self::Number(number) => *number,
            _ => 0.0,
        }
    }

    /// A text string, in UTF-16 behind its mark or in plain letters.
    pub fn text(&self) -> String {
        let Self::Bytes(bytes) = self else {
            return String::new();
        };
        match bytes.strip_prefix(&[0xfe, 0xff]) {
            Some(bytes) => utf_16(bytes),
            None => bytes.iter().map(|&byte| char::from(byte)).collect(),
        }
    }

    /// The bytes of a stream, made large again.
    pub fn stream(&self) -> Vec<u8> {
        let Self::Dictionary(_, bytes) = self else {
            return Vec::new();
        };
        if self.get("Filter").name() == "FlateDecode" {
            miniz_oxide::inflate::decompress_to_vec_zlib(bytes).expect("a whole stream")
        } else {
            bytes.clone()
        }
    }
}

/// Text in UTF-16, the larger byte first.
pub(super) fn utf_16(bytes: &[u8]) -> String {
    let units = bytes.chunks(2);
    let units = units.map(|pair| u16::from(pair[0]) << 8 | u16::from(*pair.get(1).unwrap_or(&0)));
    String::from_utf16_lossy(&units.collect::<Vec<_>>())
}

/// The objects of a file by their numbers.
pub fn objects(bytes: &[u8]) -> BTreeMap<u32, Object> {
    let mut objects = BTreeMap::new();
    let mut reader = Reader { bytes, at: 0 };
    // The number of an object stands two places before the word that begins it.
    let mut last = [Object::Null, Object::Null];
    while let Some(next) = reader.object() {
        if next == Object::Word("obj".to_owned()) {
            let number = last[0].number() as u32;
            let object = reader.object().unwrap_or(Object::Null);
            objects.insert(number, reader.with_stream(object));
        }
        let [_, later] = last;
        last = [later, next];
    }
    objects
}

/// Reads values one after the other.
pub(super) struct Reader<'a> {
    pub(super) bytes: &'a [u8],
    pub(super) at: usize,
}

const BLANKS: &[u8] = b" \t\r\n\0\x0c";
const DELIMITERS: &[u8] = b"()<>[]/%";

impl Reader<'_> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn take_while(&mut self, holds: impl Fn(u8) -> bool) -> &[u8] {
        let from = self.at;
        while self.peek().is_some_and(&holds) {
            self.at += 1;
        }
        &self.bytes[from..self.at]
    }

    fn skip_blanks(&mut self) {
        loop {
            self.take_while(|byte| BLANKS.contains(&byte));
            if self.peek() != Some(b'%') {
                return;
            }
            self.take_while(|byte| byte != b'\n');
        }
    }

    fn starts_with(&self, what: &[u8]) -> bool {
        self.bytes[self.at..].starts_with(what)
    }

    /// The next value; `None` at the end.
    pub(super) fn object(&mut self) -> Option<Object> {
        self.skip_blanks();
        Some(match self.peek()? {
            b'/' => {
                self.at += 1;
                Object::Name(self.word())
            }
            b'(' => self.literal(),
            b'[' => Object::List(self.until(b"]")),
            b'<' if self.starts_with(b"<<") => {
                self.at += 1;
                let mut values = self.until(b">>").into_iter();
                let mut entries = BTreeMap::new();
                while let (Some(key), Some(value)) = (values.next(), values.next()) {
                    entries.insert(key.name().to_owned(), value);
                }
                Object::Dictionary(entries, Vec::new())
            }
            b'<' => self.hexadecimal(),
            b')' | b']' | b'>' | b'{' | b'}' => {
                self.at += 1;
                Object::Null
            }
            _ => self.number_or_word(),
        })
    }

    fn word(&mut self) -> String {
        let word = self.take_while(|byte| !BLANKS.contains(&byte) && !DELIMITERS.contains(&byte));
        String::from_utf8_lossy(word).into_owned()
    }

    /// Values up to a closing sign.
    fn until(&mut self, end: &[u8]) -> Vec<Object> {
        self.at += 1;
        let mut values = Vec::new();
        loop {
            self.skip_blanks();
            if self.starts_with(end) {
                self.at += end.len();
                return values;
            }
            let Some(value) = self.object() else {
                return values;
            };
            values.push(value);
        }
    }

    fn number_or_word(&mut self) -> Object {
        let word = self.word();
        if let Ok(number) = word.parse() {
            return self.reference(number).unwrap_or(Object::Number(number));
        }
        match word.as_str() {
            "true" => Object::Truth(true),
            "false" => Object::Truth(false),
            "null" => Object::Null,
            _ => Object::Word(word),
        }
    }

    /// A number that begins `12 0 R`.
    fn reference(&mut self, number: f64) -> Option<Object> {
        let rest = self.bytes[self.at..].strip_prefix(b" 0 R")?;
        let ends = rest
            .first()
            .is_none_or(|byte| BLANKS.contains(byte) || DELIMITERS.contains(byte));
        if !ends {
            return None;
        }
        self.at += 4;
        Some(Object::Reference(number as u32))
    }

    fn hexadecimal(&mut self) -> Object {
        self.at += 1;
        let digits = self.take_while(|byte| byte != b'>').to_vec();
        self.at += 1;
        let digits: Vec<u32> = digits
            .into_iter()
            .filter_map(|byte| char::from(byte).to_digit(16))
            .collect();
        let bytes = digits.chunks(2);
        let bytes = bytes.map(|pair| (pair[0] << 4 | pair.get(1).unwrap_or(&0)) as u8);
        Object::Bytes(bytes.collect())
    }

    fn literal(&mut self) -> Object {
        self.at += 1;
        let (mut bytes, mut depth) = (Vec::new(), 1);
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'(' => depth += 1,
                b')' => depth -= 1,
                b'\\' => {
                    bytes.extend(self.escaped());
                    continue;
                }
                _ => {}
            }
            if depth == 0 {
                break;
            }
            bytes.push(byte);
        }
        Object::Bytes(bytes)
    }

    fn escaped(&mut self) -> Option<u8> {
        let byte = self.peek()?;
        self.at += 1;
        Some(match byte {
            b'n' => b'\n',
            b'r' => b'\r',
            b't' => b'\t',
            b'b' => 8,
            b'f' => 12,
            b'0'..=b'7' => {
                let mut value = u32::from(byte - b'0');
                for _ in 0..2 {
                    let Some(digit @ b'0'..=b'7') = self.peek() else {
                        break;
                    };
                    self.at += 1;
                    value = value * 8 + u32::from(digit - b'0');
                }
                value as u8
            }
            other => other,
        })
    }

    /// A dictionary with the stream that follows it.
    fn with_stream(&mut self, object: Object) -> Object {
        self.skip_blanks();
        let Object::Dictionary(entries, _) = &object else {
            return object;
        };
        if !self.starts_with(b"stream") {
            return object;
        }
        self.at += b"stream".len();
        self.take_while(|byte| byte == b'\r');
        self.at += 1;
        let length = object.get("Length").number() as usize;
        let bytes = self.bytes[self.at..self.at + length].to_vec();
        self.at += length;
        Object::Dictionary(entries.clone(), bytes)
    }
}
