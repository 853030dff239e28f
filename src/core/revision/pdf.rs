//! The files attached to a PDF of ours, read without trusting it: a table of objects as plain text (ISO 32000-1, 7.5.4),
//! a name tree of embedded files (7.11.4), streams that are plain or deflated. Every loop and every size has its limit. A
//! PDF that another program rewrote is said to be so; one that was only added to is read.

mod object;
mod table;

use std::io::Read as _;

use super::archive::{self, Member};
use super::digest::sha256;
use super::manifest::Inner;
use object::{Dict, Object};
use table::Table;

/// The attached archive, figures and manifest.
pub const ARCHIVE: &str = "specification.zip";
/// The attached figures.
pub const FIGURES: &str = "figures.json";
/// The attached manifest.
pub const MANIFEST: &str = "manifest.txt";

/// Bytes of all attachments together, at most.
const LARGEST: usize = 256 << 20;
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
    pub fn files(&self) -> Result<Vec<Member<'_>>, String> {
        archive::unpacked(&self.archive)
    }
}

/// Reads what a PDF of ours carries and holds it against its manifest.
///
/// # Errors
/// Names the first thing that is wrong, in a few words.
pub fn read(pdf: &[u8]) -> Result<Attached, String> {
    let mut found = attachments(pdf)?;
    let mut take = |name: &str| {
        let at = found.iter().position(|(one, _)| one == name);
        at.map(|at| found.swap_remove(at).1)
            .ok_or_else(|| format!("no {name} is attached: it is no package of backtack"))
    };
    let (archive, figures, manifest) = (take(ARCHIVE)?, take(FIGURES)?, take(MANIFEST)?);
    if let Some((name, _)) = found.first() {
        return Err(format!("{} is attached and does not belong there", name.escape_debug()));
    }
    let manifest = String::from_utf8(manifest).map_err(|_| format!("{MANIFEST} is no text"))?;
    let inner = Inner::parse(&manifest).map_err(|why| format!("{MANIFEST}: {why}"))?;
    let attached = Attached { manifest, inner, figures, archive };
    agrees(&attached)?;
    Ok(attached)
}

/// Whether the attached files are those of the manifest.
fn agrees(attached: &Attached) -> Result<(), String> {
    let files = attached.files().map_err(|why| format!("{ARCHIVE}: {why}"))?;
    if attached.inner.figures != sha256(&attached.figures) {
        return Err(format!("{FIGURES} is not that of {MANIFEST}"));
    }
    let mut listed = attached.inner.files.iter();
    for (path, bytes) in files {
        match listed.next() {
            Some((name, digest)) if name == path && *digest == sha256(bytes) => {}
            Some((name, _)) if name == path => return Err(format!("{path} is not that of {MANIFEST}")),
            _ => return Err(format!("{path} is not in {MANIFEST} at its place")),
        }
    }
    listed.next().map_or(Ok(()), |(name, _)| Err(format!("{name} of {MANIFEST} is not attached")))
}

/// Every embedded file by its name.
fn attachments(pdf: &[u8]) -> Result<Vec<(String, Vec<u8>)>, String> {
    let table = Table::read(pdf)?;
    let catalog = table.dict(table.root())?;
    let names = table.entry(&catalog, "Names").and_then(|names| table.entry(&names, "EmbeddedFiles"));
    let mut files = Vec::new();
    if let Some(tree) = names {
        leaves(&table, &tree, 0, &mut files)?;
    }
    let (mut all, mut room): (Vec<(String, Vec<u8>)>, usize) = (Vec::new(), LARGEST);
    for file in files {
        let name = file.text("UF").or_else(|| file.text("F")).ok_or("an attachment has no name")?;
        if all.iter().any(|(one, _)| *one == name) {
            return Err(format!("two attachments are called {}", name.escape_debug()));
        }
        let bytes = embedded(&table, &file, room).map_err(|why| format!("{}: {why}", name.escape_debug()))?;
        room -= bytes.len();
        all.push((name, bytes));
    }
    Ok(all)
}

/// The file specifications of a name tree.
fn leaves(table: &Table<'_>, node: &Dict, depth: usize, found: &mut Vec<Dict>) -> Result<(), String> {
    if depth > DEEPEST {
        return Err("its list of attachments goes too deep".into());
    }
    let list = |key: &str| match node.get(key).map(|one| table.resolved(one)) {
        Some(Object::List(list)) => list,
        _ => Vec::new(),
    };
    for kid in list("Kids").iter().take(MOST + 1) {
        leaves(table, &table.dict(kid.clone())?, depth + 1, found)?;
    }
    for pair in list("Names").chunks(2).take(MOST + 1) {
        let [_, file] = pair else { return Err("its list of attachments is broken".into()) };
        found.push(table.dict(file.clone())?);
        if found.len() > MOST {
            return Err(format!("more than {MOST} files are attached"));
        }
    }
    Ok(())
}

/// The bytes of an embedded file, `room` of them at most.
fn embedded(table: &Table<'_>, file: &Dict, room: usize) -> Result<Vec<u8>, String> {
    let streams = table.entry(file, "EF").ok_or("it has no bytes")?;
    let stream = streams.get("F").or_else(|| streams.get("UF")).ok_or("it has no bytes")?;
    let (about, raw) = table.stream(stream)?;
    let large = || format!("it is larger than {} MB", LARGEST >> 20);
    match about.get("Filter").map(|filter| table.resolved(filter)) {
        None if raw.len() > room => Err(large()),
        None => Ok(raw.to_vec()),
        Some(Object::Name(name)) if name == "FlateDecode" => inflated(raw, room, &large),
        Some(Object::List(list)) if list == [Object::Name("FlateDecode".into())] => inflated(raw, room, &large),
        Some(_) => Err("it is packed in a way that backtack does not write".into()),
    }
}

fn inflated(raw: &[u8], room: usize, large: &dyn Fn() -> String) -> Result<Vec<u8>, String> {
    let mut out = Vec::new();
    let most = u64::try_from(room).unwrap_or(u64::MAX).saturating_add(1);
    flate2::read::ZlibDecoder::new(raw).take(most).read_to_end(&mut out).map_err(|_| "its packed bytes are broken")?;
    if out.len() > room { Err(large()) } else { Ok(out) }
}
