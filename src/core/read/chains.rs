//! Reads chains of edges (`SIDE.l:n-c, d-t`).

use std::ops::Range;

use crate::model::{Chain, EdgeRef, PathRef, PointRef, RunRef};
use crate::source::{Span, Spanned};
use crate::words::{Phrase, say, words};

use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;
use super::tree::Node;

words! {
    EXAMPLE "read.chains.example" = "write for example \"SIDE.l:n-c, d-t\": piece, copy, then points in a row";
    WRONG "read.chains.wrong" = "`{word}`: {message}";
    NO_PIECE "read.chains.no-piece" = "it names no piece";
    NO_ID "read.chains.no-id" = "`{name}` is no id";
    NO_COPY "read.chains.no-copy" = "`{name}` is no name of a copy or use";
    NO_LINE "read.chains.no-line" = "`@` names a line";
    TWO_POINTS "read.chains.two-points" = "an edge needs two points";
    NO_POINT "read.chains.no-point" = "`{word}` is no point";
    WRITE_NAMED "read.chains.write-named" = "write a named point, or its mirror image: \"c~\"";
    WRITE_NEIGHBOURING "read.chains.write-neighbouring" = "write neighbouring points in a row: \"a-b-c\"";
    NOT_ONE "read.chains.not-one" = "`{text}` is more than one edge";
    NAME_EDGE "read.chains.name-edge" = "name one edge, from a point to its neighbour: \"a-b\"";
    NO_EDGE "read.chains.no-edge" = "`{key}` goes from one named point to another";
    WRITE_EXAMPLE "read.chains.write-example" = "write for example \"nw-sw\"";
    POINT_MISSING "read.chains.point-missing" = "a point is missing";
}

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
        let inside = self.inside(node.span, &raw);
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
                    self.findings.push(rules::bad_value(say!(WRONG, word, message), span, EXAMPLE));
                    return None;
                }
            }
        }
        Some(Chain { runs, span: node.span })
    }

    /// A point of a piece, alone: `c` or `c~`.
    pub fn point(&mut self, text: &str, place: Span) -> Option<PointRef> {
        let (lead, word) = (text.len() - text.trim_start().len(), text.trim());
        let place = self.inside(place, text).map_or(place, |inside| inside.part(lead, lead + word.len()));
        let found = point(word, place);
        if found.is_none() {
            let message = say!(NO_POINT, word);
            self.findings.push(rules::bad_value(message, place, WRITE_NAMED));
        }
        found
    }

    /// An edge of a piece: `a-b-c`. It is that part of a text whose place is `whole`.
    pub fn edge_ref(&mut self, text: &str, part: Range<usize>, whole: Span) -> Option<EdgeRef> {
        let edge = text.get(part.clone()).unwrap_or_default();
        let inside = self.inside(whole, text);
        let place = |start: usize, end: usize| inside.map_or(whole, |inside| inside.part(start, end));
        let (lead, trail) = (edge.len() - edge.trim_start().len(), edge.len() - edge.trim_end().len());
        let span = place(part.start + lead, part.end - trail.min(part.end));
        match row(edge, part.start, &place) {
            Ok(points) => Some(EdgeRef { points, span }),
            Err(message) => {
                let message = say!(WRONG, word = edge.trim(), message);
                self.findings.push(rules::bad_value(message, span, WRITE_NEIGHBOURING));
                None
            }
        }
    }

    /// An edge from one point to its neighbour.
    pub fn single_edge(&mut self, text: &str, part: Range<usize>, whole: Span) -> Option<EdgeRef> {
        let edge = self.edge_ref(text, part, whole)?;
        if edge.points.len() == 2 {
            return Some(edge);
        }
        let message = say!(NOT_ONE, text = edge.text());
        self.findings.push(rules::bad_value(message, edge.span, NAME_EDGE));
        None
    }

    /// Two point names: `nw-sw`.
    pub fn edge(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<(String, String)>> {
        let word = self.word(section, key)?;
        match word.value.split_once('-') {
            Some((a, b)) if is_point(a.trim()) && is_point(b.trim()) => {
                Some(Spanned::new((a.trim().to_string(), b.trim().to_string()), word.span))
            }
            _ => {
                let message = say!(NO_EDGE, key);
                self.findings.push(rules::bad_value(message, word.span, WRITE_EXAMPLE));
                None
            }
        }
    }
}

fn is_point(text: &str) -> bool {
    is_id(text.strip_suffix('~').unwrap_or(text), false)
}

/// `c` or `c~`.
fn point(word: &str, span: Span) -> Option<PointRef> {
    let (id, image) = word.strip_suffix('~').map_or((word, false), |id| (id, true));
    is_id(id, false).then(|| PointRef { id: id.to_string(), image, span })
}

/// An edge without a word about what cannot be read: `None` then.
pub(crate) fn quiet_edge(text: &str, span: Span) -> Option<EdgeRef> {
    row(text, 0, &|_, _| span).ok().map(|points| EdgeRef { points, span })
}

/// Runs of a chain without a word about what cannot be read: `None` then. `piece` is the piece meant by a bare path at
/// its start.
pub(crate) fn quiet(text: &str, piece: Option<&str>, span: Span) -> Option<Vec<RunRef>> {
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
) -> Result<RunRef, Phrase> {
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
        let before = before.ok_or(NO_PIECE)?;
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
fn dotted(text: &str) -> Result<(String, Option<String>), Phrase> {
    let (name, detail) = match text.split_once('.') {
        Some((name, detail)) => (name.trim(), Some(detail.trim())),
        None => (text.trim(), None),
    };
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if !is_id(name, false) {
        return Err(say!(NO_ID, name));
    }
    match detail {
        Some(detail) if !is_id(detail, false) && !digits(detail) => Err(say!(NO_COPY, name = detail)),
        _ => Ok((name.to_string(), detail.map(str::to_string))),
    }
}

/// `a-b-c` or `@line`.
fn points(text: &str, offset: usize, place: &dyn Fn(usize, usize) -> Span) -> Result<PathRef, Phrase> {
    if let Some(line) = text.trim().strip_prefix('@') {
        let line = line.trim();
        return if is_id(line, false) { Ok(PathRef::Line(line.to_string())) } else { Err(NO_LINE.into()) };
    }
    row(text, offset, place).map(PathRef::Points)
}

/// `a-b-c`
fn row(text: &str, offset: usize, place: &dyn Fn(usize, usize) -> Span) -> Result<Vec<PointRef>, Phrase> {
    let mut all = Vec::new();
    let mut at = offset;
    for part in text.split('-') {
        let (start, word) = (at + part.len() - part.trim_start().len(), part.trim());
        let missing = || if word.is_empty() { Phrase::from(POINT_MISSING) } else { say!(NO_POINT, word) };
        all.push(point(word, place(start, start + word.len())).ok_or_else(missing)?);
        at += part.len() + 1;
    }
    if all.len() < 2 { Err(TWO_POINTS.into()) } else { Ok(all) }
}
