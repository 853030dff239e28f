//! What changes with the size: cut lines over each other, and the lengths of the edges that meet.

use std::collections::BTreeSet;

use crate::compute::{Figure, Number, SeamSize};
use crate::geom::{Affine, Outline};
use crate::model::Piece;
use crate::scene::{NestSize, nest, nest_sample};
use crate::words::{Phrase, Word, number, say, sheet, words};

use super::cards::{rows, width};
use super::cell::Cell;
use super::data::{LegendRow, LengthRow, NestCard, Sheet, Sizes};
use super::letters::{self, Letters};
use super::outline::{cut_paths, segments};
use super::package::{Drawing, Fact, Head, room_nest};
use super::view::View;

words! {
    OF_SIZES "sizes.of" = "Sizes: {sizes}";
    SAMPLE "sizes.sample" = "Line of size {size}";
    OVER_EACH_OTHER "sizes.nest" = "Piece {piece} in the sizes {sizes}, cut lines over each other on point {point}.";
    LAID_ON "sizes.laid-on" = "1:{scale}, laid on point {point}";
    EXTENT "sizes.extent" = "{width} × {height}";
    BLOCK "sizes.block" = "block {width} × {height}";
    IN_MM "sizes.in-mm" = "{extents} mm";
}

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
            0 => sheet::LENGTHS.into(),
            _ => say!(OF_SIZES, sizes = Phrase::list(titles.iter().copied())),
        };
        let head = Head { title: sheet::LENGTHS_TITLE.into(), name, lead: sheet::LENGTHS_LEAD.into() };
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
            title if title == *size => Phrase::from(*size),
            title => Phrase::row([*size, title], ": "),
        };
        let scene = nest_sample(n, say!(SAMPLE, size = *size));
        LegendRow { sample: Drawing::of(scene, ""), text }
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
    let alt = say!(OVER_EACH_OTHER, piece = id, sizes = Phrase::list(sizes), point = &shared);
    let (scene, scale) = nest(&placed, &shared, &number::mm(50, 0), room_nest, alt);
    let size = [width(Some(&scene)), scene.height];
    let name = piece.entry.name.as_ref().map_or_else(Phrase::none, |name| Phrase::from(&name.value));
    let drawing = Drawing::of(scene, say!(LAID_ON, scale = scale.to_string(), point = shared));
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
            let extent =
                |width: Cell, height: Cell, word: Word| say!(word, width = width.phrase(), height = height.phrase());
            let mm = |value: &Figure<Number>| Cell::number(value, 1, "");
            let shape = figures
                .line
                .known()
                .map(|line| extent(Cell::amount(line.width, 1, ""), Cell::amount(line.height, 1, ""), EXTENT));
            let block = figures.block_width.as_ref().zip(figures.block_height.as_ref());
            let block = block.map(|(width, height)| extent(mm(width), mm(height), BLOCK));
            let label = if several { Phrase::row([size, cut.as_str()], " ") } else { size.into() };
            let extents = Phrase::list(shape.into_iter().chain(block));
            all.push(Fact { label, value: say!(IN_MM, extents).into() });
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
        let joint = view.model.joints.get(id).map(|joint| &joint.entry);
        let title = joint.or_else(|| view.model.attaches.get(id).map(|attach| &attach.entry));
        let title = title.map_or(id.as_str(), |entry| entry.title());
        let whole = |one: &Option<&SeamSize>| match one {
            Some(one) => [&one.a, &one.b, &one.difference].map(|value| Cell::number(value, 1, "")),
            None => Default::default(),
        };
        let lengths = by_size.iter().map(whole).collect();
        all.push(LengthRow { letter: letters.plain(id).into(), title: title.into(), stretch: Phrase::none(), lengths });
        all.extend(stretches(letters.plain(id), &by_size));
    }
    all
}

/// The stretches between the points and notches of a seam; none where it has only one.
fn stretches(letter: &str, by_size: &[Option<&SeamSize>]) -> Vec<LengthRow> {
    let first = by_size.iter().flatten().find(|one| one.between.len() > 1);
    let stretches = first.map_or(&[][..], |one| one.between.as_slice());
    let row = |(n, stretch): (usize, &crate::compute::Between)| {
        let lengths = by_size.iter().map(|one| {
            let one = one.and_then(|one| one.between.get(n));
            one.map_or_else(Default::default, |one| {
                [one.a, one.b, difference(one.a, one.b)].map(|value| Cell::amount(value, 1, ""))
            })
        });
        let lengths = lengths.collect();
        LengthRow { stretch: letters::stretch(letter, stretch), lengths, ..LengthRow::default() }
    };
    stretches.iter().enumerate().map(row).collect()
}

fn difference(a: Number, b: Number) -> Number {
    Number::new(b.get() - a.get())
}
