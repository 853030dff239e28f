//! What changes with the size: cut lines over each other, and the lengths of the edges that meet.

use std::collections::BTreeSet;

use crate::compute::{Number, SeamSize};
use crate::geom::{Affine, Outline};
use crate::model::Piece;
use crate::scene::{NestSize, nest, nest_sample};
use crate::words::{number, sheet as words};

use super::cards::{rows, width};
use super::data::{LegendRow, LengthRow, NestCard, Sheet, Sizes};
use super::letters::Letters;
use super::outline::{cut_paths, segments};
use super::package::{Drawing, Fact, Head, room_nest};
use super::view::{View, length};
use super::written::figure;

/// The most sizes whose lengths stand side by side.
const COLUMNS: usize = 3;
/// Extents that differ by less are the same, mm.
const SAME: f64 = 0.05;

/// A sheet for every three sizes, the first with the pieces; none where nothing is sewn and no size differs.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let sizes = view.sizes();
    let nests = rows(view.model.pieces.values().filter_map(|piece| card(view, piece)));
    let mut sheets = Vec::new();
    for (n, some) in sizes.chunks(COLUMNS).enumerate() {
        let lengths = lengths(view, &letters, some);
        let nests = if n == 0 { nests.clone() } else { Vec::new() };
        if lengths.is_empty() && nests.is_empty() {
            continue;
        }
        let titles: Vec<&str> = some.iter().map(|size| titled(view, size)).collect();
        let name = match n {
            0 => words::LENGTHS.en.to_string(),
            _ => format!("{}: {}", words::LENGTHS.en, titles.join(", ")),
        };
        let head =
            Head { title: words::LENGTHS_TITLE.en.into(), name: name.into(), lead: words::LENGTHS_LEAD.en.into() };
        let legend = if nests.is_empty() { Vec::new() } else { legend(view, &sizes) };
        let sizes = titles.iter().map(|title| title.to_string()).collect();
        sheets.push(Sheet::Sizes(Sizes { head, unit: "mm".into(), sizes, nests, legend, rows: lengths }));
    }
    sheets
}

fn titled<'a>(view: &View<'a>, size: &'a str) -> &'a str {
    view.model.size(size).map_or(size, |one| one.entry.title())
}

fn legend(view: &View<'_>, sizes: &[&str]) -> Vec<LegendRow> {
    let row = |(n, size): (usize, &&str)| {
        let text = match titled(view, size) {
            title if title == *size => size.to_string(),
            title => format!("{size}: {title}"),
        };
        let scene = nest_sample(n, &format!("Line of size {size}"));
        LegendRow { sample: Drawing::of(scene, ""), text: text.into() }
    };
    sizes.iter().enumerate().take(6).map(row).collect()
}

/// All sizes of a piece on one point, if they differ and are all known.
fn card(view: &View<'_>, piece: &Piece) -> Option<([f64; 2], NestCard)> {
    let id = piece.entry.id.value.as_str();
    let sizes = view.sizes();
    let known: Vec<(&str, &Outline)> =
        sizes.iter().filter_map(|size| Some((*size, view.drawn.get(id, size)?.sew.known()?))).collect();
    let boxes: Vec<_> = known.iter().map(|(_, sew)| sew.bbox()).collect();
    let apart = |a: f64, b: f64| (a - b).abs() > SAME;
    let differ = |pair: &[crate::geom::Rect]| match pair {
        [a, b] => apart(a.width(), b.width()) || apart(a.height(), b.height()),
        _ => false,
    };
    if known.len() < 2 || !boxes.windows(2).any(differ) {
        return None;
    }
    let shared = shared(&known)?;
    let placed: Vec<NestSize> =
        known.iter().filter_map(|(size, sew)| placed(view, piece, size, sew, &shared)).collect();
    let alt = format!("Piece {id} in the sizes {}, cut lines over each other on point {shared}.", sizes.join(", "));
    let (scene, scale) = nest(&placed, &shared, &number::mm(50, 0), room_nest, &alt);
    let size = [width(Some(&scene)), scene.height];
    let caption = format!("1:{scale}, laid on point {shared}");
    let name = if piece.entry.name.is_some() { piece.entry.title().to_string() } else { String::new() };
    let drawing = Drawing::of(scene, &caption);
    Some((size, NestCard { width: size[0], code: id.to_string(), name, drawing, blocks: blocks(view, id) }))
}

/// The lowest named point that every size has; of points as low as each other the first by name.
fn shared(known: &[(&str, &Outline)]) -> Option<String> {
    let (_, first) = known.first()?;
    let everywhere = |name: &String| known.iter().all(|(_, sew)| sew.point(name).is_some());
    let names: BTreeSet<String> = first.names().into_iter().filter(everywhere).collect();
    let low = |name: &String| first.point(name).map_or(f64::INFINITY, |at| at.y);
    // Sets are in order, and of equal ones the first is kept.
    names.iter().min_by(|a, b| low(a).total_cmp(&low(b))).cloned()
}

fn placed(view: &View<'_>, piece: &Piece, size: &str, sew: &Outline, shared: &str) -> Option<NestSize> {
    let turn = Affine::translation(-sew.point(shared)?);
    let (paths, _) = cut_paths(view.drawn, piece, size, sew);
    let cut = paths.iter().flat_map(|path| segments(&path.transformed(&turn), true)).collect();
    Some(NestSize { code: size.to_string(), cut })
}

/// Cut size and block by size.
fn blocks(view: &View<'_>, id: &str) -> Vec<Fact> {
    let Some(by_size) = view.figures.pieces.get(id) else { return Vec::new() };
    let mut all = Vec::new();
    for size in view.sizes() {
        let cuts = by_size.get(size).into_iter().flat_map(|one| &one.cuts);
        let several = by_size.get(size).is_some_and(|one| one.cuts.len() > 1);
        for (cut, figures) in cuts {
            let shape = figures.line.known().map(|line| format!("{} × {}", length(line.width), length(line.height)));
            let block = figures.block_width.as_ref().zip(figures.block_height.as_ref());
            let block = block.map(|(width, height)| format!("block {} × {}", figure(width, 1), figure(height, 1)));
            let value: Vec<String> = shape.into_iter().chain(block).collect();
            let label = if several { format!("{size} {cut}") } else { size.to_string() };
            all.push(Fact { label: label.into(), value: format!("{} mm", value.join(", ")).into() });
        }
    }
    all
}

/// Every seam with its stretches, in the order of their letters.
fn lengths(view: &View<'_>, letters: &Letters, sizes: &[&str]) -> Vec<LengthRow> {
    let seams = &view.figures.seams;
    let mut ids: Vec<&String> = seams.keys().collect();
    ids.sort_by_key(|id| (letters.plain(id).len(), letters.plain(id).to_string()));
    let mut all = Vec::new();
    for id in ids {
        let Some(seam) = seams.get(id) else { continue };
        let by_size: Vec<Option<&SeamSize>> = sizes.iter().map(|size| seam.sizes.get(*size)).collect();
        let title = view.model.joints.get(id).map_or(id.as_str(), |joint| joint.entry.title());
        let whole = |one: &Option<&SeamSize>| match one {
            Some(one) => [&one.a, &one.b, &one.difference].map(|value| figure(value, 1)),
            None => Default::default(),
        };
        let lengths = by_size.iter().map(whole).collect();
        all.push(LengthRow { letter: letters.plain(id).into(), title: title.into(), stretch: String::new(), lengths });
        all.extend(stretches(&by_size));
    }
    all
}

/// The stretches between the points and notches of a seam; none where it has only one.
fn stretches(by_size: &[Option<&SeamSize>]) -> Vec<LengthRow> {
    let first = by_size.iter().flatten().find(|one| one.between.len() > 1);
    let stretches = first.map_or(&[][..], |one| one.between.as_slice());
    let row = |(n, stretch): (usize, &crate::compute::Between)| {
        let lengths = by_size.iter().map(|one| {
            let one = one.and_then(|one| one.between.get(n));
            one.map_or_else(Default::default, |one| [one.a, one.b, difference(one.a, one.b)].map(length))
        });
        let lengths = lengths.collect();
        LengthRow { stretch: format!("{} – {}", stretch.from, stretch.to), lengths, ..LengthRow::default() }
    };
    stretches.iter().enumerate().map(row).collect()
}

fn difference(a: Number, b: Number) -> Number {
    Number::new(b.get() - a.get())
}
