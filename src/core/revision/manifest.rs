//! What a revision consists of, in lines of plain text that anyone can check by hand.
//!
//! ```text
//! backtack manifest 1                    inner manifest: stands in the sealed file and, attached, in the PDF
//! tool 0.1.0                             the version that wrote it; these seven lines only once it is sealed
//! style HF-118
//! revision B
//! stage bulk
//! date 2026-11-20
//! by Maren Oake
//! reason Second sample approved
//! folder styles/tarn                     path of the style folder below the root; empty if it is the root
//! figures <SHA-256>                      figures.json of the factory's edition
//! file <SHA-256>  <path>                 each file of the factory's edition, in the order of paths
//! own <HMAC-SHA-256>                     each thing that only the own edition has, or has otherwise; salted, sorted
//!
//! backtack seal 1                        outer manifest: stands in the sealed file alone
//! revision B
//! inner <SHA-256>                        of the inner manifest
//! pdf <SHA-256>                          of the factory's PDF
//! before <SHA-256>                       of the outer manifest of the revision before, or `none`
//! ```
//! Two manifests, since the PDF holds the first one and the second one holds the digest of the PDF.

use std::fmt;

use super::digest::{Digest, sha256};
use crate::units::{Date, NoDate};

const INNER: &str = "backtack manifest 1";
const OUTER: &str = "backtack seal 1";
/// What stands for no revision before.
const NONE: &str = "none";
/// Longest value of a line, characters.
const LONGEST: usize = 500;

/// What a seal says of its revision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Title {
    /// Version of the program that sealed it.
    pub tool: String,
    /// Style number.
    pub style: String,
    /// Name of the revision.
    pub revision: String,
    /// prototype, counter sample, pre-production, bulk.
    pub stage: String,
    /// The day it was sealed.
    pub date: Date,
    /// Who sealed it.
    pub by: String,
    /// Why.
    pub reason: String,
}

/// What a package consists of; with a title once it is sealed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Inner {
    /// What the seal says; none where a package was only built.
    pub title: Option<Title>,
    /// Path of the style folder below the root.
    pub folder: String,
    /// Digest of the figures that the factory gets.
    pub figures: Digest,
    /// The factory's files in the order of their paths.
    pub files: Vec<(String, Digest)>,
    /// Salted digests of what only the own edition has, sorted.
    pub own: Vec<Digest>,
}

/// What makes a revision a link of its chain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outer {
    /// Name of the revision.
    pub revision: String,
    /// Digest of the inner manifest.
    pub inner: Digest,
    /// Digest of the factory's PDF.
    pub pdf: Digest,
    /// Digest of the outer manifest of the revision before.
    pub before: Option<Digest>,
}

/// What is wrong with a manifest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ManifestFault {
    /// It begins as no manifest of this kind, which would be so.
    Start(&'static str),
    /// It begins so, as another version writes it; this one reads the other.
    Version(String, &'static str),
    /// A line does not say what belongs there.
    Lacks(usize, &'static str),
    /// A value does not fit on its line.
    Value(usize, LineFault),
    /// A date is none.
    Date(usize, NoDate),
    /// A line is not as it is written.
    Line(usize),
    /// Its lines are out of order.
    Order,
}

/// Why a value does not fit on its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineFault {
    /// It has a line break or another control character.
    Control,
    /// It begins or ends with white space.
    Space,
    /// It has too many characters.
    Long,
}

impl fmt::Display for ManifestFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ManifestFault::Start(first) => write!(out, "it does not begin with \"{first}\""),
            ManifestFault::Version(there, first) => {
                write!(out, "it begins with \"{}\"; this version reads \"{first}\"", there.escape_debug())
            }
            ManifestFault::Lacks(line, key) => write!(out, "line {line} does not say `{key}`"),
            ManifestFault::Value(line, why) => write!(out, "line {line}: {why}"),
            ManifestFault::Date(line, why) => write!(out, "line {line}: {why}"),
            ManifestFault::Line(line) => write!(out, "line {line} is not as it is written"),
            ManifestFault::Order => out.write_str("its lines are out of order"),
        }
    }
}

impl fmt::Display for LineFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LineFault::Control => out.write_str("it has a line break or another control character"),
            LineFault::Space => out.write_str("it begins or ends with white space"),
            LineFault::Long => write!(out, "it has more than {LONGEST} characters"),
        }
    }
}

impl std::error::Error for ManifestFault {}

/// Whether a value fits on its line.
///
/// # Errors
/// Says what is wrong with it.
pub fn line(value: &str) -> Result<(), LineFault> {
    match () {
        () if value.chars().any(char::is_control) => Err(LineFault::Control),
        () if value.trim() != value => Err(LineFault::Space),
        () if value.chars().count() > LONGEST => Err(LineFault::Long),
        () => Ok(()),
    }
}

impl Inner {
    /// The manifest of a package that is only built.
    pub fn of<'a>(folder: &str, figures: &str, files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Inner {
        let mut files: Vec<(String, Digest)> =
            files.into_iter().map(|(path, bytes)| (path.to_string(), sha256(bytes))).collect();
        files.sort();
        Inner { title: None, folder: folder.to_string(), figures: sha256(figures.as_bytes()), files, own: Vec::new() }
    }

    /// The text of the manifest.
    pub fn text(&self) -> String {
        let mut text = format!("{INNER}\n");
        if let Some(title) = &self.title {
            let date = title.date.to_string();
            let lines = [
                ("tool", &title.tool),
                ("style", &title.style),
                ("revision", &title.revision),
                ("stage", &title.stage),
                ("date", &date),
                ("by", &title.by),
                ("reason", &title.reason),
            ];
            lines.iter().for_each(|(key, value)| text.push_str(&format!("{key} {value}\n")));
        }
        text.push_str(&format!("folder {}\nfigures {}\n", self.folder, self.figures.hex()));
        for (path, digest) in &self.files {
            text.push_str(&format!("file {}  {path}\n", digest.hex()));
        }
        self.own.iter().for_each(|digest| text.push_str(&format!("own {}\n", digest.hex())));
        text
    }

    /// Reads a manifest of exactly the form that is written.
    ///
    /// # Errors
    /// Names the line that is not.
    pub fn parse(text: &str) -> Result<Inner, ManifestFault> {
        let mut lines = Lines::of(text, INNER)?;
        let mut title = None;
        if let Some(tool) = lines.maybe("tool") {
            title = Some(Title {
                tool,
                style: lines.take("style")?,
                revision: lines.take("revision")?,
                stage: lines.take("stage")?,
                date: lines.date("date")?,
                by: lines.take("by")?,
                reason: lines.take("reason")?,
            });
        }
        let folder = lines.take("folder")?;
        let figures = lines.digest("figures")?;
        let (mut files, mut own) = (Vec::new(), Vec::new());
        while let Some(file) = lines.maybe("file") {
            let (digest, path) = file.split_once("  ").ok_or_else(|| lines.wrong())?;
            files.push((path.to_string(), Digest::parse(digest).ok_or_else(|| lines.wrong())?));
        }
        while let Some(digest) = lines.maybe("own") {
            own.push(Digest::parse(&digest).ok_or_else(|| lines.wrong())?);
        }
        let inner = Inner { title, folder, figures, files, own };
        lines.end(&inner.text(), text)?;
        let ordered = inner.files.is_sorted_by(|a, b| a.0 < b.0) && inner.own.is_sorted();
        if ordered { Ok(inner) } else { Err(ManifestFault::Order) }
    }
}

impl Outer {
    /// The text of the manifest.
    pub fn text(&self) -> String {
        let before = self.before.map_or(NONE.to_string(), |digest| digest.hex());
        let (inner, pdf) = (self.inner.hex(), self.pdf.hex());
        format!("{OUTER}\nrevision {}\ninner {inner}\npdf {pdf}\nbefore {before}\n", self.revision)
    }

    /// The digest that stands for the whole revision, and for all before it.
    pub fn digest(&self) -> Digest {
        sha256(self.text().as_bytes())
    }

    /// Reads a manifest of exactly the form that is written.
    ///
    /// # Errors
    /// Names the line that is not.
    pub fn parse(text: &str) -> Result<Outer, ManifestFault> {
        let mut lines = Lines::of(text, OUTER)?;
        let revision = lines.take("revision")?;
        let (inner, pdf) = (lines.digest("inner")?, lines.digest("pdf")?);
        let before = lines.take("before")?;
        let before = match before.as_str() {
            NONE => None,
            digest => Some(Digest::parse(digest).ok_or_else(|| lines.wrong())?),
        };
        let outer = Outer { revision, inner, pdf, before };
        lines.end(&outer.text(), text)?;
        Ok(outer)
    }
}

/// The lines of a manifest, taken one after the other.
struct Lines<'a> {
    rest: std::iter::Peekable<std::str::Split<'a, char>>,
    number: usize,
}

impl<'a> Lines<'a> {
    fn of(text: &'a str, first: &'static str) -> Result<Lines<'a>, ManifestFault> {
        let mut rest = text.split('\n').peekable();
        match rest.next() {
            Some(line) if line == first => Ok(Lines { rest, number: 1 }),
            Some(line) if line.starts_with("backtack ") => {
                Err(ManifestFault::Version(line.chars().take(40).collect(), first))
            }
            _ => Err(ManifestFault::Start(first)),
        }
    }

    fn maybe(&mut self, key: &str) -> Option<String> {
        let value = self.rest.peek()?.strip_prefix(key)?.strip_prefix(' ')?;
        self.rest.next();
        self.number += 1;
        Some(value.to_string())
    }

    fn take(&mut self, key: &'static str) -> Result<String, ManifestFault> {
        let value = self.maybe(key).ok_or(ManifestFault::Lacks(self.number + 1, key))?;
        line(&value).map(|()| value).map_err(|why| ManifestFault::Value(self.number, why))
    }

    fn digest(&mut self, key: &'static str) -> Result<Digest, ManifestFault> {
        let value = self.take(key)?;
        Digest::parse(&value).ok_or_else(|| self.wrong())
    }

    fn date(&mut self, key: &'static str) -> Result<Date, ManifestFault> {
        self.take(key)?.parse().map_err(|why| ManifestFault::Date(self.number, why))
    }

    fn wrong(&self) -> ManifestFault {
        ManifestFault::Line(self.number)
    }

    fn end(&self, written: &str, read: &str) -> Result<(), ManifestFault> {
        let same = written.split('\n').zip(read.split('\n')).take_while(|(a, b)| a == b).count();
        if written == read { Ok(()) } else { Err(ManifestFault::Line(same + 1)) }
    }
}
