//! Which edges meet: the pieces of each part side by side with a letter a seam, and the seams edge by edge.

use std::collections::BTreeMap;

use crate::geom::{Affine, Outline};
use crate::model::assembly::{Caught, Instance, Resolved, Run, Side};
use crate::model::{JointKind, Layer};
use crate::scene::{MapEdge, MapPiece, PiecePoint, map};
use crate::words::{Phrase, say, sheet, words};

use super::data::{JoinPart, JoinRow, Matching, Sheet};
use super::letters::{self, Letters};
use super::outline::{page, segments};
use super::package::{Drawing, Head, ROOM_MAP, ROOM_MAP_SMALL, ROOM_MAP_WIDE};
use super::view::View;

words! {
    MAP "matching.map" = "Map of {part}: {pieces}. The table beside it says which edge meets which.";
    AT_SIZE "matching.at-size" = "Size {size}, 1:{scale}";
    AT_SCALE "matching.at-scale" = "1:{scale}";
    MIRRORED "matching.mirrored" = "{name} mirrored";
    MADE "matching.made" = "drawn: {first}; made once more each: {others}";
    AT_STEP "matching.at-step" = "{seam}, step {step}";
    BETWEEN "matching.between" = "between them: {what}";
    BETWEEN_ALONG "matching.between-along" = "between them: {what}, along {line}";
}

/// The most seams whose table stands beside the map.
const BESIDE: usize = 9;

/// Columns of a table below the maps.
const BELOW: usize = 3;

/// One sheet, or none where nothing is sewn.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let parts: Vec<JoinPart> =
        parts(view).into_iter().filter_map(|(part, own)| join(view, &letters, part, &own)).collect();
    if parts.is_empty() {
        return Vec::new();
    }
    let head =
        Head { title: sheet::MATCHING_TITLE.into(), name: sheet::MATCHING.into(), lead: sheet::MATCHING_LEAD.into() };
    vec![Sheet::Matching(Matching { head, parts })]
}

/// The instances of the first use of every part.
fn parts<'a>(view: &View<'a>) -> BTreeMap<&'a str, Vec<usize>> {
    let mut all: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, one) in view.assembly.instances.iter().enumerate() {
        let first = view.model.parts.get(&one.part).and_then(|part| part.uses.first());
        if first.is_none_or(|usage| usage.name == one.usage) {
            all.entry(&one.part).or_default().push(at);
        }
    }
    all
}

fn join(view: &View<'_>, letters: &Letters, part: &str, own: &[usize]) -> Option<JoinPart> {
    let shown = pieces(view, letters, own);
    let rows = rows(view, letters, part, own);
    if shown.is_empty() || rows.is_empty() {
        return None;
    }
    let title = view.model.parts.get(part).map_or("", |part| part.entry.title());
    let title = if title.is_empty() { view.text(view.model.style.name.as_ref()) } else { title };
    let names: Vec<&str> = shown.iter().map(|piece| piece.title.as_str()).collect();
    let alt = say!(MAP, part = title, pieces = Phrase::list(names));
    // The smallest room that holds all in one clear drawing, else as many of the widest as it takes.
    let beside = [ROOM_MAP_SMALL, ROOM_MAP].into_iter().filter(|_| rows.len() <= BESIDE);
    let beside = beside.map(|room| map(&shown, room.width, room.height, &alt)).find(|(scenes, _)| scenes.len() == 1);
    let wide = || map(&shown, ROOM_MAP_WIDE.width, ROOM_MAP_WIDE.height, &alt);
    let (beside, (scenes, scale)) = (beside.is_some(), beside.unwrap_or_else(wide));
    let caption = match (size(view), view.sizes().len()) {
        (Some(size), 2..) => {
            let size = view.model.size(size).map_or(size, |one| one.entry.title());
            say!(AT_SIZE, size, scale = scale.to_string())
        }
        _ => say!(AT_SCALE, scale = scale.to_string()),
    };
    let drawing = |scene| Drawing::of(scene, &caption);
    let drawings = scenes.into_iter().map(drawing).collect();
    let columns = columns(rows, if beside { 1 } else { BELOW });
    Some(JoinPart { title: title.into(), note: note(view, part), beside, drawings, columns })
}

/// Rows in so many columns one after the other, each about as high as the others.
fn columns(rows: Vec<JoinRow>, count: usize) -> Vec<Vec<JoinRow>> {
    let lines =
        |row: &JoinRow| 2 + row.a.lines().count().max(row.b.lines().count()) + usize::from(!row.between.is_empty());
    let whole: usize = rows.iter().map(lines).sum();
    let mut columns = vec![Vec::new(); count];
    let mut passed = 0;
    for row in rows {
        let own = lines(&row);
        // Where its middle lies.
        let at = (2 * passed + own) * count / (2 * whole);
        passed += own;
        if let Some(column) = columns.get_mut(at) {
            column.push(row);
        }
    }
    columns
}

/// How often a part is made.
fn note(view: &View<'_>, part: &str) -> Phrase {
    let uses = view.model.parts.get(part).map_or(&[][..], |part| part.uses.as_slice());
    let named = |one: &crate::model::Use| match one.mirrored {
        true => say!(MIRRORED, name = &one.name),
        false => Phrase::from(&one.name),
    };
    match uses {
        [] | [_] => Phrase::none(),
        [first, others @ ..] => say!(MADE, first = &first.name, others = Phrase::list(others.iter().map(named))),
    }
}

/// The first size in which any outline is known.
fn size<'a>(view: &View<'a>) -> Option<&'a str> {
    let known = |size: &&str| view.model.pieces.keys().any(|piece| view.drawn.sew(piece, size).known().is_some());
    view.sizes().into_iter().find(known)
}

/// The pieces of a part; copies that are drawn and sewn alike only once.
fn pieces(view: &View<'_>, letters: &Letters, own: &[usize]) -> Vec<MapPiece> {
    let mut all: Vec<(MapPiece, &Instance)> = Vec::new();
    for at in own {
        let Some(instance) = view.assembly.instances.get(*at) else { continue };
        let Some(piece) = piece(view, letters, *at, instance) else { continue };
        let same = |(one, other): &&mut (MapPiece, &Instance)| {
            other.piece == instance.piece && one.edges == piece.edges && one.lines == piece.lines
        };
        match all.iter_mut().find(same) {
            Some((one, _)) => one.title.push_str(&format!(", {}", instance.copy)),
            None => all.push((piece, instance)),
        }
    }
    all.into_iter().map(|(piece, _)| piece).collect()
}

fn piece(view: &View<'_>, letters: &Letters, at: usize, instance: &Instance) -> Option<MapPiece> {
    let size = size(view)?;
    let drawn = view.drawn.sew(&instance.piece, size);
    let sew: &Outline = drawn.known()?;
    // As it lies before the sewer: a mirrored copy is the image across its height.
    let turn = Affine { xx: if instance.mirrored { -1.0 } else { 1.0 }, xy: 0.0, yx: 0.0, yy: 1.0, dx: 0.0, dy: 0.0 };
    let runs = sew.runs();
    let edges = runs.iter().enumerate().map(|(run, path)| {
        let borne = borne(view, letters, (at, run));
        let joined: Vec<&str> = borne.iter().map(|(letter, _)| letter.as_str()).collect();
        MapEdge {
            path: segments(&path.path().transformed(&turn), false),
            letter: joined.join(" "),
            forward: borne.first().map(|(_, run)| run.forward),
            open: open(view, (at, run)),
        }
    });
    let points = sew
        .points
        .iter()
        .filter_map(|one| Some(PiecePoint { name: one.id.clone(), at: page(turn.apply(sew.point(&one.id)?)) }));
    let lines = sew.lines.iter().filter_map(|line| {
        let on = |edging: &&crate::model::assembly::Edging| edging.line.as_ref() == Some(&(at, line.id.clone()));
        let letter = view.assembly.edgings.iter().find(on).map(|edging| letters.edging(edging))?;
        Some((letter, segments(&line.path.transformed(&turn), false)))
    });
    let (edges, points, lines) = (edges.collect(), points.collect(), lines.collect());
    Some(MapPiece { title: instance.short(), edges, points, lines })
}

/// What a run bears, each once.
pub(super) fn borne(view: &View<'_>, letters: &Letters, run: (usize, usize)) -> Vec<(String, Run)> {
    let Some(account) = view.assembly.sewing.accounts.get(&run) else { return Vec::new() };
    let joints = account.joints.iter().filter_map(|n| view.assembly.joints.get(*n));
    let mut all: Vec<(String, Run)> = joints.flat_map(|joint| letters.run(joint, run)).collect();
    for edging in account.attached.iter().filter_map(|n| view.assembly.edgings.get(*n)) {
        all.extend(letters::borne(&letters.edging(edging), &edging.side, run));
    }
    let mut kept: Vec<(String, Run)> = Vec::new();
    for one in all {
        if !kept.iter().any(|(letter, _)| *letter == one.0) {
            kept.push(one);
        }
    }
    kept
}

/// Whether a run is a side of an opening.
fn open(view: &View<'_>, run: (usize, usize)) -> bool {
    let joints = view.assembly.sewing.accounts.get(&run).map_or(&[][..], |account| account.joints.as_slice());
    let mut ids = joints.iter().filter_map(|n| view.assembly.joints.get(*n)).map(|joint| &joint.joint);
    ids.any(|id| view.model.joints.get(id).is_some_and(|joint| joint.kind == JointKind::Opening))
}

/// The seams that a part takes part in, by their letters.
fn rows(view: &View<'_>, letters: &Letters, part: &str, own: &[usize]) -> Vec<JoinRow> {
    let mut rows: Vec<((Option<usize>, usize), JoinRow)> = Vec::new();
    let touches = |side: &Side| side.runs.iter().any(|run| own.contains(&run.instance));
    for joint in view.assembly.joints.iter().filter(|joint| joint.sides().any(touches)) {
        let letter = letters.seam(joint);
        if rows.iter().all(|(_, row)| row.letter != letter) {
            let step = letters.step(&joint.joint);
            rows.push(((step, rows.len()), seam(view, letters, part, joint)));
        }
    }
    for edging in view.assembly.edgings.iter().filter(|edging| edging.joins) {
        let on = edging.line.as_ref().is_some_and(|(at, _)| own.contains(at));
        let letter = letters.edging(edging);
        if (on || touches(&edging.side)) && rows.iter().all(|(_, row)| row.letter != letter) {
            let line = edging.line.as_ref().map(|(at, id)| format!("{} @{id}", named(view, part, *at)));
            let title = view.model.attaches.get(&edging.id).map_or("", |one| one.entry.title());
            let row = JoinRow {
                title: stepped(title, letters.step(&edging.id)),
                a: edges(view, part, &letter, &edging.side),
                letter,
                b: line.unwrap_or_default(),
                between: Phrase::none(),
            };
            rows.push(((letters.step(&edging.id), rows.len()), row));
        }
    }
    rows.sort_by_key(|(order, _)| (order.0.unwrap_or(usize::MAX), order.1));
    rows.into_iter().map(|(_, row)| row).collect()
}

fn stepped(seam: &str, step: Option<usize>) -> Phrase {
    step.map_or_else(|| seam.into(), |step| say!(AT_STEP, seam, step))
}

fn seam(view: &View<'_>, letters: &Letters, part: &str, joint: &Resolved) -> JoinRow {
    let letter = letters.seam(joint);
    let written = view.model.joints.get(&joint.joint);
    let title = written.map_or(joint.joint.as_str(), |one| one.entry.title());
    let lies = |side: &Side| listed(view, part, &letter, letters::placed(&letter, joint, side)).replace('\n', ", ");
    let between = joint.between.iter().map(|layer| match layer {
        Caught::Side(side) => lies(side),
        Caught::Trim(at) => match written.and_then(|one| one.between.get(*at)) {
            Some(Layer::Trim(trim)) => view.material(&trim.trim.value),
            _ => String::new(),
        },
    });
    let what = Phrase::row(between, "; ");
    let along = joint.on.as_ref().map(lies);
    let between = match along {
        _ if what.is_empty() => Phrase::none(),
        Some(line) => say!(BETWEEN_ALONG, what, line),
        None => say!(BETWEEN, what),
    };
    JoinRow {
        title: stepped(title, letters.step(&joint.joint)),
        a: edges(view, part, &letter, &joint.a),
        b: edges(view, part, &letter, &joint.b),
        between,
        letter,
    }
}

/// The edges of a side in order, one a line; numbered as on the map where there are several.
fn edges(view: &View<'_>, part: &str, letter: &str, side: &Side) -> String {
    listed(view, part, letter, letters::numbered(letter, side))
}

fn listed<'a>(view: &View<'_>, part: &str, letter: &str, runs: impl IntoIterator<Item = (String, &'a Run)>) -> String {
    let line = |(borne, run): (String, &Run)| {
        let (from, to) = run.ends(&view.assembly.outlines, &view.assembly.instances)?;
        let place = if borne == letter { String::new() } else { format!("{borne} ") };
        Some(format!("{place}{} {from}–{to}", named(view, part, run.instance)))
    };
    runs.into_iter().filter_map(line).collect::<Vec<_>>().join("\n")
}

/// An instance as this part calls it.
fn named(view: &View<'_>, part: &str, at: usize) -> String {
    view.assembly.instances.get(at).map_or(String::new(), |one| if one.part == part { one.short() } else { one.text() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_hold_every_row_in_order_and_are_of_like_height() {
        let row = |letter: &str, lines: usize| JoinRow {
            letter: letter.into(),
            a: vec!["x"; lines].join("\n"),
            ..JoinRow::default()
        };
        let rows = vec![row("A", 1), row("B", 1), row("C", 4), row("D", 1), row("E", 3)];
        let letters = columns(rows, 3)
            .iter()
            .map(|column| column.iter().map(|row| row.letter.as_str()).collect())
            .collect::<Vec<String>>();
        assert_eq!(letters, ["AB", "C", "DE"]);
    }
}
