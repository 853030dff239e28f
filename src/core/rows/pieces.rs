//! What to cut: the cuts in a table, totals by material, and each piece drawn with its sew and cut line.

use std::collections::BTreeSet;

use crate::compute::{CutCount, Figure, Number};
use crate::geom::Point;
use crate::model::assembly::Resolved;
use crate::model::mention::has_equal_faces;
use crate::model::{Cut, EdgeRef, Piece, Value, Variant};
use crate::scene::{PieceOutline, is_clear, piece as draw, scale_for, text_width};
use crate::units::{Quantity, Unit};
use crate::words::{Phrase, Word, number, say, sheet as sentences, words};

use super::cards::{LINES, lines, page_height, pages, width};
use super::cell::Cell;
use super::data::{PieceCard, PieceRow, PieceTotal, Pieces, Sheet};
use super::letters::Letters;
use super::outline::{block, shape};
use super::package::{Drawing, Head, room_half, room_piece};
use super::view::{View, mm};

words! {
    LEAD "pieces.lead" = "Counts are for one product. Sizes are cut sizes, width × height, with the height along the grain. A mirrored piece is written out as such. As drawn, mirrored and own mirror image add up to the total.";
    CUT_OF "pieces.cut-of" = "{piece}, {cut}";
    AREA_OF "pieces.area" = "the area is not computed";
    WIDE_HIGH "pieces.wide-high" = "{width} × {height}";
    BLOCK "pieces.block" = "block {width} × {height}";
    INSIDE "pieces.inside" = "{allowance} inside";
    EDGE "pieces.edge" = "{edge} {allowance}";
    GRAIN_TO "pieces.grain-to" = "grain {from} to {to}";
    GRAIN_DRAWN "pieces.grain-drawn" = "grain as drawn";
    PILE_TO "pieces.pile-to" = "pile lies {from} to {to}";
    PILE_DRAWN "pieces.pile-drawn" = "pile as drawn";
    DRAWN "pieces.drawn" = "Drawn size: {size}. Sew lines scaled from it: {scaled}.";
    SCALED "pieces.scaled" = "{size} × {along} along the grain, × {across} across";
    EQUAL_FACES "pieces.equal-faces" = "either face up: left and right are cut alike";
    MIRRORED "pieces.mirrored" = "mirrored: {names}";
    LAYERS "pieces.layers" = "{count} layers each";
    DARTS "pieces.darts" = "darts marked, not cut";
    NOTCHES "pieces.notches" = "notches {depth} deep";
    RAW "pieces.raw" = "raw: {edges}";
    DIRECTION "pieces.direction" = "All pieces: {direction}, unless a note says another.";
    REMARK "pieces.remark" = "{piece}: {remark}";
    NO_DIRECTION "pieces.no-direction" = "no grain is stated";
    CUT "pieces.cut" = "cut {count} · {material}";
    CUT_SIDED "pieces.cut-sided" = "cut {count} ({mirrored} mirrored) · {material}";
    LAYER "pieces.layer" = "{cut} · {layer}";
    THEN_TO_SHAPE "pieces.then-to-shape" = "{cut}, {block} mm from its left / lower edge, then to shape";
    IN_BLOCK "pieces.in-block" = "{name} {left} / {below}";
    SCALE "pieces.scale" = "Scale {scale}";
    SCALE_OF_ALL "pieces.scale-of-all" = "Scale {scale} unless a piece says another";
    SCALE_AND_SIZES "pieces.scale-and-sizes" = "Scale {scale}; {size} with all its lines, {others} by the cut line";
    SCALE_AND_SIZES_OF_ALL "pieces.scale-and-sizes-of-all" = "Scale {scale} unless a piece says another; {size} with all its lines, {others} by the cut line";
}

/// One sheet, or none without pieces.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.pieces.is_empty() {
        return Vec::new();
    }
    let way = common(view);
    let cuts = &view.figures.counts.cuts;
    let first = |n: usize, piece: &str| cuts.iter().take(n).all(|one| one.piece != piece);
    let rows = cuts.iter().enumerate();
    let rows: Vec<PieceRow> =
        rows.filter_map(|(n, count)| row(view, count, way.as_ref(), first(n, &count.piece))).collect();
    let (drawn, usual) = drawn(view);
    let notes = notes(view, way, &rows);
    let mut sheet = Pieces {
        head: Head { title: sentences::PIECES_TITLE.into(), name: sentences::PIECES.into(), lead: LEAD.into() },
        unit: Unit::Mm.symbol().into(),
        area: AREA_UNIT.into(),
        sizes: columns(view).into_iter().map(|(code, _)| code.to_string()).collect(),
        notes,
        rows,
        totals: totals(view),
        scale: scaled(view, usual, [SCALE_OF_ALL, SCALE_AND_SIZES_OF_ALL]),
        drawings: Vec::new(),
    };
    let cards = drawn.into_iter().map(|(piece, drawing)| card(view, piece, drawing, usual));
    sheet.drawings = pages(cards, (page_height(view) - above(view, &sheet)).max(0.0), page_height(view));
    vec![Sheet::Pieces(sheet)]
}

/// Heights of what is above the drawings, mm: the head of the sheet with that of its table, the head of the totals, the air
/// round a row, a line of it, a line of a note, the air round the statement of the scale, and that above the drawings.
const HEADS: f64 = 21.5;
const TOTALS: f64 = 11.6;
const ROW_AIR: f64 = 1.1;
const ROW_LINE: f64 = 3.5;
const NOTE_LINE: f64 = 3.6;
const AIR: f64 = 2.5;
const ABOVE: f64 = 4.5;
/// Type size of tables and notes, points.
const BODY: f64 = 8.5;
/// Widths of what may take several lines in a row, of the material of a total, and of the notes, mm.
const COLUMN: f64 = 52.0;
const OF_TOTAL: f64 = 40.0;
const NOTES: f64 = 140.0;

/// Height of what is above the drawings, mm.
fn above(view: &View<'_>, sheet: &Pieces) -> f64 {
    let lines = |text: &Phrase, width: f64| lines(text, view.model.style.languages, BODY, width);
    let cut = |one: &PieceRow| {
        let texts = [&one.name, &one.material].into_iter().map(|text| lines(text, COLUMN));
        ROW_AIR + ROW_LINE * texts.fold(1.0, f64::max)
    };
    let cuts: f64 = sheet.rows.iter().map(cut).sum();
    let total = |one: &PieceTotal| ROW_AIR + ROW_LINE * lines(&one.material, OF_TOTAL);
    let totals = TOTALS + sheet.totals.iter().map(total).sum::<f64>();
    let said: f64 = sheet.notes.iter().map(|one| lines(one, NOTES) * NOTE_LINE).sum();
    let scale = if sheet.scale.is_empty() { 0.0 } else { lines(&sheet.scale, NOTES) * ROW_LINE + AIR };
    HEADS + cuts + totals.max(said + scale) + ABOVE
}

fn count(figure: &Figure<u64>) -> Cell {
    Cell::figure(figure, |value| Cell::count(*value))
}

/// The most sizes whose cut sizes are side by side.
const COLUMNS: usize = 4;
/// Unit of areas.
const AREA_UNIT: &str = "m²";

/// The columns of sizes: the code at the head, and the sizes that are in it.
fn columns<'a>(view: &View<'a>) -> Vec<(&'a str, Vec<&'a str>)> {
    match view.sizes() {
        all if all.len() < 2 || all.len() > COLUMNS => vec![("", all)],
        all => all.into_iter().map(|size| (size, vec![size])).collect(),
    }
}

/// Grain and pile of most pieces; none where every piece has its own.
fn common(view: &View<'_>) -> Option<Phrase> {
    let pieces = view.model.pieces.values();
    let all: Vec<Phrase> = pieces.map(|piece| direction(view, piece)).filter(|said| !said.is_empty()).collect();
    let times = |one: &Phrase| all.iter().filter(|other| *other == one).count();
    let most = all.iter().rev().max_by_key(|one| times(one))?;
    (times(most) > 1).then(|| most.clone())
}

/// One cut; what is said of its piece is at the first of them.
fn row(view: &View<'_>, count_of: &CutCount, way: Option<&Phrase>, first: bool) -> Option<PieceRow> {
    let piece = view.model.pieces.get(&count_of.piece)?;
    let cut = piece.cuts.get(&count_of.cut)?;
    let title = piece.entry.title();
    let name = if piece.cuts.len() > 1 { say!(CUT_OF, piece = title, cut = cut.entry.title()) } else { title.into() };
    let own = count_of.own_image.known().copied().unwrap_or(false);
    let side = |figure: &Figure<u64>| if own { Cell::Dash } else { count(figure) };
    Some(PieceRow {
        code: count_of.piece.clone(),
        name: view.marked(&["piece"], &count_of.piece, name),
        material: count_of.material.as_ref().map_or_else(Phrase::none, |material| view.material(material).into()),
        drawn: side(&count_of.drawn),
        mirrored: side(&count_of.mirrored),
        own: if own { count(&count_of.total) } else { Cell::Dash },
        total: count(&count_of.total),
        sizes: columns(view).into_iter().map(|(_, some)| sizes(view, some, &count_of.piece, &count_of.cut)).collect(),
        allowance: allowance(view, cut),
        note: note(view, piece, cut, way, first),
    })
}

/// The cut size in some sizes.
fn sizes(view: &View<'_>, some: Vec<&str>, piece: &str, cut: &str) -> Cell {
    let by_size = view.figures.pieces.get(piece);
    view.cells(|size| {
        some.contains(&size).then_some(())?;
        let figures = by_size?.get(size)?.cuts.get(cut)?;
        let side = |figure: &Figure<Number>| Cell::figure(figure, |value| mm(*value)).phrase();
        Some(match (&figures.block_width, &figures.block_height) {
            (Some(width), Some(height)) => say!(BLOCK, width = side(width), height = side(height)).into(),
            _ => Cell::figure(&figures.line, |line| {
                say!(WIDE_HIGH, width = mm(line.width).phrase(), height = mm(line.height).phrase()).into()
            }),
        })
    })
}

fn millimetres(view: &View<'_>, value: &Value<Quantity>) -> Phrase {
    view.in_sizes(|size| {
        let known = value.known(Variant { size, colourway: "" });
        let cell = known.map_or(Cell::Unknown(BTreeSet::new()), |quantity| {
            let mm = quantity.si().checked_div(Unit::Mm.si_factor());
            Cell::amount(mm.map_or(Number::new(quantity.si_f64() * 1000.0), Number::exact), 2, "")
        });
        cell.phrase()
    })
}

fn allowance(view: &View<'_>, cut: &Cut) -> Cell {
    if let Some(inside) = &cut.inside {
        return say!(INSIDE, allowance = millimetres(view, inside)).into();
    }
    let all = cut.allowance.all.iter().map(|value| millimetres(view, value));
    let edge = |(edge, value): &(EdgeRef, Value<Quantity>)| {
        say!(EDGE, edge = edge.text(), allowance = millimetres(view, value))
    };
    Phrase::list(all.chain(cut.allowance.edges.iter().map(edge))).into()
}

fn direction(view: &View<'_>, piece: &Piece) -> Phrase {
    let way = |word: Word, ends: &crate::source::Spanned<(String, String)>| {
        say!(word, from = &ends.value.0, to = &ends.value.1)
    };
    let drawn = view.assembly.outlines.any(&piece.entry.id.value);
    let grain = piece.grain.as_ref().map(|ends| way(GRAIN_TO, ends));
    let grain = grain.or(drawn.and_then(|one| one.grain).map(|_| GRAIN_DRAWN.into()));
    let pile = piece.pile.as_ref().map(|ends| way(PILE_TO, ends));
    let pile = pile.or(drawn.and_then(|one| one.pile).map(|_| PILE_DRAWN.into()));
    Phrase::list(grain.into_iter().chain(pile))
}

/// Layers, grain and pile of its own, names of copies written out, raw edges, and the user's own remark.
fn note(view: &View<'_>, piece: &Piece, cut: &Cut, way: Option<&Phrase>, first: bool) -> Phrase {
    let mut parts: Vec<Phrase> = Vec::new();
    if let Some(times) = cut.count.as_ref().and_then(|count| count.known()).filter(|times| **times > 1) {
        parts.push(say!(LAYERS, count = *times));
    }
    let alike = cut.material.as_ref().is_some_and(|material| has_equal_faces(view.model, &material.value));
    if alike {
        parts.push(EQUAL_FACES.into());
    }
    if !first {
        return Phrase::row(parts, "; ");
    }
    let own = direction(view, piece);
    match way {
        Some(_) if own.is_empty() => parts.push(NO_DIRECTION.into()),
        Some(way) if own == *way => {}
        _ => parts.push(own),
    }
    let mirrored: Vec<&str> = piece.copies.iter().filter(|copy| copy.mirrored).map(|copy| copy.name.as_str()).collect();
    if !mirrored.is_empty() && !alike {
        parts.push(say!(MIRRORED, names = Phrase::list(mirrored)));
    }
    if !piece.raw.is_empty() {
        parts.push(say!(RAW, edges = Phrase::list(piece.raw.iter().map(|run| view.written(run.span)))));
    }
    if folds(view, &piece.entry.id.value) {
        parts.push(DARTS.into());
    }
    parts.extend(piece.notches.depth.as_ref().map(|depth| say!(NOTCHES, depth = millimetres(view, depth))));
    let facts = Phrase::row(parts.clone(), "; ");
    parts.push(view.text(piece.note.as_ref()).into());
    let all = Phrase::row(parts, "; ");
    if short(&all) { all } else { facts }
}

/// Whether a piece has darts whose legs are marked and sewn as a fold.
fn folds(view: &View<'_>, piece: &str) -> bool {
    let of_piece = |joint: &Resolved| {
        let instances = joint.a.runs.iter().filter_map(|run| view.assembly.instances.get(run.instance));
        instances.into_iter().any(|one| one.piece == piece)
    };
    let folded = |joint: &&Resolved| view.figures.seams.get(&joint.joint).is_some_and(|seam| seam.fold);
    view.assembly.joints.iter().filter(folded).any(of_piece)
}

/// Width of the column of notes, mm, and its type in points.
const NOTE: [f64; 2] = [52.0, 7.0];

/// Whether a note has room on one line of its column.
fn short(note: &Phrase) -> bool {
    text_width(&note.english(), NOTE[1], false) <= NOTE[0]
}

/// What holds for all pieces, long remarks, and what is said of each part.
fn notes(view: &View<'_>, way: Option<Phrase>, rows: &[PieceRow]) -> Vec<Phrase> {
    let all = way.map(|direction| say!(DIRECTION, direction));
    all.into_iter().chain(from_drawn(view)).chain(remarks(view, rows)).chain(super::parts::notes(view)).collect()
}

/// Which size is drawn, and by what factors others are scaled from it; nothing where none is.
fn from_drawn(view: &View<'_>) -> Option<Phrase> {
    let drawn = view.model.drawn_size()?;
    let factor = |factor: f64| number::number(factor, number::places(factor, 4));
    let outlines = &view.assembly.outlines;
    let scaled = view.model.sizes.iter().filter(|size| outlines.is_scaled(&size.entry.id.value)).filter_map(|size| {
        let (along, across) = size.scale.as_ref()?.known().copied()?;
        Some(say!(SCALED, size = size.entry.title(), along = factor(along), across = factor(across)))
    });
    let scaled: Vec<Phrase> = scaled.collect();
    let drawn = drawn.entry.title();
    (!scaled.is_empty()).then(|| say!(DRAWN, size = drawn, scaled = Phrase::row(scaled, "; ")))
}

/// Remarks on pieces that are too long for the table.
fn remarks(view: &View<'_>, rows: &[PieceRow]) -> Vec<Phrase> {
    let told = |piece: &Piece| {
        let (code, text) = (&piece.entry.id.value, view.text(piece.note.as_ref()));
        let own = rows.iter().find(|row| row.code == *code).map(|row| row.note.english()).unwrap_or_default();
        (!text.is_empty() && !own.contains(text)).then(|| say!(REMARK, piece = code, remark = text))
    };
    view.model.pieces.values().filter_map(told).collect()
}

/// Pieces and net area by material, summed over its cuts; the areas are those of the bill.
fn totals(view: &View<'_>) -> Vec<PieceTotal> {
    let counts = &view.figures.counts;
    let mut all = Vec::new();
    for (material, total) in &counts.materials {
        let cuts = || counts.cuts.iter().filter(|cut| cut.material.as_deref() == Some(material.as_str()));
        let sided = cuts().any(|cut| cut.own_image.known() == Some(&false));
        let side = |pick: fn(&CutCount) -> &Figure<u64>| {
            let sum =
                Figure::total(cuts().filter(|cut| cut.own_image.known() != Some(&true)).map(|cut| pick(cut).clone()));
            if sided { count(&sum) } else { Cell::Dash }
        };
        let net = |size: &str| {
            let sum = Figure::sum(cuts().map(|cut| area(view, cut, size))).times(1e-6);
            Cell::figure(&sum, |value| Cell::fixed(*value, 4, ""))
        };
        let own = Figure::total(cuts().filter(|cut| cut.own_image.known() == Some(&true)).map(|cut| cut.total.clone()));
        let own = if cuts().any(|cut| cut.own_image.known() == Some(&true)) { count(&own) } else { Cell::Dash };
        let column = |some: Vec<&str>| view.cells(|size| some.contains(&size).then(|| net(size)));
        all.push(PieceTotal {
            material: view.material(material).into(),
            drawn: side(|cut| &cut.drawn),
            mirrored: side(|cut| &cut.mirrored),
            own,
            total: count(total),
            net: columns(view).into_iter().map(|(_, some)| column(some)).collect(),
        });
    }
    all
}

fn area(view: &View<'_>, cut: &CutCount, size: &str) -> Figure<Number> {
    let one =
        view.figures.pieces.get(&cut.piece).and_then(|sizes| sizes.get(size)).and_then(|one| one.cuts.get(&cut.cut));
    let times = cut.total.clone().map(|count| Number::new(count as f64));
    match one {
        Some(one) => one.material_area.clone().by(times),
        None => Figure::not_yet(AREA_OF),
    }
}

/// A piece as it is drawn: the denominator of its scale, and the drawing.
type Drawn<'m> = (&'m Piece, Option<(f64, Drawing)>);

/// Every piece with its drawing, and the scale of most. A piece for which there is more room is drawn to that scale too, unless
/// what is written on it would crowd.
fn drawn<'m>(view: &View<'m>) -> (Vec<Drawn<'m>>, Option<f64>) {
    let letters = Letters::of(view);
    let outlined = |piece: &'m Piece| {
        let (size, _) = view.shown(&piece.entry.id.value)?;
        let outline = shape(view, &letters, piece, size)?;
        Some((largest(&outline), outline))
    };
    let all: Vec<_> = view.model.pieces.values().map(|piece| (piece, outlined(piece))).collect();
    let usual = usual(all.iter().filter_map(|(_, one)| Some(one.as_ref()?.0)).collect());
    let one = |(largest, outline): (f64, PieceOutline)| {
        let scale = usual.filter(|usual| *usual > largest && is_clear(&outline, *usual)).unwrap_or(largest);
        (scale, Drawing::of(draw(&outline, scale), Phrase::none()))
    };
    (all.into_iter().map(|(piece, outline)| (piece, outline.map(one))).collect(), usual)
}

/// The denominator of the smallest drawing on which all that is written has room, if there is room for that.
fn largest(outline: &PieceOutline) -> f64 {
    let half = scale_for(outline, room_half);
    if is_clear(outline, half) { half } else { scale_for(outline, room_piece) }
}

/// The scale of most pieces; of scales as frequent the smallest drawing.
fn usual(scales: Vec<f64>) -> Option<f64> {
    let times = |scale: f64| scales.iter().filter(|one| **one == scale).count();
    scales.iter().copied().max_by(|a, b| times(*a).cmp(&times(*b)).then(a.total_cmp(b)))
}

/// The scale and the sizes that are drawn; nothing where there is no drawing.
fn scaled(view: &View<'_>, scale: Option<f64>, [one, several]: [Word; 2]) -> Phrase {
    let Some(scale) = scale.map(|scale| format!("1:{scale}")) else { return Phrase::none() };
    let sizes = view.sizes();
    let titled = |size: &str| view.model.size(size).map_or(size.to_string(), |one| one.entry.title().to_string());
    match sizes.as_slice() {
        [] | [_] => say!(one, scale),
        [first, others @ ..] => {
            let others = Phrase::list(others.iter().map(|one| titled(one)));
            say!(several, scale, size = titled(first), others)
        }
    }
}

/// Type that the line with the code is taken to be set in, points: part of it is smaller.
const CODE: f64 = 9.5;
/// Height of the box that asks for a shape, mm.
const ASKED: f64 = 16.0;

/// The card of a piece with the room it takes.
fn card(view: &View<'_>, piece: &Piece, drawing: Option<(f64, Drawing)>, usual: Option<f64>) -> ([f64; 2], PieceCard) {
    let id = &piece.entry.id.value;
    let cuts = view.figures.counts.cuts.iter().filter(|cut| cut.piece == *id).map(|cut| cut_count(view, piece, cut));
    let own = drawing.as_ref().map(|(scale, _)| *scale);
    let scale = own.filter(|scale| Some(*scale) != usual);
    let drawing = drawing.map(|(_, drawing)| drawing);
    let scene = drawing.as_ref().map(|drawing| &drawing.scene);
    let mut card = PieceCard {
        width: width(scene),
        top: 0.0,
        code: id.clone(),
        name: view.marked(&["piece"], id, if piece.entry.name.is_some() { piece.entry.title() } else { "" }),
        scale: scale.map_or_else(Phrase::none, |scale| say!(SCALE, scale = format!("1:{scale}"))),
        caption: scaled(view, own, [SCALE, SCALE_AND_SIZES]),
        count: Phrase::lines(cuts),
        drawing: None,
    };
    card.top = top(view, &card);
    let size = [card.width, card.top + scene.map_or(ASKED, |scene| scene.height)];
    (size, PieceCard { drawing, ..card })
}

/// The height of the text of a card, whose lines may break.
fn top(view: &View<'_>, card: &PieceCard) -> f64 {
    let languages = view.model.style.languages;
    let head = Phrase::row([card.code.as_str().into(), card.name.clone(), card.scale.clone()], "   ");
    let head = LINES[0] * lines(&head, languages, CODE, card.width);
    let below = if card.count.is_empty() { 0.0 } else { lines(&card.count, languages, 7.5, card.width) };
    head + below * LINES[1] + 1.5
}

/// `cut 2 (1 mirrored) · Plush`, and the block it is cut from first.
fn cut_count(view: &View<'_>, piece: &Piece, cut: &CutCount) -> Phrase {
    let material = cut.material.as_ref().map_or_else(Phrase::none, |material| view.material(material).into());
    let total = count(&cut.total).phrase();
    let mut said = match (cut.own_image.known(), cut.mirrored.known()) {
        (Some(false), Some(1..)) => {
            say!(CUT_SIDED, count = total, mirrored = count(&cut.mirrored).phrase(), material)
        }
        _ => say!(CUT, count = total, material),
    };
    let layer = piece.cuts.get(&cut.cut);
    if let Some(layer) = layer.filter(|_| piece.cuts.len() > 1) {
        said = say!(LAYER, cut = said, layer = layer.entry.title());
    }
    if layer.is_some_and(|layer| layer.block.is_some()) {
        said = say!(THEN_TO_SHAPE, cut = said, block = blocks(view, &cut.piece, &cut.cut));
    }
    said
}

/// Blocks on one line, with where two points of the piece lie in them: `S: block 100 × 80, m 12 / 40, k 88 / 38; L: ..`.
fn blocks(view: &View<'_>, piece: &str, cut: &str) -> Phrase {
    let all = sizes(view, view.sizes(), piece, cut);
    let placed = view.cells(|size| {
        let Cell::By(by) = &all else { return None };
        let said = by.iter().find(|one| one.code == size)?.cell.phrase();
        let points = in_block(view, piece, size, cut);
        Some(Phrase::list(std::iter::once(said).chain(points)).into())
    });
    match placed.phrase() {
        Phrase::Row(all, _) => Phrase::row(all, "; "),
        one => one,
    }
}

/// Where the first named point and the one that is farthest from it lie in the block, from its left and its lower edge.
fn in_block(view: &View<'_>, piece: &str, size: &str, cut: &str) -> Vec<Phrase> {
    let sew = view.drawn.sew(piece, size);
    let (Some([low, _]), Some(sew)) = (block(view, piece, size, cut), sew.known()) else {
        return Vec::new();
    };
    let points: Vec<(&str, Point)> =
        sew.points.iter().filter_map(|one| Some((one.id.as_str(), sew.point(&one.id)?))).collect();
    let Some((first, at)) = points.first().copied() else { return Vec::new() };
    let far = points.iter().skip(1).max_by(|a, b| a.1.distance(at).total_cmp(&b.1.distance(at)));
    let said = |(name, at): (&str, Point)| {
        let from = |distance: f64| mm(Number::new(distance)).phrase();
        say!(IN_BLOCK, name, left = from(at.x - low.x), below = from(at.y - low.y))
    };
    std::iter::once((first, at)).chain(far.copied()).map(said).collect()
}
