//! A piece with its lines in its own millimetres, ready to be drawn.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::Lines;
use crate::geom::{Outline, Point, Run, measure};
use crate::model::assembly::{Edging, Side, sewn_cut};
use crate::model::{JointKind, NotchStyle, Piece, Variant};
use crate::scene::{At, InnerLine, Line, NotchForm, PieceNotch, PieceOutline, PiecePoint, PieceSeam, Segment, closed};
use crate::words::{Languages, Phrase, say, words};

use super::curves::{cut_paths, page, segments};
use super::letters::{self, Letters};
use super::nested::others;
use super::view::{View, length, millimetres};

words! {
    SEW_LINE_ONLY "outline.sew-line-only" = "Piece {piece}: sew line only, the cut line is not known yet.";
    OPENING "outline.opening" = "opening {edge} {length}";
    OPENING_OF "outline.opening-of" = "opening {edge} {length}, only {copies}";
    ALLOWANCE "outline.allowance" = "allowance {width}";
    NO_ALLOWANCE "outline.no-allowance" = "no allowance";
    PILE "outline.pile" = "PILE";
    SEAM_ON "outline.seam-on" = "{line} ({letter})";
    BLOCK "outline.block" = "block";
    BARE "outline.piece" = "Piece {piece}: cut size {width} by {height} mm, sew line dashed inside the cut line.";
    ONE_NOTCH "outline.one-notch" = "Piece {piece}: cut size {width} by {height} mm, sew line dashed inside the cut line, one notch.";
    NOTCHES "outline.notches" = "Piece {piece}: cut size {width} by {height} mm, sew line dashed inside the cut line, {count} notches.";
}

/// The piece in one size, the others round it; none where its sew line is not known.
pub fn shape(view: &View<'_>, letters: &Letters, piece: &Piece, size: &str) -> Option<PieceOutline> {
    let id = piece.entry.id.value.as_str();
    let lines = view.drawn.get(id, size)?;
    let sew = lines.sew.known()?;
    let (paths, outside) = cut_paths(view.drawn, piece, size, sew);
    let bounds = paths.iter().map(measure::bbox).reduce(|a, b| a.with(b.min).with(b.max))?;
    let towards = |ends: Option<(Point, Point)>| ends.map(|(a, b)| [b.x - a.x, a.y - b.y]);
    let pile = towards(piece.pile_line(sew));
    let along = towards(piece.grain_line(sew)).or(pile);
    // The cut size is that along the grain, which is no extent of a drawing that lies otherwise.
    let tilted = along.is_some_and(|[x, y]| x.abs().min(y.abs()) > TILT * x.abs().max(y.abs()));
    let mut inner = inner(view, letters, piece, sew, size);
    inner.extend(layers(view, piece, size));
    let mark = |name: &str, at: Point| PiecePoint { name: name.to_string(), at: page(at) };
    Some(PieceOutline {
        code: id.to_string(),
        sew: if outside { segments(&sew.path, true) } else { Vec::new() },
        cut: paths.iter().flat_map(|path| segments(path, true)).collect(),
        others: others(view, piece, size, sew),
        seams: seams(view, letters, id, sew),
        inner,
        points: sew.points.iter().filter_map(|one| Some(mark(&one.id, sew.point(&one.id)?))).collect(),
        notches: notches(lines),
        marks: sew.marks.iter().map(|one| mark(&one.id, one.at)).collect(),
        openings: openings(view, piece, sew),
        remarks: allowances(lines, sew, view.model.style.languages),
        grain: along,
        pile,
        pile_text: in_line(&PILE.into(), view.model.style.languages),
        width_text: if tilted { String::new() } else { millimetres(bounds.width()) },
        height_text: if tilted { String::new() } else { millimetres(bounds.height()) },
        alt: alt(view, piece, size, lines),
    })
}

fn alt(view: &View<'_>, piece: &Piece, size: &str, lines: &Lines) -> Phrase {
    let id = piece.entry.id.value.as_str();
    let cut_id = sewn_cut(piece).map_or("", |cut| cut.entry.id.value.as_str());
    let figures = view.figures.pieces.get(id).and_then(|sizes| sizes.get(size));
    let line = figures.and_then(|one| one.cuts.get(cut_id)).and_then(|one| one.line.known());
    let Some(line) = line else {
        return say!(SEW_LINE_ONLY, piece = id);
    };
    let (width, height) = (length(line.width), length(line.height));
    match lines.notches.known().map_or(0, Vec::len) {
        0 => say!(BARE, piece = id, width, height),
        1 => say!(ONE_NOTCH, piece = id, width, height),
        count => say!(NOTCHES, piece = id, width, height, count),
    }
}

/// Inner lines by name, and the fold about which a half outline was opened out.
fn inner(view: &View<'_>, letters: &Letters, piece: &Piece, sew: &Outline, size: &str) -> Vec<InnerLine> {
    let named = |id: &str| {
        let own = |at: usize| view.assembly.instances.get(at).is_some_and(|one| one.piece == piece.entry.id.value);
        let on = |edging: &&Edging| edging.line.as_ref().is_some_and(|(at, line)| own(*at) && line == id);
        let letter = view.assembly.edgings.iter().find(on).map(|edging| letters.plain(&edging.id));
        let name = format!("@{id}");
        match letter.filter(|letter| !letter.is_empty()) {
            Some(letter) => say!(SEAM_ON, line = name, letter).english(),
            None => name,
        }
    };
    let line = |one: &crate::geom::InternalLine| InnerLine {
        line: Line::Topstitch,
        segments: segments(&one.path, false),
        name: named(&one.id),
    };
    let mut all: Vec<InnerLine> = sew.lines.iter().map(line).collect();
    let source = piece.outline.as_ref().and_then(|value| value.known(Variant { size, colourway: "" }));
    if let Some((a, b)) = source.and_then(|source| source.fold.as_ref()).map(|fold| &fold.value)
        && let (Some(a), Some(b)) = (sew.point(a), sew.point(b))
    {
        let segments = vec![Segment::Move(page(a)), Segment::Line(page(b))];
        all.push(InnerLine { line: Line::Fold, segments, name: String::new() });
    }
    all
}

/// Layers that are not sewn by themselves, and the blocks that layers are cut from first.
fn layers(view: &View<'_>, piece: &Piece, size: &str) -> Vec<InnerLine> {
    let id = piece.entry.id.value.as_str();
    let sewn = sewn_cut(piece).map(|cut| &cut.entry.id.value);
    let mut all = Vec::new();
    for (cut, layer) in &piece.cuts {
        let line = view.drawn.cut(id, size, cut);
        let Some(shape) = line.known() else { continue };
        let curves = shape.curves();
        if sewn != Some(cut) {
            let segments = curves.iter().flat_map(|path| segments(path, true)).collect();
            all.push(InnerLine { line: Line::Layer, segments, name: layer.entry.title().to_string() });
        }
        if let Some([low, high]) = block(view, id, size, cut) {
            let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
            let segments = closed(&corners.map(page));
            let name = in_line(&BLOCK.into(), view.model.style.languages);
            if !all.iter().any(|one: &InnerLine| one.segments == segments) {
                all.push(InnerLine { line: Line::Block, segments, name });
            }
        }
    }
    all
}

/// The lower left and upper right corner of the block a layer is cut from first: it has the layer in its middle.
pub(super) fn block(view: &View<'_>, piece: &str, size: &str, cut: &str) -> Option<[Point; 2]> {
    let figures = view.figures.pieces.get(piece)?.get(size)?.cuts.get(cut)?;
    let (width, height) = (figures.block_width.as_ref()?.known()?, figures.block_height.as_ref()?.known()?);
    let line = view.drawn.cut(piece, size, cut);
    let curves = line.known()?.curves();
    let bounds = curves.iter().map(measure::bbox).reduce(|a, b| a.with(b.min).with(b.max))?;
    let half = Point::new(width.get() / 2.0, height.get() / 2.0);
    let middle = Point::new(f64::midpoint(bounds.min.x, bounds.max.x), f64::midpoint(bounds.min.y, bounds.max.y));
    Some([middle - half, middle + half])
}

/// A grain that leans by no more than this share of its length lies along the page.
const TILT: f64 = 0.02;
/// Letters of one edge that are written out; of more the first and the last.
const LETTERS: usize = 3;

/// Every edge that is sewn to something, with the letters it bears on the drawn copy and what others bear besides. The
/// stroke of a mirror image is left out on other copies.
fn seams(view: &View<'_>, letters: &Letters, id: &str, sew: &Outline) -> Vec<PieceSeam> {
    let mut copies: Vec<usize> = (0..view.assembly.instances.len())
        .filter(|at| view.assembly.instances.get(*at).is_some_and(|one| one.piece == id))
        .collect();
    copies.sort_by_key(|at| view.assembly.instances.get(*at).is_some_and(|one| one.mirrored));
    let one = |(run, path): (usize, &Run)| {
        let mut names: Vec<String> = Vec::new();
        let mut ways: Vec<bool> = Vec::new();
        let mut by_copy: BTreeMap<&str, Vec<String>> = BTreeMap::new();
        for (n, at) in copies.iter().enumerate() {
            let own = by_copy.entry(view.assembly.instances.get(*at).map_or("", |one| one.copy.as_str())).or_default();
            for (letter, borne) in letters::of_run(view, letters, (*at, run)) {
                let letter = if n == 0 { letter } else { letter.replace('′', "") };
                let plain = letter.replace('′', "");
                if !own.contains(&plain) {
                    own.push(plain);
                }
                if !names.iter().any(|one| one.replace('′', "") == letter.replace('′', "")) {
                    names.push(letter);
                }
                ways.push(borne.forward);
            }
        }
        let letter = match names.as_slice() {
            [first, .., last] if names.len() > LETTERS => format!("{first}–{last}"),
            all => apart(&by_copy).unwrap_or_else(|| all.join(" ")),
        };
        let first = *ways.first()?;
        let forward = ways.iter().all(|way| *way == first).then_some(first);
        Some(PieceSeam { path: segments(&path.path(), false), letter, forward })
    };
    sew.runs().iter().enumerate().filter_map(one).collect()
}

/// What each copy bears at an edge, where copies differ: `back J, front H3`.
fn apart(by_copy: &BTreeMap<&str, Vec<String>>) -> Option<String> {
    let first = by_copy.values().next()?;
    if by_copy.values().all(|one| one == first) || by_copy.contains_key("") {
        return None;
    }
    let bearing = by_copy.iter().filter(|(_, letters)| !letters.is_empty());
    Some(bearing.map(|(copy, letters)| format!("{copy} {}", letters.join(" "))).collect::<Vec<_>>().join(", "))
}

/// How a notch is drawn.
pub fn form(style: NotchStyle) -> NotchForm {
    match style {
        NotchStyle::Outward => NotchForm::Outward,
        NotchStyle::Slit => NotchForm::Slit,
        NotchStyle::None => NotchForm::Marked,
    }
}

fn notches(lines: &Lines) -> Vec<PieceNotch> {
    let marks = lines.notches.known().into_iter().flatten();
    marks
        .map(|one| PieceNotch { sew: page(one.sew), cut: page(one.cut), tip: page(one.tip), form: form(one.style) })
        .collect()
}

/// A text of a drawing, which has one line: the second language stands behind the first, and the label finds room for both.
fn in_line(text: &Phrase, languages: Languages) -> String {
    let first = text.in_language(languages.first);
    text.second(languages).map_or(first.clone(), |second| format!("{first} {second}"))
}

/// Stretches of the outline that are left open, each once, with the points they run between, their lengths, and the copies where only some have it.
fn openings(view: &View<'_>, piece: &Piece, sew: &Outline) -> Vec<([At; 2], String)> {
    let mut all: BTreeMap<(usize, usize), (f64, BTreeSet<String>)> = BTreeMap::new();
    let opening = |id: &String| view.model.joints.get(id).is_some_and(|joint| joint.kind == JointKind::Opening);
    let sides =
        view.assembly.joints.iter().filter(|joint| opening(&joint.joint)).flat_map(|joint| [&joint.a, &joint.b]);
    for stretch in sides.flat_map(|side| stretches(view, piece, side)) {
        let ends = (stretch.from.min(stretch.to), stretch.from.max(stretch.to));
        let copy = view.assembly.instances.get(stretch.instance).map(|one| one.copy.clone()).unwrap_or_default();
        all.entry(ends).or_insert((stretch.length, BTreeSet::new())).1.insert(copy);
    }
    let place = |at: usize| sew.points.get(at).and_then(|one| sew.point(&one.id)).map(page);
    let written = |((from, to), (length, copies)): ((usize, usize), (f64, BTreeSet<String>))| {
        let some: Vec<String> = copies.into_iter().collect();
        let (length, name) = (millimetres(length), |at: usize| sew.points.get(at).map_or("", |one| one.id.as_str()));
        let edge = format!("{}–{}", name(from), name(to));
        let text = match some.len() < piece.copies.len() {
            true => say!(OPENING_OF, edge, length, copies = Phrase::list(some)),
            false => say!(OPENING, edge, length),
        };
        Some(([place(from)?, place(to)?], in_line(&text, view.model.style.languages)))
    };
    all.into_iter().filter_map(written).collect()
}

/// A stretch of a side on one instance: the points it runs between by their index, and its length.
struct Stretch {
    from: usize,
    to: usize,
    length: f64,
    instance: usize,
}

/// The stretches of a side on one piece.
fn stretches(view: &View<'_>, piece: &Piece, side: &Side) -> Vec<Stretch> {
    let mut all: Vec<Stretch> = Vec::new();
    let id = &piece.entry.id.value;
    let Some((_, lines)) = view.shown(id) else { return Vec::new() };
    let (Some(sew), Some(runs)) = (lines.sew.known(), lines.runs.known()) else { return Vec::new() };
    let own = |at: usize| view.assembly.instances.get(at).is_some_and(|one| one.piece == *id);
    for run in side.runs.iter().filter(|run| own(run.instance)) {
        let next = (run.run + 1) % sew.points.len().max(1);
        let (from, to) = if run.forward { (run.run, next) } else { (next, run.run) };
        let length = runs.get(run.run).copied().unwrap_or_default();
        match all.last_mut().filter(|last| last.to == from && last.instance == run.instance) {
            Some(last) => (last.to, last.length) = (to, last.length + length),
            None => all.push(Stretch { from, to, length, instance: run.instance }),
        }
    }
    all
}

/// Allowances that are not that of most edges, at the middle of their edge.
fn allowances(lines: &Lines, sew: &Outline, languages: Languages) -> Vec<PiecePoint> {
    let widths: &[f64] = lines.widths.known().map_or(&[], Vec::as_slice);
    let count = |width: f64| widths.iter().filter(|other| (**other - width).abs() < 1e-9).count();
    let usual = widths.iter().copied().reduce(|most, width| if count(width) > count(most) { width } else { most });
    let other =
        widths.iter().enumerate().filter(|(_, width)| usual.is_some_and(|usual| (usual - **width).abs() > 1e-9));
    let mut all: Vec<PiecePoint> = Vec::new();
    for (run, width) in other {
        let Some((at, _)) = sew.along_run(run, sew.length_of(run) / 2.0) else { continue };
        let text = if *width == 0.0 { NO_ALLOWANCE.into() } else { say!(ALLOWANCE, width = millimetres(*width)) };
        all.push(PiecePoint { name: in_line(&text, languages), at: page(at) });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_name_their_copy_only_where_copies_differ() {
        let bears = |letter: &str| vec![letter.to_string()];
        let differ = BTreeMap::from([("back", bears("J")), ("front", bears("H3"))]);
        assert_eq!(apart(&differ).as_deref(), Some("back J, front H3"));
        assert_eq!(apart(&BTreeMap::from([("l", bears("A")), ("r", bears("A"))])), None);
    }
}
