use crate::model::{Chain, PathRef, PointRef, RunRef};
use crate::source::{Span, Spanned};

use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;
use super::tree::Node;

/// How a chain is written, for help lines.
const EXAMPLE: &str = "write for example \"SIDE.l:n-c, d-t\": piece, copy, then points in a row";

impl Reader {
    /// A chain of runs at a key.
    pub fn chain(&mut self, section: &Section<'_>, key: &str) -> Option<Chain> {
        let node = section.node(key)?;
        self.chain_at(key, node, None)
    }

    /// A chain at a node; `piece` is the piece meant by a bare path at its start.
    pub fn chain_at(&mut self, key: &str, node: &Node, piece: Option<&str>) -> Option<Chain> {
        let text = self.plain_text(key, node)?;
        let raw = match &node.kind {
            super::tree::Kind::Text(raw) => raw.clone(),
            _ => text,
        };
        let inside = self.inside(node, &raw);
        let place = |start: usize, end: usize| inside.map_or(node.span, |inside| inside.part(start, end));
        let mut runs: Vec<RunRef> = Vec::new();
        let mut at = 0;
        for part in raw.split(',') {
            let lead = part.len() - part.trim_start().len();
            let (start, word) = (at + lead, part.trim());
            at += part.len() + 1;
            let span = place(start, start + word.len());
            let before = runs.last().cloned();
            match run(word, before.as_ref(), piece, span, &|a, b| place(start + a, start + b)) {
                Ok(run) => runs.push(run),
                Err(message) => {
                    self.findings.push(rules::bad_value(format!("`{word}`: {message}"), span, EXAMPLE));
                    return None;
                }
            }
        }
        Some(Chain { runs, span: node.span })
    }

    /// Two point names: `nw-sw`.
    pub fn edge(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<(String, String)>> {
        let word = self.word(section, key)?;
        match word.value.split_once('-') {
            Some((a, b)) if is_point(a.trim()) && is_point(b.trim()) => {
                Some(Spanned::new((a.trim().to_string(), b.trim().to_string()), word.span))
            }
            _ => {
                let message = format!("`{key}` goes from one named point to another");
                self.findings.push(rules::bad_value(message, word.span, "write for example \"nw-sw\""));
                None
            }
        }
    }
}

fn is_point(text: &str) -> bool {
    is_id(text.strip_suffix('~').unwrap_or(text), false)
}

/// Runs of a chain without a word about what cannot be read: `None` then. `piece` is the piece meant by a bare path at
/// its start.
pub(super) fn quiet(text: &str, piece: Option<&str>, span: Span) -> Option<Vec<RunRef>> {
    let mut runs: Vec<RunRef> = Vec::new();
    for word in text.split(',') {
        let made = run(word.trim(), runs.last(), piece, span, &|_, _| span).ok()?;
        runs.push(made);
    }
    Some(runs)
}

/// `[ [ use "/" ] piece [ "." copy ] ":" ] path`
fn run(
    word: &str,
    before: Option<&RunRef>,
    piece: Option<&str>,
    span: Span,
    place: &dyn Fn(usize, usize) -> Span,
) -> Result<RunRef, String> {
    let (head, path, offset) = match word.split_once(':') {
        Some((head, path)) => (Some(head.trim()), path, head.len() + 1),
        None => (None, word, 0),
    };
    let path = points(path, offset, place)?;
    let Some(head) = head else {
        if let Some(piece) = piece {
            let (part, usage, copy) = (None, None, None);
            return Ok(RunRef { part, usage, piece: piece.to_string(), copy, path, span });
        }
        let before = before.ok_or("it names no piece")?;
        return Ok(RunRef { path, span, ..before.clone() });
    };
    let (usage, piece) = match head.split_once('/') {
        Some((usage, piece)) => (Some(usage.trim()), piece.trim()),
        None => (None, head),
    };
    let (piece, copy) = dotted(piece)?;
    let (part, usage) = match usage {
        Some(usage) => {
            let (part, name) = dotted(usage)?;
            (Some(part), name)
        }
        None => (None, None),
    };
    Ok(RunRef { part, usage, piece, copy, path, span })
}

/// `name` or `name.detail`.
fn dotted(text: &str) -> Result<(String, Option<String>), String> {
    let (name, detail) = match text.split_once('.') {
        Some((name, detail)) => (name.trim(), Some(detail.trim())),
        None => (text.trim(), None),
    };
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if !is_id(name, false) {
        return Err(format!("`{name}` is no id"));
    }
    match detail {
        Some(detail) if !is_id(detail, false) && !digits(detail) => {
            Err(format!("`{detail}` is no name of a copy or use"))
        }
        _ => Ok((name.to_string(), detail.map(str::to_string))),
    }
}

/// `a-b-c` or `@line`.
fn points(text: &str, offset: usize, place: &dyn Fn(usize, usize) -> Span) -> Result<PathRef, String> {
    let lead = text.len() - text.trim_start().len();
    let trimmed = text.trim();
    if let Some(line) = trimmed.strip_prefix('@') {
        let line = line.trim();
        return if is_id(line, false) { Ok(PathRef::Line(line.to_string())) } else { Err("`@` names a line".into()) };
    }
    let mut all = Vec::new();
    let mut at = offset + lead;
    for part in trimmed.split('-') {
        let word = part.trim();
        if !is_point(word) {
            return Err(if word.is_empty() { "a point is missing".into() } else { format!("`{word}` is no point") });
        }
        let image = word.ends_with('~');
        let id = word.trim_end_matches('~').to_string();
        all.push(PointRef { id, image, span: place(at, at + part.trim_end().len()) });
        at += part.len() + 1;
    }
    if all.len() < 2 { Err("an edge needs two points".into()) } else { Ok(PathRef::Points(all)) }
}
