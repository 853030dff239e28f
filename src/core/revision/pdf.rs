//! The files attached to a PDF of ours, read without trusting it: a table of objects as plain text (ISO 32000-1, 7.5.4),
//! a name tree of embedded files (7.11.4), streams that are plain or deflated. Every loop and every size has its limit. A
//! PDF that another program rewrote is said to be so; one that was only added to is read.

mod fault;
mod object;
mod table;

use std::io::Read as _;

use super::archive::{self, Member};
use super::digest::sha256;
use super::manifest::Inner;
pub use fault::{ARCHIVE, BytesFault, FIGURES, MANIFEST, PdfFault};
use object::{Dict, Object};
use table::Table;

/// Bytes of all attachments together, at most.
const LARGEST: usize = 256 << 20;
const LARGE: BytesFault = BytesFault::Large(LARGEST >> 20);
/// Attachments, at most.
const MOST: usize = 100;
/// Levels of the name tree, at most.
const DEEPEST: usize = 8;

/// What a package of ours carries.
#[derive(Debug)]
pub struct Attached {
    /// The manifest as it stands.
    pub manifest: String,
    /// The manifest.
    pub inner: Inner,
    /// The text of the figures.
    pub figures: Vec<u8>,
    archive: Vec<u8>,
}

impl Attached {
    /// The attached files by their path below the root.
    ///
    /// # Errors
    /// If the archive is none of ours; [`read()`] has looked.
    pub fn files(&self) -> Result<Vec<Member<'_>>, PdfFault> {
        archive::unpacked(&self.archive).map_err(PdfFault::Archive)
    }
}

/// Reads what a PDF of ours carries and holds it against its manifest.
///
/// # Errors
/// Names the first thing that is wrong, in a few words.
pub fn read(pdf: &[u8]) -> Result<Attached, PdfFault> {
    let mut found = attachments(pdf)?;
    let mut take = |name: &'static str| {
        let at = found.iter().position(|(one, _)| one == name);
        at.map(|at| found.swap_remove(at).1).ok_or(PdfFault::Missing(name))
    };
    let (archive, figures, manifest) = (take(ARCHIVE)?, take(FIGURES)?, take(MANIFEST)?);
    if let Some((name, _)) = found.first() {
        return Err(PdfFault::Foreign(name.clone()));
    }
    let manifest = String::from_utf8(manifest).map_err(|_| PdfFault::ManifestText)?;
    let inner = Inner::parse(&manifest).map_err(PdfFault::Manifest)?;
    let attached = Attached { manifest, inner, figures, archive };
    agrees(&attached)?;
    Ok(attached)
}

/// Whether the attached files are those of the manifest.
fn agrees(attached: &Attached) -> Result<(), PdfFault> {
    let files = attached.files()?;
    if attached.inner.figures != sha256(&attached.figures) {
        return Err(PdfFault::Other(FIGURES.into()));
    }
    let mut listed = attached.inner.files.iter();
    for (path, bytes) in files {
        match listed.next() {
            Some((name, digest)) if name == path && *digest == sha256(bytes) => {}
            Some((name, _)) if name == path => return Err(PdfFault::Other(path.into())),
            _ => return Err(PdfFault::Misplaced(path.into())),
        }
    }
    listed.next().map_or(Ok(()), |(name, _)| Err(PdfFault::NotAttached(name.clone())))
}

/// Every embedded file by its name.
fn attachments(pdf: &[u8]) -> Result<Vec<(String, Vec<u8>)>, PdfFault> {
    let table = Table::read(pdf)?;
    let catalog = table.dict(table.root())?;
    let names = table.entry(&catalog, "Names").and_then(|names| table.entry(&names, "EmbeddedFiles"));
    let mut files = Vec::new();
    if let Some(tree) = names {
        leaves(&table, &tree, 0, &mut files)?;
    }
    let (mut all, mut room): (Vec<(String, Vec<u8>)>, usize) = (Vec::new(), LARGEST);
    for file in files {
        let name = file.text("UF").or_else(|| file.text("F")).ok_or(PdfFault::Nameless)?;
        if all.iter().any(|(one, _)| *one == name) {
            return Err(PdfFault::Twice(name));
        }
        match embedded(&table, &file, room) {
            Ok(bytes) => {
                room -= bytes.len();
                all.push((name, bytes));
            }
            Err(why) => return Err(PdfFault::Bytes { name, why }),
        }
    }
    Ok(all)
}

/// The file specifications of a name tree.
fn leaves(table: &Table<'_>, node: &Dict, depth: usize, found: &mut Vec<Dict>) -> Result<(), PdfFault> {
    if depth > DEEPEST {
        return Err(PdfFault::Deep);
    }
    let list = |key: &str| match node.get(key).map(|one| table.resolved(one)) {
        Some(Object::List(list)) => list,
        _ => Vec::new(),
    };
    for kid in list("Kids").iter().take(MOST + 1) {
        leaves(table, &table.dict(kid.clone())?, depth + 1, found)?;
    }
    for pair in list("Names").chunks(2).take(MOST + 1) {
        let [_, file] = pair else { return Err(PdfFault::List) };
        found.push(table.dict(file.clone())?);
        if found.len() > MOST {
            return Err(PdfFault::Many(MOST));
        }
    }
    Ok(())
}

/// The bytes of an embedded file, `room` of them at most.
fn embedded(table: &Table<'_>, file: &Dict, room: usize) -> Result<Vec<u8>, BytesFault> {
    let streams = table.entry(file, "EF").ok_or(BytesFault::None)?;
    let stream = streams.get("F").or_else(|| streams.get("UF")).ok_or(BytesFault::None)?;
    let (about, raw) = table.stream(stream)?;
    match about.get("Filter").map(|filter| table.resolved(filter)) {
        None if raw.len() > room => Err(LARGE),
        None => Ok(raw.to_vec()),
        Some(Object::Name(name)) if name == "FlateDecode" => inflated(raw, room),
        Some(Object::List(list)) if list == [Object::Name("FlateDecode".into())] => inflated(raw, room),
        Some(_) => Err(BytesFault::Packed),
    }
}

fn inflated(raw: &[u8], room: usize) -> Result<Vec<u8>, BytesFault> {
    let mut out = Vec::new();
    let most = u64::try_from(room).unwrap_or(u64::MAX).saturating_add(1);
    flate2::read::ZlibDecoder::new(raw).take(most).read_to_end(&mut out).map_err(|_| BytesFault::Broken)?;
    if out.len() > room { Err(LARGE) } else { Ok(out) }
}
