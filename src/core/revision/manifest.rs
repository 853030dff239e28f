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

/// Whether a value fits on its line.
///
/// # Errors
/// Says what is wrong with it.
pub fn line(value: &str) -> Result<(), String> {
    match () {
        () if value.chars().any(char::is_control) => Err("it has a line break or another control character".into()),
        () if value.trim() != value => Err("it begins or ends with white space".into()),
        () if value.chars().count() > LONGEST => Err(format!("it has more than {LONGEST} characters")),
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
    pub fn parse(text: &str) -> Result<Inner, String> {
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
        if ordered { Ok(inner) } else { Err("its lines are out of order".into()) }
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
    pub fn parse(text: &str) -> Result<Outer, String> {
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
    fn of(text: &'a str, first: &str) -> Result<Lines<'a>, String> {
        let mut rest = text.split('\n').peekable();
        match rest.next() {
            Some(line) if line == first => Ok(Lines { rest, number: 1 }),
            Some(line) if line.starts_with("backtack ") => Err(format!(
                "it begins with \"{}\"; this version reads \"{first}\"",
                line.chars().take(40).collect::<String>().escape_debug()
            )),
            _ => Err(format!("it does not begin with \"{first}\"")),
        }
    }

    fn maybe(&mut self, key: &str) -> Option<String> {
        let value = self.rest.peek()?.strip_prefix(key)?.strip_prefix(' ')?;
        self.rest.next();
        self.number += 1;
        Some(value.to_string())
    }

    fn take(&mut self, key: &str) -> Result<String, String> {
        let value = self.maybe(key).ok_or_else(|| format!("line {} does not say `{key}`", self.number + 1))?;
        line(&value).map(|()| value).map_err(|why| format!("line {}: {why}", self.number))
    }

    fn digest(&mut self, key: &str) -> Result<Digest, String> {
        let value = self.take(key)?;
        Digest::parse(&value).ok_or_else(|| self.wrong())
    }

    fn date(&mut self, key: &str) -> Result<Date, String> {
        self.take(key)?.parse().map_err(|why: NoDate| format!("line {}: {why}", self.number))
    }

    fn wrong(&self) -> String {
        format!("line {} is not as it is written", self.number)
    }

    fn end(&self, written: &str, read: &str) -> Result<(), String> {
        let same = written.split('\n').zip(read.split('\n')).take_while(|(a, b)| a == b).count();
        if written == read { Ok(()) } else { Err(format!("line {} is not as it is written", same + 1)) }
    }
}
