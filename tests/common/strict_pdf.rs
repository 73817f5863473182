//! A strict reader of PDF files as this program writes them (ISO 32000-1:2008, 7.2 to 7.5): every object where the table of references
//! says, every dictionary, text and stream closed, nothing between them.

use std::collections::BTreeMap;

/// An object.
#[derive(Clone, Debug, PartialEq)]
pub enum Object {
    /// A number, a word, or a reference, as it is written.
    Word(String),
    Name(String),
    Text(Vec<u8>),
    List(Vec<Object>),
    Dictionary(BTreeMap<String, Object>),
}

/// A file: its objects by number, with the bytes of their streams, and its trailer.
pub struct File {
    pub objects: BTreeMap<u32, (Object, Option<Vec<u8>>)>,
    pub trailer: Object,
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> u8 {
        self.bytes[self.at]
    }

    fn space(&mut self) {
        while self.at < self.bytes.len() && b" \r\n\t\0\x0c".contains(&self.peek()) {
            self.at += 1;
        }
    }

    #[track_caller]
    fn expect(&mut self, word: &str) {
        let there = &self.bytes[self.at..(self.at + word.len()).min(self.bytes.len())];
        assert!(
            there == word.as_bytes(),
            "{word:?} at {}, not {:?}",
            self.at,
            String::from_utf8_lossy(there)
        );
        self.at += word.len();
    }

    fn is_next(&self, word: &str) -> bool {
        self.bytes[self.at..].starts_with(word.as_bytes())
    }

    fn regular(&mut self) -> String {
        let from = self.at;
        while self.at < self.bytes.len() && !b" \r\n\t\0\x0c()<>[]{}/%".contains(&self.peek()) {
            self.at += 1;
        }
        String::from_utf8(self.bytes[from..self.at].to_vec()).unwrap()
    }

    fn object(&mut self) -> Object {
        self.space();
        match self.peek() {
            b'/' => {
                self.at += 1;
                Object::Name(self.regular())
            }
            b'(' => Object::Text(self.text()),
            b'[' => {
                self.at += 1;
                let mut list = Vec::new();
                loop {
                    self.space();
                    if self.peek() == b']' {
                        self.at += 1;
                        return Object::List(list);
                    }
                    list.push(self.object());
                }
            }
            b'<' if self.is_next("<<") => {
                self.at += 2;
                let mut entries = BTreeMap::new();
                loop {
                    self.space();
                    if self.is_next(">>") {
                        self.at += 2;
                        return Object::Dictionary(entries);
                    }
                    self.expect("/");
                    let key = self.regular();
                    let value = self.object();
                    // A reference is three words.
                    let value = match value {
                        Object::Word(number) if number.bytes().all(|byte| byte.is_ascii_digit()) => {
                            self.reference(number)
                        }
                        value => value,
                    };
                    assert!(entries.insert(key.clone(), value).is_none(), "{key} is there twice");
                }
            }
            b'<' => {
                self.at += 1;
                let mut digits = Vec::new();
                while self.peek() != b'>' {
                    assert!(self.peek().is_ascii_hexdigit(), "at {}", self.at);
                    digits.push(self.peek());
                    self.at += 1;
                }
                self.at += 1;
                let pairs = digits
                    .chunks(2)
                    .map(|pair| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap());
                Object::Text(pairs.collect())
            }
            _ => {
                let word = self.regular();
                assert!(!word.is_empty(), "nothing is read at {}", self.at);
                Object::Word(word)
            }
        }
    }

    fn reference(&mut self, number: String) -> Object {
        let back = self.at;
        self.space();
        let generation = self.regular();
        self.space();
        if generation == "0" && self.is_next("R") {
            self.at += 1;
            return Object::Word(format!("{number} 0 R"));
        }
        self.at = back;
        Object::Word(number)
    }

    fn text(&mut self) -> Vec<u8> {
        self.expect("(");
        let (mut depth, mut text) = (1, Vec::new());
        loop {
            let byte = self.peek();
            self.at += 1;
            match byte {
                b'\\' => {
                    let next = self.peek();
                    self.at += 1;
                    match next {
                        b'n' => text.push(b'\n'),
                        b'r' => text.push(b'\r'),
                        b't' => text.push(b'\t'),
                        b'b' => text.push(8),
                        b'f' => text.push(12),
                        b'(' | b')' | b'\\' => text.push(next),
                        b'0'..=b'7' => {
                            let mut value = u32::from(next - b'0');
                            for _ in 0..2 {
                                if (b'0'..=b'7').contains(&self.peek()) {
                                    value = value * 8 + u32::from(self.peek() - b'0');
                                    self.at += 1;
                                }
                            }
                            text.push(value as u8);
                        }
                        _ => panic!("an escape that there is not, at {}", self.at),
                    }
                    continue;
                }
                b'(' => depth += 1,
                b')' => depth -= 1,
                _ => {}
            }
            if depth == 0 {
                return text;
            }
            text.push(byte);
        }
    }
}

/// Reads a file, every byte of it.
pub fn read(bytes: &[u8]) -> File {
    assert!(bytes.starts_with(b"%PDF-1."));
    let tail = String::from_utf8_lossy(&bytes[bytes.len() - 64..]).into_owned();
    let (_, tail) = tail.rsplit_once("startxref").unwrap();
    assert!(tail.trim_end().ends_with("%%EOF"), "{tail}");
    let table: usize = tail.split_whitespace().next().unwrap().parse().unwrap();
    let mut reader = Reader { bytes, at: table };
    reader.expect("xref");
    reader.space();
    assert_eq!(reader.regular(), "0");
    reader.space();
    let many: u32 = reader.regular().parse().unwrap();
    let mut places = Vec::new();
    for number in 0..many {
        reader.space();
        let place: usize = reader.regular().parse().unwrap();
        reader.space();
        reader.regular();
        reader.space();
        if reader.regular() == "n" {
            places.push((number, place));
        }
    }
    reader.space();
    reader.expect("trailer");
    let trailer = reader.object();
    let mut objects = BTreeMap::new();
    let mut ends: Vec<(usize, usize)> = Vec::new();
    for (number, place) in places {
        let mut reader = Reader { bytes, at: place };
        reader.expect(&format!("{number} 0 obj"));
        let object = reader.object();
        reader.space();
        let mut stream = None;
        if reader.is_next("stream") {
            reader.expect("stream");
            if reader.peek() == b'\r' {
                reader.at += 1;
            }
            reader.expect("\n");
            let Object::Dictionary(entries) = &object else { panic!("a stream without a dictionary") };
            let Object::Word(length) = &entries["Length"] else { panic!("{entries:?}") };
            let length: usize = length.parse().unwrap();
            stream = Some(bytes[reader.at..reader.at + length].to_vec());
            reader.at += length;
            reader.space();
            reader.expect("endstream");
            reader.space();
        }
        reader.expect("endobj");
        ends.push((place, reader.at));
        objects.insert(number, (object, stream));
    }
    // Between the objects there is nothing.
    ends.sort_unstable();
    for pair in ends.windows(2) {
        let between = &bytes[pair[0].1..pair[1].0];
        assert!(between.iter().all(u8::is_ascii_whitespace), "{:?}", String::from_utf8_lossy(between));
    }
    File { objects, trailer }
}

impl Object {
    /// Every key and name in it.
    pub fn names(&self, all: &mut Vec<String>) {
        match self {
            Self::Name(name) => all.push(name.clone()),
            Self::List(list) => list.iter().for_each(|inner| inner.names(all)),
            Self::Dictionary(entries) => {
                for (key, value) in entries {
                    all.push(key.clone());
                    value.names(all);
                }
            }
            Self::Word(_) | Self::Text(_) => {}
        }
    }
}
