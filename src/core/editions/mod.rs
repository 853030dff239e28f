//! The edition the factory gets: what is private, ordered or said of samples is left out.

mod strip;

use crate::diag::{Finding, Findings, Severity};
use crate::lay::{Lock, lock};
use crate::model::kind::{self, Belongs};
use crate::source::{FileId, SourceFile, Span, Spanned};
use crate::words::words;

use crate::read::{Loaded, is_order, is_private, is_sample, rules};

/// What stands in the factory's edition where the own edition has a value.
const WITHHELD: &str = "{ withheld = \"own edition\" }";
/// The same where the value is a key of a table without braces.
const WITHHELD_KEY: &str = "withheld = \"own edition\"";
/// What stands there for a file whose own values cannot all be found.
const WITHHELD_FILE: &str =
    "# Withheld: this file cannot be read whole, and may hold values that only the own edition shows.\n";
/// What lays of an order are kept as begins so.
const ORDER: &str = "order ";

words! {
    OWN_FINDING "read.edition.own-finding" = "something that only the own edition shows must be settled there";
}

/// The files the factory gets: without those below `private/`, without orders and what was said and measured of samples,
/// with every value that is meant for the own edition withheld in place, without comments, and pictures without what is not
/// shown of them.
pub fn factory_edition(loaded: &Loaded) -> Vec<(String, Vec<u8>)> {
    withheld_edition(loaded).into_iter().map(|(path, bytes)| bared(loaded, path, bytes)).collect()
}

/// Whether the factory's edition means something else than the own one: a file is kept back, or a value.
pub fn withholds(loaded: &Loaded) -> bool {
    let shown = withheld_edition(loaded);
    let own = loaded.closure.iter().map(|(path, bytes)| (path, bytes.as_ref()));
    !shown.iter().map(|(path, bytes)| (path, bytes.as_slice())).eq(own)
}

/// A file without what only its author should read.
fn bared(loaded: &Loaded, path: String, bytes: Vec<u8>) -> (String, Vec<u8>) {
    if !path.ends_with(".toml") {
        let bytes = strip::file(&path, &bytes);
        return (path, bytes);
    }
    let broken = |(id, file): (FileId, &SourceFile)| file.path == path && loaded.broken.contains(&id);
    let bytes = match std::str::from_utf8(&bytes) {
        // The one comment that is ours.
        Ok(text) if text == WITHHELD_FILE => bytes,
        // Where a string is not closed, what is a comment cannot be told.
        Ok(text) if text.contains('#') && loaded.sources.iter().any(broken) => WITHHELD_FILE.into(),
        Ok(text) => strip::toml(text).into_bytes(),
        Err(_) => WITHHELD_FILE.into(),
    };
    (path, bytes)
}

/// The files the factory gets, as they were written.
fn withheld_edition(loaded: &Loaded) -> Vec<(String, Vec<u8>)> {
    let mut own: Vec<Span> = loaded.own.clone();
    own.sort();
    own.dedup();
    let shown = loaded.closure.iter().filter(|(path, _)| !is_private(path) && !stands_apart(loaded, path));
    // A lock that keeps lays of orders only would not be there without them.
    let empty = lock_of(loaded, None).is_some_and(|lock| lock.entries.is_empty());
    let shown = shown.filter(|(path, _)| !(empty && *path == loaded.path(lock::FILE)));
    shown.map(|(path, bytes)| (path.clone(), withheld(loaded, path, bytes, &own))).collect()
}

/// Why an order cannot be shown by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unshown {
    /// There is no such order.
    Unknown {
        /// What was asked for.
        id: String,
        /// The orders there are.
        known: Vec<String>,
    },
    /// Its file holds another order too.
    Shared {
        /// The order.
        id: String,
    },
}

impl Unshown {
    /// There is no such order.
    pub fn unknown(loaded: &Loaded, id: &str) -> Unshown {
        Unshown::Unknown { id: id.to_string(), known: loaded.model.orders.keys().cloned().collect() }
    }
}

impl std::fmt::Display for Unshown {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Unshown::Unknown { id, known } if known.is_empty() => write!(out, "there is no order {id}"),
            Unshown::Unknown { id, known } => write!(out, "there is no order {id}; there are: {}", known.join(", ")),
            Unshown::Shared { id } => {
                write!(out, "the file of order {id} holds another order: give each a file of its own")
            }
        }
    }
}

impl std::error::Error for Unshown {}

/// The files of the factory's edition, and the file of one order.
///
/// # Errors
/// If there is no such order, or its file holds something else too.
pub fn order_edition(loaded: &Loaded, id: &str) -> Result<Vec<(String, Vec<u8>)>, Unshown> {
    let order = loaded.model.orders.get(id).ok_or_else(|| Unshown::unknown(loaded, id))?;
    let file = order.entry.span().file;
    if loaded.model.orders.values().filter(|one| one.entry.span().file == file).count() > 1 {
        return Err(Unshown::Shared { id: id.to_string() });
    }
    let path = loaded.sources.file(file).map_or("", |file| file.path.as_str());
    let mut own: Vec<Span> = loaded.own.clone();
    own.sort();
    own.dedup();
    let mut files = factory_edition(loaded);
    // Its own lays go with it, so that its plan can be worked out from what is attached.
    let kept = loaded.path(lock::FILE);
    let mine = loaded.closure.iter().filter(|(path, _)| *path == kept);
    let lays = mine.map(|(path, bytes)| match lock_of(loaded, Some(id)) {
        Some(lock) => (path.clone(), lock.text().into_bytes()),
        None => (path.clone(), bytes.to_vec()),
    });
    let lays: Vec<_> = lays.collect();
    files.retain(|(path, _)| *path != kept);
    files.extend(lays);
    let bytes = loaded.closure.iter().filter(|(one, _)| one == path);
    files.extend(bytes.map(|(path, bytes)| bared(loaded, path.clone(), withheld(loaded, path, bytes, &own))));
    files.sort();
    Ok(files)
}

/// Whether a file is one of orders. One that cannot be read whole may hold an order that was not seen.
fn holds_order(loaded: &Loaded, path: &str) -> bool {
    let ordering = |id: &FileId, text: &str| {
        loaded.ordering.contains(id) || (loaded.broken.contains(id) && begins_one(text, Belongs::Order))
    };
    is_order(path) || loaded.sources.iter().any(|(id, file)| file.path == path && ordering(&id, &file.text))
}

/// Whether a line of a text begins a table of this belonging.
fn begins_one(text: &str, belongs: Belongs) -> bool {
    text.lines().any(|line| kind::tables(belongs).any(|table| begins(line, table)))
}

/// Whether a file is no part of the specification: one of orders, one of samples, or a picture that only a comment shows.
fn stands_apart(loaded: &Loaded, path: &str) -> bool {
    let sampling = |id: &FileId, text: &str| {
        loaded.sampling.contains(id) || (loaded.broken.contains(id) && begins_one(text, Belongs::Sample))
    };
    is_sample(path)
        || holds_order(loaded, path)
        || of_comment(loaded, path)
        || loaded.sources.iter().any(|(id, file)| file.path == path && sampling(&id, &file.text))
}

fn of_comment(loaded: &Loaded, path: &str) -> bool {
    let named = |picture: &Option<Spanned<String>>| picture.as_ref().is_some_and(|one| loaded.path(&one.value) == path);
    loaded.model.samples.comments.values().any(|comment| named(&comment.picture))
        && !loaded.model.views.values().any(|view| named(&view.picture))
        && !loaded.model.means().any(|(_, _, means)| named(&means.picture))
}

/// Whether a table of this kind may begin on a line; `order = [..]` of the work is no order.
fn begins(line: &str, kind: &str) -> bool {
    let bare = line.trim_start_matches(|one: char| one.is_whitespace() || matches!(one, '[' | '"' | '\''));
    let dotted = bare.strip_prefix(kind).is_some_and(|rest| rest.starts_with('.'));
    let table = line.trim_start().starts_with('[') || line.contains('{') || dotted;
    table && bare.starts_with(kind)
}

/// The lays kept in the lock without those of orders, but for one; `None` where there are none of others.
fn lock_of(loaded: &Loaded, order: Option<&str>) -> Option<Lock> {
    let mut lock = loaded.model.lock.clone();
    let before = lock.entries.len();
    let shown = |of: &str| of.strip_prefix(ORDER).is_none_or(|id| Some(id) == order);
    lock.entries.retain(|_, entry| shown(&entry.of));
    (lock.entries.len() < before).then_some(lock)
}

fn withheld(loaded: &Loaded, path: &str, bytes: &[u8], own: &[Span]) -> Vec<u8> {
    if path == loaded.path(lock::FILE)
        && let Some(lock) = lock_of(loaded, None)
    {
        return lock.text().into_bytes();
    }
    let file = loaded.sources.iter().find(|(_, file)| file.path == path);
    let Some((id, file)) = file else {
        // A specification file that is no text has no values that could be told apart.
        return if path.ends_with(".toml") { WITHHELD_FILE.into() } else { bytes.to_vec() };
    };
    if loaded.broken.contains(&id) && file.text.contains("audience") {
        return WITHHELD_FILE.into();
    }
    let mut text = file.text.clone();
    for span in own.iter().rev().filter(|span| span.file == id) {
        let braces = text.get(span.start..).is_some_and(|rest| rest.starts_with('{'));
        text.replace_range(span.start..span.end, if braces { WITHHELD } else { WITHHELD_KEY });
    }
    if own.iter().any(|span| span.file == id) { text.into_bytes() } else { bytes.to_vec() }
}

/// The findings a factory may see. `seen` are those of its own reading of the factory's edition. A finding about values
/// or files that only the own edition holds, or one that the factory's edition does not bear out, says nothing but that
/// it stands, and that only where it is in the way of a release.
pub fn shown(loaded: &Loaded, findings: &Findings, seen: &Findings) -> Findings {
    let mut shown = Findings::default();
    let kept = |path: &str| is_private(path) || stands_apart(loaded, path);
    let own = !loaded.own.is_empty() || loaded.closure.iter().any(|(path, _)| kept(path));
    let borne_out = |one: &Finding| {
        !own || seen.iter().any(|other| other.rule.code == one.rule.code && other.message == one.message)
    };
    for finding in findings.iter().filter(|finding| !of_order(loaded, finding)) {
        // What was said of samples goes to the factory on sheets, though its files do not.
        if !hidden(loaded, finding) && (of_samples(loaded, finding) || borne_out(finding)) {
            shown.push(finding.clone());
        } else if finding.severity == Severity::Must && finding.concession.is_none() {
            shown.push(Finding { severity: Severity::Must, ..Finding::new(finding.rule, OWN_FINDING) });
        }
    }
    shown
}

/// The findings that concern one order, of what the factory may see: those of the style, and those of the order that are about
/// nothing of the own edition. What must be settled and is not shown still counts.
pub fn concerning(loaded: &Loaded, order: &str, findings: &Findings, seen: &Findings) -> Findings {
    let own = loaded.model.orders.get(order).map(|order| order.entry.span().file);
    let mut all = shown(loaded, findings, seen);
    for finding in findings.iter().filter(|finding| of_order(loaded, finding)) {
        if own.is_none() || finding.places.first().map(|label| label.span.file) != own {
            continue;
        }
        if !kept_back(loaded, finding) {
            all.push(finding.clone());
        } else if finding.severity == Severity::Must && finding.concession.is_none() {
            all.push(Finding { severity: Severity::Must, ..Finding::new(finding.rule, OWN_FINDING) });
        }
    }
    all
}

/// Whether a finding is about an order alone, and so says nothing of the specification.
fn of_order(loaded: &Loaded, finding: &Finding) -> bool {
    let path = |span: Span| loaded.sources.file(span.file).map_or("", |file| file.path.as_str());
    let first = finding.places.first().map(|label| path(label.span));
    finding.rule.code != rules::ORDER_BESIDE_STYLE.code && first.is_some_and(|path| holds_order(loaded, path))
}

/// Whether a finding is about what was said and measured of samples.
fn of_samples(loaded: &Loaded, finding: &Finding) -> bool {
    let first = finding.places.first().map(|label| label.span.file);
    first.is_some_and(|file| loaded.sampling.contains(&file) && !loaded.broken.contains(&file))
}

fn hidden(loaded: &Loaded, finding: &Finding) -> bool {
    finding.places.iter().any(|label| {
        let path = loaded.sources.file(label.span.file).map_or("", |file| file.path.as_str());
        holds_order(loaded, path)
    }) || kept_back(loaded, finding)
}

/// Whether a finding points at something that only the own edition shows.
fn kept_back(loaded: &Loaded, finding: &Finding) -> bool {
    finding.places.iter().any(|label| {
        let path = loaded.sources.file(label.span.file).map_or("", |file| file.path.as_str());
        let overlaps = |own: &Span| own.start < label.span.end && label.span.start < own.end;
        is_private(path) || loaded.own.iter().any(|own| own.file == label.span.file && overlaps(own))
    })
}
