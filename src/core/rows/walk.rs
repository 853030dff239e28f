//! Edges and lines in plain words: which piece, left or right, from which point to which.

use crate::model::RunRef;
use crate::model::assembly::{Edging, Resolved, Reverse, Side};
use crate::words::{Phrase, say, words};

use super::view::View;

words! {
    OF "walk.of" = "{piece}, {which}";
    LEFT "walk.left" = "left";
    RIGHT "walk.right" = "right";
    ALONG "walk.along" = "{piece}: {points}";
    TO "walk.to" = "{from} to {point}";
    LINE "walk.line" = "{piece}: the line {line}";
}

/// The written image of a seam or opening.
pub(super) fn joint<'a>(view: &View<'a>, id: &str) -> Option<&'a Resolved> {
    view.assembly.joints.iter().find(|one| one.joint == id && one.image == Reverse::Written)
}

/// The written image of a finish, an attachment or a topstitch.
pub(super) fn edging<'a>(view: &View<'a>, id: &str) -> Option<&'a Edging> {
    view.assembly.edgings.iter().find(|one| one.id == id && one.image == Reverse::Written)
}

/// The edges of a side in order: `Head side, left: f to x1, x2 to g`. The use of a part is left out where what is said
/// holds for `every` use.
pub(super) fn side(view: &View<'_>, side: &Side, every: bool) -> Phrase {
    let (outlines, instances) = (&view.assembly.outlines, &view.assembly.instances);
    let mut pieces: Vec<(usize, Vec<Vec<&str>>)> = Vec::new();
    for run in &side.runs {
        let Some((from, to)) = run.ends(outlines, instances) else { continue };
        if pieces.last().is_none_or(|(at, _)| *at != run.instance) {
            pieces.push((run.instance, Vec::new()));
        }
        let Some((_, rows)) = pieces.last_mut() else { continue };
        match rows.last_mut().filter(|row| row.last() == Some(&from)) {
            Some(row) => row.push(to),
            None => rows.push(vec![from, to]),
        }
    }
    let row = |row: Vec<&str>| {
        let points = row.into_iter().map(Phrase::from);
        points.reduce(|from, point| say!(TO, from, point)).unwrap_or_default()
    };
    let piece = |(at, rows): (usize, Vec<Vec<&str>>)| {
        say!(ALONG, piece = piece(view, at, every), points = Phrase::list(rows.into_iter().map(row)))
    };
    Phrase::row(pieces.into_iter().map(piece), "; ")
}

/// Whether edges name no use of a part, and so stand for every one.
pub(super) fn every<'a>(mut runs: impl Iterator<Item = &'a RunRef>) -> bool {
    runs.all(|run| run.usage.is_none())
}

/// The internal line of a piece.
pub(super) fn line(view: &View<'_>, edging: &Edging, every: bool) -> Phrase {
    let line = edging.line.as_ref();
    line.map_or_else(Phrase::none, |(at, id)| say!(LINE, piece = piece(view, *at, every), line = id))
}

/// A piece by its name, with its use and copy.
fn piece(view: &View<'_>, at: usize, every: bool) -> Phrase {
    let Some(instance) = view.assembly.instances.get(at) else { return Phrase::none() };
    let title = view.model.pieces.get(&instance.piece).map_or(instance.piece.as_str(), |piece| piece.entry.title());
    let usage = Some(&instance.usage).filter(|_| !every);
    let which = usage.into_iter().chain([&instance.copy]).filter(|name| !name.is_empty());
    which.fold(title.into(), |piece, name| say!(OF, piece, which = hand(name)))
}

/// The side of a body that a copy is named after, in full.
fn hand(name: &str) -> Phrase {
    match name {
        "l" | "L" | "left" => LEFT.into(),
        "r" | "R" | "right" => RIGHT.into(),
        _ => name.into(),
    }
}
