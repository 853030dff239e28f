//! A sealed revision: one archive of both manifests and everything they name.
//!
//! ```text
//! outer.txt  inner.txt     the manifests
//! salt.txt                 what the salted digests of this revision were made with
//! findings.json            what was found, nothing lowered
//! figures.json             the own edition's figures
//! package.pdf              the factory's edition
//! files/..                 the own edition's files as they were, in the order of paths
//! ```

use std::fmt;

use super::archive::{ArchiveError, ArchiveFault, Member, stored, unpacked};
use super::digest::{Digest, keyed, sha256};
use super::manifest::{Inner, ManifestFault, Outer, Title};
use super::pdf;
use super::pdf::PdfFault;

/// The ending of a sealed file.
pub const ENDING: &str = "sealed";
/// Bytes of a sealed file or of a PDF that is opened, at most.
pub const LARGEST: u64 = 256 << 20;

const HEAD: [&str; 6] = ["outer.txt", "inner.txt", "salt.txt", "findings.json", "figures.json", "package.pdf"];
const FILES: &str = "files/";

/// The own edition of a revision.
#[derive(Debug, Clone, Copy)]
pub struct Own<'a> {
    /// What was found.
    pub findings: &'a str,
    /// Every figure.
    pub figures: &'a str,
    /// Every file it was read from, in the order of paths.
    pub files: &'a [Member<'a>],
}

/// A sealed revision that agrees with its manifests.
#[derive(Debug)]
pub struct Sealed<'a> {
    /// The link of the chain.
    pub outer: Outer,
    /// The outer manifest as it stands: what is signed.
    pub outer_text: &'a str,
    /// What the seal says.
    pub title: Title,
    /// What it consists of.
    pub inner: Inner,
    /// The inner manifest as it stands.
    pub inner_text: &'a str,
    /// Digest of the outer manifest: what stands for the whole.
    pub digest: Digest,
    /// The factory's edition.
    pub pdf: &'a [u8],
    /// What was found.
    pub findings: &'a [u8],
    /// Every figure of the own edition.
    pub figures: &'a [u8],
    /// The own edition's files by their path below the root.
    pub files: Vec<Member<'a>>,
}

/// What is not as it was sealed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SealFault {
    /// It is no archive as it is written.
    Archive(ArchiveFault),
    /// Where one part belongs there is another.
    Misplaced(&'static str, String),
    /// A part is missing.
    Missing(&'static str),
    /// A part that should be text is none.
    NoText(&'static str),
    /// A file is no part of a sealed revision.
    Foreign(String),
    /// The outer manifest is not as it is written.
    Outer(ManifestFault),
    /// The inner manifest is not as it is written.
    Inner(ManifestFault),
    /// The salt is not as it is written.
    Salt,
    /// The inner manifest says nothing of a seal.
    Untitled,
    /// The inner manifest is another one.
    OtherInner,
    /// A file is another one.
    Other(String),
    /// The manifests name two revisions, the outer and the inner one.
    Names(String, String),
    /// The files are out of order.
    Order,
    /// So many files are missing.
    Lost(usize),
    /// The PDF is no package.
    Pdf(PdfFault),
    /// The manifest that is attached to the PDF is another one.
    Attached,
}

impl fmt::Display for SealFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SealFault::Archive(why) => why.fmt(out),
            SealFault::Misplaced(name, there) => {
                write!(out, "where {name} belongs stands {there}: it is no sealed revision")
            }
            SealFault::Missing(name) => write!(out, "{name} is missing"),
            SealFault::NoText(name) => write!(out, "{name} is no text"),
            SealFault::Foreign(name) => write!(out, "{name} is no part of a sealed revision"),
            SealFault::Outer(why) => write!(out, "the outer manifest: {why}"),
            SealFault::Inner(why) => write!(out, "the inner manifest: {why}"),
            SealFault::Salt => out.write_str("the salt is not as it is written"),
            SealFault::Untitled => out.write_str("the inner manifest is not that of a sealed revision"),
            SealFault::OtherInner => out.write_str("the inner manifest is not the one that was sealed"),
            SealFault::Other(name) => write!(out, "{name} is not the one that was sealed"),
            SealFault::Names(outer, inner) => write!(out, "the manifests name two revisions, {outer} and {inner}"),
            SealFault::Order => out.write_str("its files are out of order"),
            SealFault::Lost(count) => write!(out, "{count} of the sealed files are missing"),
            SealFault::Pdf(why) => write!(out, "package.pdf: {why}"),
            SealFault::Attached => out.write_str("the manifest attached to package.pdf is not the inner manifest"),
        }
    }
}

impl std::error::Error for SealFault {}

/// The salt of one revision, from the secret of its folder: whoever shows one sealed file gives no other away.
pub fn salt(secret: &[u8; 32], revision: &str) -> [u8; 32] {
    keyed(secret, &[b"backtack salt\0", revision.as_bytes()]).0
}

/// Salted digests of what the own edition has beyond the factory's or otherwise, sorted.
pub fn own_digests(salt: &[u8; 32], inner: &Inner, own: &Own<'_>) -> Vec<Digest> {
    let mut all: Vec<Digest> =
        named(own).filter(|(name, bytes)| !public(inner, name, bytes)).map(|one| salted(salt, one)).collect();
    all.sort();
    all
}

/// The parts of the own edition by their names in the sealed file.
fn named<'a>(own: &Own<'a>) -> impl Iterator<Item = (String, &'a [u8])> {
    let head =
        [("findings.json".to_string(), own.findings.as_bytes()), ("figures.json".into(), own.figures.as_bytes())];
    head.into_iter().chain(own.files.iter().map(|(path, bytes)| (format!("{FILES}{path}"), *bytes)))
}

fn salted(salt: &[u8; 32], (name, bytes): (String, &[u8])) -> Digest {
    keyed(salt, &[name.as_bytes(), b"\0", bytes])
}

/// Whether the factory has the same bytes.
fn public(inner: &Inner, name: &str, bytes: &[u8]) -> bool {
    match name.strip_prefix(FILES) {
        Some(path) => {
            let at = inner.files.binary_search_by(|(one, _)| one.as_str().cmp(path));
            at.ok().and_then(|at| inner.files.get(at)).is_some_and(|(_, digest)| *digest == sha256(bytes))
        }
        None => name == "figures.json" && inner.figures == sha256(bytes),
    }
}

/// The bytes of a sealed file, and the digest that stands for it.
///
/// # Errors
/// If a path is no path below a folder, or there is too much of it.
pub fn sealed(
    inner: &Inner,
    before: Option<Digest>,
    salt: &[u8; 32],
    own: &Own<'_>,
    pdf: &[u8],
) -> Result<(Vec<u8>, Digest), ArchiveError> {
    let inner_text = inner.text();
    let revision = inner.title.as_ref().map_or_else(String::new, |title| title.revision.clone());
    let outer = Outer { revision, inner: sha256(inner_text.as_bytes()), pdf: sha256(pdf), before };
    let (outer_text, salt) = (outer.text(), format!("{}\n", Digest(*salt).hex()));
    let head: [&[u8]; 6] = [
        outer_text.as_bytes(),
        inner_text.as_bytes(),
        salt.as_bytes(),
        own.findings.as_bytes(),
        own.figures.as_bytes(),
        pdf,
    ];
    let paths: Vec<String> = own.files.iter().map(|(path, _)| format!("{FILES}{path}")).collect();
    let files = paths.iter().zip(own.files).map(|(path, (_, bytes))| (path.as_str(), *bytes));
    let bytes = stored(HEAD.into_iter().zip(head).chain(files))?;
    Ok((bytes, outer.digest()))
}

/// Reads a sealed file and holds everything in it against its manifests; its chain and what is attached to its PDF are
/// looked at elsewhere.
///
/// # Errors
/// Names the first thing that is not as it was sealed.
pub fn read(bytes: &[u8]) -> Result<Sealed<'_>, SealFault> {
    let mut members = unpacked(bytes).map_err(SealFault::Archive)?.into_iter();
    let mut head = [&bytes[..0]; 6];
    for (to, name) in head.iter_mut().zip(HEAD) {
        match members.next() {
            Some((there, bytes)) if there == name => *to = bytes,
            Some((there, _)) => return Err(SealFault::Misplaced(name, there.into())),
            None => return Err(SealFault::Missing(name)),
        }
    }
    let [outer_text, inner_text, salt_text, findings, figures, pdf] = head;
    for (name, bytes) in HEAD.into_iter().zip(head).take(5) {
        std::str::from_utf8(bytes).map_err(|_| SealFault::NoText(name))?;
    }
    let (outer_text, inner_text) = (utf8(outer_text), utf8(inner_text));
    let mut files = Vec::new();
    for (name, bytes) in members {
        let path = name.strip_prefix(FILES).ok_or_else(|| SealFault::Foreign(name.into()))?;
        files.push((path, bytes));
    }
    let outer = Outer::parse(outer_text).map_err(SealFault::Outer)?;
    let inner = Inner::parse(inner_text).map_err(SealFault::Inner)?;
    let salt = salt_of(utf8(salt_text))?;
    let title = inner.title.clone().ok_or(SealFault::Untitled)?;
    let digest = outer.digest();
    let sealed = Sealed { digest, outer, outer_text, title, inner, inner_text, pdf, findings, figures, files };
    agrees(&sealed, &salt)?;
    Ok(sealed)
}

/// Reads a sealed file and holds everything in it against its manifests, what is attached to its PDF too.
///
/// # Errors
/// Names the first thing that is not as it was sealed.
pub fn verified(bytes: &[u8]) -> Result<Sealed<'_>, SealFault> {
    let sealed = read(bytes)?;
    let attached = pdf::read(sealed.pdf).map_err(SealFault::Pdf)?;
    if attached.manifest == sealed.inner_text { Ok(sealed) } else { Err(SealFault::Attached) }
}

/// Text that was found to be text.
fn utf8(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap_or_default()
}

fn salt_of(text: &str) -> Result<[u8; 32], SealFault> {
    let digits = text.strip_suffix('\n').and_then(Digest::parse);
    digits.map(|digest| digest.0).ok_or(SealFault::Salt)
}

/// Whether every part is what the manifests say.
fn agrees(sealed: &Sealed<'_>, salt: &[u8; 32]) -> Result<(), SealFault> {
    let (outer, inner) = (&sealed.outer, &sealed.inner);
    if outer.inner != sha256(sealed.inner_text.as_bytes()) {
        return Err(SealFault::OtherInner);
    }
    if outer.pdf != sha256(sealed.pdf) {
        return Err(SealFault::Other("package.pdf".into()));
    }
    if sealed.title.revision != outer.revision {
        return Err(SealFault::Names(outer.revision.clone(), sealed.title.revision.clone()));
    }
    if !sealed.files.is_sorted_by(|a, b| a.0 < b.0) {
        return Err(SealFault::Order);
    }
    let own = Own { findings: utf8(sealed.findings), figures: utf8(sealed.figures), files: &sealed.files };
    let mut open: Vec<Digest> = inner.own.clone();
    for (name, bytes) in named(&own).filter(|(name, bytes)| !public(inner, name, bytes)) {
        let digest = salted(salt, (name.clone(), bytes));
        match open.binary_search(&digest) {
            Ok(at) => drop(open.remove(at)),
            Err(_) => return Err(SealFault::Other(name)),
        }
    }
    if open.is_empty() { Ok(()) } else { Err(SealFault::Lost(open.len())) }
}
