//! Which edges meet: the pieces of each part side by side with a letter a seam, and the seams edge by edge.

use std::collections::BTreeMap;

use crate::geom::{Affine, Outline};
use crate::model::assembly::{Caught, Instance, Resolved, Run, Side};
use crate::model::{JointKind, Layer};
use crate::scene::{MapEdge, MapPiece, PiecePoint, overview};
use crate::words::{Phrase, say, sheet, words};

use super::curves::{page, segments};
use super::data::{JoinRow, Matching, Sheet};
use super::letters::{self, Letters};
use super::package::{Drawing, Head, ROOM_MAP};
use super::view::View;

words! {
    MAP "matching.map" = "Map of {part}: {pieces}. The table beside it says which edge meets which.";
    AT_SIZE "matching.at-size" = "Size {size}, 1:{scale}";
    AT_SCALE "matching.at-scale" = "1:{scale}";
    MIRRORED "matching.mirrored" = "{name} mirrored";
    MADE "matching.made" = "{part}, drawn: {first}; made once more each: {others}";
    AND_MIRRORED "matching.and-mirrored" = "{seam}; and once more on the other side, as {letter}";
    AT_STEP "matching.at-step" = "{seam}, step {step}";
    BETWEEN "matching.between" = "between them: {what}";
    BETWEEN_ALONG "matching.between-along" = "between them: {what}, along {line}";
}

/// Columns of the table on a page.
const COLUMNS: usize = 3;
/// Lines that a column holds below the head of the sheet.
const LINES: usize = 30;

/// One sheet, or none where nothing is sewn: the map of the whole product, and every seam edge by edge.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let parts = parts(view);
    let shown: Vec<MapPiece> = parts.values().flat_map(|own| pieces(view, &letters, &drawn_ones(view, own))).collect();
    let rows = rows(view, &letters);
    if shown.is_empty() || rows.is_empty() {
        return Vec::new();
    }
    let head =
        Head { title: sheet::MATCHING_TITLE.into(), name: sheet::MATCHING.into(), lead: sheet::MATCHING_LEAD.into() };
    let notes = parts.keys().filter_map(|part| note(view, part)).collect();
    vec![Sheet::Matching(Matching { head, map: drawing(view, &shown), notes, pages: columns(rows) })]
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

/// Instances without the mirror images of others.
fn drawn_ones(view: &View<'_>, own: &[usize]) -> Vec<usize> {
    let one = |at: &usize| view.assembly.instances.get(*at);
    let drawn = |piece: &str| own.iter().filter_map(one).any(|other| other.piece == piece && !other.mirrored);
    let shown = |at: &usize| one(at).is_some_and(|instance| !instance.mirrored || !drawn(&instance.piece));
    own.iter().copied().filter(shown).collect()
}

/// All pieces on one page, where there is room for their letters; else they are on the drawings of the pieces alone.
fn drawing(view: &View<'_>, shown: &[MapPiece]) -> Option<Drawing> {
    let names: Vec<&str> = shown.iter().map(|piece| piece.title.as_str()).collect();
    let alt = say!(MAP, part = view.text(view.model.style.name.as_ref()), pieces = Phrase::list(names));
    let (scene, scale) = overview(shown, ROOM_MAP.width, ROOM_MAP.height, alt)?;
    let caption = match (size(view), view.sizes().len()) {
        (Some(size), 2..) => {
            let size = view.model.size(size).map_or(size, |one| one.entry.title());
            say!(AT_SIZE, size, scale = scale.to_string())
        }
        _ => say!(AT_SCALE, scale = scale.to_string()),
    };
    Some(Drawing::of(scene, caption))
}

/// Lines of a row of the table, and the air below it.
fn height(row: &JoinRow) -> usize {
    2 + row.a.lines().count().max(row.b.lines().count()) + 2 * usize::from(!row.between.is_empty())
}

/// Rows in columns one after the other, page after page, so that letters are read down one column and then the next.
fn columns(rows: Vec<JoinRow>) -> Vec<Vec<Vec<JoinRow>>> {
    let whole: usize = rows.iter().map(height).sum();
    // The last page is filled evenly.
    let most = |left: usize| LINES.min(left.div_ceil(COLUMNS) + 2);
    let (mut left, mut used) = (whole, 0);
    let mut limit = most(left);
    let mut pages: Vec<Vec<Vec<JoinRow>>> = vec![vec![Vec::new()]];
    for row in rows {
        let own = height(&row);
        let page = pages.last().map_or(0, Vec::len);
        if used > 0 && used + own > limit && (page < COLUMNS || limit == LINES) {
            if page == COLUMNS {
                pages.push(Vec::new());
                limit = most(left);
            }
            if let Some(page) = pages.last_mut() {
                page.push(Vec::new());
            }
            used = 0;
        }
        used += own;
        left -= own;
        if let Some(column) = pages.last_mut().and_then(|page| page.last_mut()) {
            column.push(row);
        }
    }
    pages
}

/// How often a part is made, where it is made more than once.
fn note(view: &View<'_>, id: &str) -> Option<Phrase> {
    let part = view.model.parts.get(id)?;
    let named = |one: &crate::model::Use| match one.mirrored {
        true => say!(MIRRORED, name = &one.name),
        false => Phrase::from(&one.name),
    };
    let [first, others @ ..] = part.uses.as_slice() else { return None };
    let others = Phrase::list(others.iter().map(named));
    (!others.is_empty()).then(|| say!(MADE, part = part.entry.title(), first = &first.name, others))
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
        let borne = letters::of_run(view, letters, (at, run));
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

/// Whether a run is a side of an opening.
fn open(view: &View<'_>, run: (usize, usize)) -> bool {
    let joints = view.assembly.sewing.accounts.get(&run).map_or(&[][..], |account| account.joints.as_slice());
    let mut ids = joints.iter().filter_map(|n| view.assembly.joints.get(*n)).map(|joint| &joint.joint);
    ids.any(|id| view.model.joints.get(id).is_some_and(|joint| joint.kind == JointKind::Opening))
}

/// Every seam by its letter, in the order of work. One that is there once more on the other side says so; where things are
/// caught in it, they are others there, and it has a row of its own.
fn rows(view: &View<'_>, letters: &Letters) -> Vec<JoinRow> {
    let mut rows: Vec<((Option<usize>, usize), JoinRow)> = Vec::new();
    let mut add = |step: Option<usize>, row: JoinRow| {
        let plain = row.letter.strip_suffix('′').filter(|_| row.between.is_empty());
        if let Some((_, first)) = rows.iter_mut().find(|(_, one)| plain == Some(&one.letter)) {
            let title = std::mem::take(&mut first.title);
            first.title = say!(AND_MIRRORED, seam = title, letter = row.letter);
        } else if rows.iter().all(|(_, one)| one.letter != row.letter) {
            rows.push(((step, rows.len()), row));
        }
    };
    // A use of a part that is made once more bears the letters of the first.
    let seen = |side: &Side| !side.runs.is_empty();
    for joint in view.assembly.joints.iter().filter(|joint| joint.sides().any(seen)) {
        add(letters.step(&joint.joint), seam(view, letters, joint));
    }
    for edging in view.assembly.edgings.iter().filter(|edging| edging.joins) {
        let letter = letters.edging(edging);
        let line = edging.line.as_ref().map(|(at, id)| format!("{} @{id}", named(view, *at)));
        let title = view.model.attaches.get(&edging.id).map_or("", |one| one.entry.title());
        let row = JoinRow {
            title: stepped(title, letters.step(&edging.id)),
            a: edges(view, &letter, &edging.side),
            letter,
            b: line.unwrap_or_default(),
            between: Phrase::none(),
        };
        add(letters.step(&edging.id), row);
    }
    rows.sort_by_key(|(order, _)| (order.0.unwrap_or(usize::MAX), order.1));
    rows.into_iter().map(|(_, row)| row).collect()
}

fn stepped(seam: &str, step: Option<usize>) -> Phrase {
    step.map_or_else(|| seam.into(), |step| say!(AT_STEP, seam, step))
}

fn seam(view: &View<'_>, letters: &Letters, joint: &Resolved) -> JoinRow {
    let letter = letters.seam(joint);
    let written = view.model.joints.get(&joint.joint);
    let title = written.map_or(joint.joint.as_str(), |one| one.entry.title());
    let lies = |side: &Side| listed(view, &letter, letters::placed(&letter, joint, side)).replace('\n', ", ");
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
        a: edges(view, &letter, &joint.a),
        b: edges(view, &letter, &joint.b),
        between,
        letter,
    }
}

/// The edges of a side in order, one a line; numbered as on the map where there are several.
fn edges(view: &View<'_>, letter: &str, side: &Side) -> String {
    listed(view, letter, letters::numbered(letter, side))
}

fn listed<'a>(view: &View<'_>, letter: &str, runs: impl IntoIterator<Item = (String, &'a Run)>) -> String {
    let line = |(borne, run): (String, &Run)| {
        let (from, to) = run.ends(&view.assembly.outlines, &view.assembly.instances)?;
        let place = if borne == letter { String::new() } else { format!("{borne} ") };
        Some(format!("{place}{} {from}–{to}", named(view, run.instance)))
    };
    runs.into_iter().filter_map(line).collect::<Vec<_>>().join("\n")
}

/// An instance by its piece and copy, with its part where that is made more than once.
fn named(view: &View<'_>, at: usize) -> String {
    let Some(one) = view.assembly.instances.get(at) else { return String::new() };
    let once = view.model.parts.get(&one.part).is_none_or(|part| part.uses.len() < 2);
    if once { one.short() } else { one.text() }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Letters are read down a column, then down the next, then on the next page; no column is longer than a page holds.
    #[test]
    fn columns_hold_every_row_in_order() {
        let row =
            |n: usize| JoinRow { letter: n.to_string(), a: vec!["x"; 1 + n % 4].join("\n"), ..JoinRow::default() };
        for count in [1, 5, 12, 30, 70] {
            let pages = columns((0..count).map(row).collect());
            let letters: Vec<String> = pages.iter().flatten().flatten().map(|row| row.letter.clone()).collect();
            assert_eq!(letters, (0..count).map(|n| n.to_string()).collect::<Vec<_>>());
            for column in pages.iter().flatten() {
                let lines: usize = column.iter().map(height).sum();
                assert!(!column.is_empty() && lines <= LINES, "{count}: {lines}");
            }
            assert!(pages.iter().all(|page| page.len() <= COLUMNS), "{count}");
        }
    }
}
