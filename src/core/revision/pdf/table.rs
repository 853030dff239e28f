//! Where the objects of a PDF stand (ISO 32000-1, 7.5).

use std::collections::BTreeMap;

use super::fault::{BytesFault, PdfFault};
use super::object::{Cursor, Dict, Object};

/// Objects, at most.
const MOST: usize = 2_000_000;
/// Times a file was added to, at most.
const MOST_UPDATES: usize = 100;
/// How far from its end a file says where its table stands.
const TAIL: usize = 1_024;

/// The table of a file.
#[derive(Debug)]
pub struct Table<'a> {
    bytes: &'a [u8],
    places: BTreeMap<u64, usize>,
    root: Object,
}

impl<'a> Table<'a> {
    /// Reads the tables of a file, the newest first.
    ///
    /// # Errors
    /// If it is no PDF, is encrypted, or was written by another program.
    pub fn read(bytes: &'a [u8]) -> Result<Table<'a>, PdfFault> {
        if !bytes.starts_with(b"%PDF-") {
            return Err(PdfFault::NoPdf);
        }
        let tail = bytes.get(bytes.len().saturating_sub(TAIL)..).unwrap_or_default();
        let start = tail.windows(9).rposition(|part| part == b"startxref").ok_or(PdfFault::CutOff)?;
        let mut at = Cursor { rest: tail.get(start + 9..).unwrap_or_default() }.number().ok_or(PdfFault::Rewritten)?;
        let mut table = Table { bytes, places: BTreeMap::new(), root: Object::Other };
        for _ in 0..MOST_UPDATES {
            let trailer = table.section(at).ok_or(PdfFault::Rewritten)?;
            if trailer.get("Encrypt").is_some() {
                return Err(PdfFault::Encrypted);
            }
            if let (Object::Other, Some(root)) = (&table.root, trailer.get("Root")) {
                table.root = root.clone();
            }
            match trailer.get("Prev") {
                None => return Ok(table),
                Some(Object::Number(before)) => at = *before,
                Some(_) => return Err(PdfFault::Rewritten),
            }
        }
        Err(PdfFault::Updates(MOST_UPDATES))
    }

    /// One table and its trailer. What a newer table said of an object holds.
    fn section(&mut self, at: u64) -> Option<Dict> {
        let mut cursor = self.cursor(usize::try_from(at).ok()?)?;
        cursor.takes(b"xref").then_some(())?;
        while !cursor.takes(b"trailer") {
            let (first, count) = (cursor.number()?, cursor.number()?);
            for number in 0..count {
                let (place, _) = (cursor.number()?, cursor.number()?);
                if cursor.takes(b"n") {
                    self.places.entry(first.checked_add(number)?).or_insert(usize::try_from(place).ok()?);
                } else {
                    cursor.takes(b"f").then_some(())?;
                }
                (self.places.len() <= MOST).then_some(())?;
            }
        }
        match cursor.object()? {
            Object::Dict(dict) => Some(dict),
            _ => None,
        }
    }

    fn cursor(&self, at: usize) -> Option<Cursor<'a>> {
        self.bytes.get(at..).map(|rest| Cursor { rest })
    }

    /// The document's root.
    pub fn root(&self) -> Object {
        self.root.clone()
    }

    /// Where the object of a number begins.
    fn place(&self, number: u64) -> Option<Cursor<'a>> {
        let mut cursor = self.cursor(*self.places.get(&number)?)?;
        let named = cursor.number() == Some(number) && cursor.number().is_some() && cursor.takes(b"obj");
        named.then_some(cursor)
    }

    /// An object, or the one it refers to.
    pub fn resolved(&self, object: &Object) -> Object {
        match object {
            Object::Reference(number) => {
                let object = self.place(*number).and_then(|mut cursor| cursor.object());
                object.filter(|object| !matches!(object, Object::Reference(_))).unwrap_or(Object::Other)
            }
            other => other.clone(),
        }
    }

    /// A dictionary.
    ///
    /// # Errors
    /// If the object is none.
    pub fn dict(&self, object: Object) -> Result<Dict, PdfFault> {
        match self.resolved(&object) {
            Object::Dict(dict) => Ok(dict),
            _ => Err(PdfFault::Rewritten),
        }
    }

    /// The dictionary at a key.
    pub fn entry(&self, dict: &Dict, key: &str) -> Option<Dict> {
        self.dict(dict.get(key)?.clone()).ok()
    }

    /// A stream: its dictionary, and its bytes as they stand (7.3.8).
    ///
    /// # Errors
    /// If the object is none, or is cut off.
    pub fn stream(&self, object: &Object) -> Result<(Dict, &'a [u8]), BytesFault> {
        let Object::Reference(number) = object else { return Err(BytesFault::CutOff) };
        let mut cursor = self.place(*number).ok_or(BytesFault::CutOff)?;
        let Some(Object::Dict(about)) = cursor.object() else { return Err(BytesFault::CutOff) };
        let begins = cursor.takes(b"stream");
        let rest = cursor.rest.strip_prefix(b"\r\n").or_else(|| cursor.rest.strip_prefix(b"\n"));
        let Some(Object::Number(length)) = about.get("Length").map(|length| self.resolved(length)) else {
            return Err(BytesFault::CutOff);
        };
        let bytes = rest.filter(|_| begins).and_then(|rest| rest.get(..usize::try_from(length).ok()?));
        Ok((about, bytes.ok_or(BytesFault::CutOff)?))
    }
}
