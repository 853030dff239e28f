//! The edits that need no question, made in the text and checked again before anybody writes them.

use std::collections::BTreeMap;

use super::{Checked, ReadError, check};
use crate::diag::{Finding, Findings, Levels, Severity};
use crate::read::{Loaded, Unsaved};
use crate::source::{Edit, FileId, Sources};

/// Rounds at most: an edit that overlaps another one waits for the next.
const ROUNDS: usize = 10;

/// The byte order mark that some editors put before a text.
const MARK: &str = "\u{feff}";

/// One changed place of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changed {
    /// The file, by its path below the root.
    pub path: String,
    /// The first line that is replaced, from 1.
    pub line: usize,
    /// The lines as they were.
    pub before: Vec<String>,
    /// The lines as they are.
    pub after: Vec<String>,
}

/// What the safe edits make of a specification.
#[derive(Debug)]
pub struct Mended {
    /// Every change, in the order in which it was made.
    pub changes: Vec<Changed>,
    /// The texts of the files that changed, by path below the root; empty if there was nothing to do.
    pub texts: Unsaved,
    /// The specification with them.
    pub loaded: Loaded,
    /// The same, checked.
    pub checked: Checked,
}

/// Edits could not be made.
#[derive(Debug)]
pub enum MendError {
    /// The specification cannot be read again.
    Read(ReadError),
    /// A changed file cannot be read whole any more.
    Broken {
        /// The file.
        path: String,
    },
    /// Something must be settled that was not there before.
    Worse {
        /// Code and message of what is new.
        findings: Vec<(&'static str, String)>,
    },
}

impl std::fmt::Display for MendError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            MendError::Read(why) => why.fmt(out),
            MendError::Broken { path } => write!(out, "{path} could not be read whole any more"),
            MendError::Worse { findings } => {
                let said: Vec<String> = findings.iter().map(|(code, text)| format!("{text} [{code}]")).collect();
                write!(out, "something else would have to be settled: {}", said.join("; "))
            }
        }
    }
}

impl std::error::Error for MendError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            MendError::Read(why) => Some(why),
            _ => None,
        }
    }
}

/// Makes every safe edit of what was found, round after round, until none is left. Nothing is written: `again` reads the
/// specification with the texts it is given over it.
///
/// # Errors
/// If a changed file cannot be read any more, or something must be settled that was not there before.
pub fn mend(
    loaded: Loaded,
    checked: Checked,
    (levels, strict): (&Levels, bool),
    again: impl Fn(&Unsaved) -> Result<Loaded, ReadError>,
) -> Result<Mended, MendError> {
    let before = must(&checked.findings);
    let mut mended = Mended { changes: Vec::new(), texts: Unsaved::new(), loaded, checked };
    for _ in 0..ROUNDS {
        let changed = edited(&mended.loaded, &mended.checked.findings, &mut mended.changes);
        if changed.is_empty() {
            break;
        }
        let paths: Vec<String> = changed.keys().cloned().collect();
        mended.texts.extend(changed);
        let loaded = again(&mended.texts).map_err(MendError::Read)?;
        let broken = |path: &&String| loaded.broken.iter().any(|id| named(&loaded.sources, *id) == path.as_str());
        if let Some(path) = paths.iter().find(broken) {
            return Err(MendError::Broken { path: path.clone() });
        }
        mended.checked = check(&loaded, levels, strict);
        mended.loaded = loaded;
    }
    // Only at the end: what is read after one round may be put right in the next.
    let findings = fresh(before, must(&mended.checked.findings));
    if findings.is_empty() { Ok(mended) } else { Err(MendError::Worse { findings }) }
}

fn named(sources: &Sources, id: FileId) -> &str {
    sources.file(id).map_or("", |file| file.path.as_str())
}

/// Code and message of what must be settled.
fn must(findings: &Findings) -> Vec<(&'static str, String)> {
    let standing = |one: &&Finding| one.severity == Severity::Must && one.concession.is_none();
    findings.iter().filter(standing).map(|one| (one.rule.code, one.message.english())).collect()
}

/// Those of the later ones that are not among the earlier ones.
fn fresh(
    mut before: Vec<(&'static str, String)>,
    mut after: Vec<(&'static str, String)>,
) -> Vec<(&'static str, String)> {
    after.retain(|one| match before.iter().position(|other| other == one) {
        Some(at) => {
            before.remove(at);
            false
        }
        None => true,
    });
    after
}

/// The texts with every safe edit made that overlaps no earlier one, by path.
fn edited(loaded: &Loaded, findings: &Findings, changes: &mut Vec<Changed>) -> Unsaved {
    let sources = &loaded.sources;
    let mut by_file: BTreeMap<FileId, Vec<&Edit>> = BTreeMap::new();
    let edits = findings.iter().filter(|one| one.concession.is_none()).flat_map(|one| &one.help);
    for edit in edits.filter_map(|help| help.edit.as_ref()).filter(|edit| edit.safe) {
        // Drawings belong to the program that made them.
        if named(sources, edit.span.file).ends_with(".toml") {
            by_file.entry(edit.span.file).or_default().push(edit);
        }
    }
    let mut texts = Unsaved::new();
    for (id, edits) in by_file {
        let Some(file) = sources.file(id) else { continue };
        let (text, mut changed) = apply(&file.path, &file.text, &edits);
        changes.append(&mut changed);
        // The mark that is left out in reading stays in the file.
        let marked =
            |(path, bytes): &(String, std::sync::Arc<[u8]>)| *path == file.path && bytes.starts_with(MARK.as_bytes());
        let mark = if loaded.closure.iter().any(marked) { MARK } else { "" };
        texts.insert(file.path.clone(), format!("{mark}{text}"));
    }
    texts
}

/// A text with edits made, each of which lies at its place in it. Of two that overlap the first one is made; of those that begin
/// at one place, the first of the list. Edits of the same lines are one change.
pub fn apply(path: &str, text: &str, edits: &[&Edit]) -> (String, Vec<Changed>) {
    let mut edits: Vec<&Edit> = edits.to_vec();
    // Stable: of those that begin at one place, the first one found goes first.
    edits.sort_by_key(|edit| edit.span.start);
    let mut made: Vec<&Edit> = Vec::new();
    for edit in edits {
        if made.last().is_none_or(|last| last.span.end <= edit.span.start && last.span != edit.span) {
            made.push(edit);
        }
    }
    let whole = |edit: &Edit| {
        let start = text[..edit.span.start].rfind('\n').map_or(0, |at| at + 1);
        let rest = &text[edit.span.end..];
        let ends = edit.span.end > edit.span.start && text[..edit.span.end].ends_with('\n');
        (start, if ends { edit.span.end } else { edit.span.end + rest.find('\n').map_or(rest.len(), |at| at + 1) })
    };
    let mut hunks: Vec<((usize, usize), Vec<&Edit>)> = Vec::new();
    for edit in &made {
        let (start, end) = whole(edit);
        match hunks.last_mut() {
            Some((lines, list)) if start < lines.1 => {
                lines.1 = lines.1.max(end);
                list.push(edit);
            }
            _ => hunks.push(((start, end), vec![edit])),
        }
    }
    let (mut out, mut at, mut changes) = (String::with_capacity(text.len()), 0, Vec::new());
    for ((start, end), list) in hunks {
        let after = replaced(text, (start, end), &list);
        let lines = |text: &str| text.lines().map(str::to_string).collect();
        let line = text[..start].matches('\n').count() + 1;
        changes.push(Changed { path: path.into(), line, before: lines(&text[start..end]), after: lines(&after) });
        out.push_str(&text[at..start]);
        out.push_str(&after);
        at = end;
    }
    out.push_str(&text[at..]);
    (out, changes)
}

/// A part of a text with edits made.
fn replaced(text: &str, (start, end): (usize, usize), edits: &[&Edit]) -> String {
    let (mut out, mut at) = (String::new(), start);
    for edit in edits {
        out.push_str(&text[at..edit.span.start]);
        out.push_str(&edit.text);
        at = edit.span.end;
    }
    out + &text[at..end]
}
