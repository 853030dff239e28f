//! Objects of a PDF (ISO 32000-1, 7.3), as much of them as attachments need.

use std::collections::BTreeMap;

/// Levels of lists and tables within each other, at most.
const DEEPEST: usize = 24;
/// Entries of one list or table, at most.
const MOST: usize = 100_000;

/// An object.
#[derive(Debug, Clone, PartialEq)]
pub enum Object {
    /// `null`, `true`, `false` and numbers with a fraction, which nothing here asks for.
    Other,
    /// A whole number.
    Number(u64),
    /// A name without its slash.
    Name(String),
    /// The bytes of a string.
    Text(Vec<u8>),
    /// A reference to an object by its number.
    Reference(u64),
    /// An array.
    List(Vec<Object>),
    /// A dictionary.
    Dict(Dict),
}

/// A dictionary.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Dict(BTreeMap<String, Object>);

impl Dict {
    /// The object at a key.
    pub fn get(&self, key: &str) -> Option<&Object> {
        self.0.get(key)
    }

    /// The text at a key: UTF-16 with its mark, or one byte a character (7.9.2.2).
    pub fn text(&self, key: &str) -> Option<String> {
        let Object::Text(bytes) = self.get(key)? else { return None };
        match bytes.strip_prefix(&[0xfe, 0xff]) {
            Some(rest) => {
                let units: Vec<u16> = rest.as_chunks::<2>().0.iter().map(|pair| u16::from_be_bytes(*pair)).collect();
                String::from_utf16(&units).ok()
            }
            None => Some(bytes.iter().map(|byte| char::from(*byte)).collect()),
        }
    }
}

/// Reads objects one after the other.
#[derive(Debug, Clone)]
pub struct Cursor<'a> {
    /// What is not yet read.
    pub rest: &'a [u8],
}

impl<'a> Cursor<'a> {
    /// Passes over white space and comments (7.2).
    pub fn blank(&mut self) {
        while let Some((first, rest)) = self.rest.split_first() {
            match first {
                0 | 9 | 10 | 12 | 13 | 32 => self.rest = rest,
                b'%' => {
                    let end = self.rest.iter().position(|byte| matches!(byte, b'\n' | b'\r'));
                    self.rest = self.rest.get(end.unwrap_or(self.rest.len())..).unwrap_or_default();
                }
                _ => return,
            }
        }
    }

    /// Takes these bytes, after white space, if they stand here.
    pub fn takes(&mut self, word: &[u8]) -> bool {
        self.blank();
        match self.rest.strip_prefix(word) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    /// A whole number without a sign.
    pub fn number(&mut self) -> Option<u64> {
        self.blank();
        let end = self.rest.iter().position(|byte| !byte.is_ascii_digit()).unwrap_or(self.rest.len());
        let (digits, rest) = self.rest.split_at_checked(end)?;
        let number = std::str::from_utf8(digits).ok()?.parse().ok()?;
        self.rest = rest;
        Some(number)
    }

    /// The next object; none if there is none that can be read.
    pub fn object(&mut self) -> Option<Object> {
        self.within(0)
    }

    fn within(&mut self, depth: usize) -> Option<Object> {
        self.blank();
        match self.rest {
            _ if depth > DEEPEST => None,
            [b'<', b'<', ..] => self.dict(depth),
            [b'<', ..] => self.hexadecimal(),
            [b'(', ..] => self.literal(),
            [b'/', ..] => Some(Object::Name(self.name())),
            [b'[', ..] => self.list(depth),
            [b'0'..=b'9', ..] => Some(self.counted()),
            _ => self.word(),
        }
    }

    fn dict(&mut self, depth: usize) -> Option<Object> {
        self.takes(b"<<");
        let mut entries = BTreeMap::new();
        while !self.takes(b">>") {
            let named = self.rest.starts_with(b"/") && entries.len() < MOST;
            let key = named.then(|| self.name())?;
            // A key twice could be read in two ways.
            let fresh = entries.insert(key, self.within(depth + 1)?).is_none();
            fresh.then_some(())?;
        }
        Some(Object::Dict(Dict(entries)))
    }

    fn list(&mut self, depth: usize) -> Option<Object> {
        self.takes(b"[");
        let mut list = Vec::new();
        while !self.takes(b"]") {
            (list.len() < MOST).then_some(())?;
            list.push(self.within(depth + 1)?);
        }
        Some(Object::List(list))
    }

    /// A number, or a reference, which is two numbers and an R.
    fn counted(&mut self) -> Object {
        let start = self.clone();
        let number = self.number();
        if self.rest.starts_with(b".") {
            *self = start;
            return self.word().unwrap_or(Object::Other);
        }
        let after = self.clone();
        match number {
            Some(number) if self.number().is_some() && self.takes(b"R") => Object::Reference(number),
            Some(number) => {
                *self = after;
                Object::Number(number)
            }
            None => {
                *self = start;
                self.word().unwrap_or(Object::Other)
            }
        }
    }

    /// A word that means nothing here.
    fn word(&mut self) -> Option<Object> {
        let part = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'+' | b'-' | b'.');
        let end = self.rest.iter().position(|byte| !part(byte)).unwrap_or(self.rest.len());
        self.rest = self.rest.get(end..)?;
        (end > 0).then_some(Object::Other)
    }

    fn name(&mut self) -> String {
        let all = self.rest.get(1..).unwrap_or_default();
        let end = |byte: &u8| {
            matches!(byte, 0 | 9 | 10 | 12 | 13 | 32 | b'/' | b'<' | b'>' | b'[' | b']' | b'(' | b')' | b'%')
        };
        let (name, rest) = all.split_at(all.iter().position(end).unwrap_or(all.len()));
        self.rest = rest;
        String::from_utf8_lossy(name).into_owned()
    }

    fn hexadecimal(&mut self) -> Option<Object> {
        let end = self.rest.iter().position(|byte| *byte == b'>')?;
        let (digits, rest) = self.rest.split_at_checked(end + 1)?;
        self.rest = rest;
        let digit = |byte: &u8| char::from(*byte).to_digit(16).and_then(|one| u8::try_from(one).ok());
        let digits: Vec<u8> = digits.iter().filter_map(digit).collect();
        Some(Object::Text(digits.chunks(2).map(|pair| pair.iter().fold(0, |sum, one| sum << 4 | one)).collect()))
    }

    /// A string in round brackets (7.3.4.2).
    fn literal(&mut self) -> Option<Object> {
        let (mut out, mut depth) = (Vec::new(), 0);
        let mut bytes = self.rest.iter().enumerate().peekable();
        while let Some((at, byte)) = bytes.next() {
            match byte {
                b'(' => depth += 1,
                b')' => depth -= 1,
                b'\\' => {
                    let (_, next) = bytes.next()?;
                    out.extend(escaped(*next, &mut || {
                        bytes.next_if(|(_, one)| matches!(one, b'0'..=b'7')).map(|one| *one.1)
                    }));
                    continue;
                }
                _ => {}
            }
            if depth == 0 {
                self.rest = self.rest.get(at + 1..)?;
                return Some(Object::Text(out));
            }
            if !(*byte == b'(' && depth == 1 && at == 0) {
                out.push(*byte);
            }
        }
        None
    }
}

/// What stands for an escape; `more` gives the octal digits that follow.
fn escaped(first: u8, more: &mut dyn FnMut() -> Option<u8>) -> Option<u8> {
    match first {
        b'n' => Some(b'\n'),
        b'r' => Some(b'\r'),
        b't' => Some(b'\t'),
        b'b' => Some(8),
        b'f' => Some(12),
        b'0'..=b'7' => {
            let mut value = u32::from(first - b'0');
            for _ in 0..2 {
                let Some(digit) = more() else { break };
                value = value * 8 + u32::from(digit - b'0');
            }
            u8::try_from(value & 0xff).ok()
        }
        b'\n' | b'\r' => None,
        other => Some(other),
    }
}
