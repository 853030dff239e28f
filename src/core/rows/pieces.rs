//! What to cut: the cuts in a table, totals by material, and each piece drawn with its sew and cut line.

use crate::compute::{CutCount, Figure, Number};
use crate::model::{Cut, EdgeRef, NotchStyle, Piece, Value, Variant};
use crate::scene::{self, Line, legend_sample, piece as draw, scale_for};
use crate::units::Quantity;
use crate::words::{number, sheet as words};

use super::cards::{rows as rows_of, width};
use super::data::{LegendRow, PieceCard, PieceRow, PieceTotal, Pieces, Sheet};
use super::outline::{form, shape};
use super::package::{Drawing, Head, room_piece};
use super::view::{View, length};
use super::written::{NOT_YET, figure};

/// One sheet, or none without pieces.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.pieces.is_empty() {
        return Vec::new();
    }
    let rows: Vec<PieceRow> = view.figures.counts.cuts.iter().filter_map(|count| row(view, count)).collect();
    let lead = "Counts are for one product. Sizes are cut sizes, width × height, with the height along the grain. A \
                mirrored piece is written out as such; a piece that is its own mirror image counts as one kind.";
    vec![Sheet::Pieces(Pieces {
        head: Head { title: words::PIECES_TITLE.en.into(), name: words::PIECES.en.into(), lead: lead.into() },
        unit: "mm".into(),
        rows,
        totals: totals(view),
        drawings: rows_of(view.model.pieces.values().map(|piece| card(view, piece))),
        legend: legend(view),
    })]
}

fn count(figure: &Figure<u64>) -> String {
    match figure {
        Figure::Known(value) => value.to_string(),
        Figure::NotYet { .. } => NOT_YET.into(),
        Figure::Withheld => "withheld".into(),
    }
}

fn row(view: &View<'_>, count_of: &CutCount) -> Option<PieceRow> {
    let piece = view.model.pieces.get(&count_of.piece)?;
    let cut = piece.cuts.get(&count_of.cut)?;
    let title = piece.entry.title();
    let name = if piece.cuts.len() > 1 { format!("{title}, {}", cut.entry.title()) } else { title.to_string() };
    let own = count_of.own_image.known().copied().unwrap_or(false);
    let side = |figure: &Figure<u64>| if own { "–".to_string() } else { count(figure) };
    Some(PieceRow {
        code: count_of.piece.clone(),
        name: view.marked(&["piece"], &count_of.piece, &name),
        material: count_of.material.as_ref().map_or(String::new(), |material| view.material(material)),
        drawn: side(&count_of.drawn),
        mirrored: side(&count_of.mirrored),
        total: count(&count_of.total),
        size: sizes(view, &count_of.piece, &count_of.cut),
        allowance: allowance(view, cut),
        direction: direction(view, piece),
        note: note(view, piece, cut),
    })
}

/// The cut size in every size, one line each.
fn sizes(view: &View<'_>, piece: &str, cut: &str) -> String {
    let Some(by_size) = view.figures.pieces.get(piece) else { return String::new() };
    let mut lines: Vec<(String, String)> = Vec::new();
    for size in view.sizes() {
        let Some(figures) = by_size.get(size).and_then(|one| one.cuts.get(cut)) else { continue };
        let text = match (&figures.block_width, &figures.block_height, &figures.line) {
            (Some(width), Some(height), _) => format!("block {} × {}", figure(width, 1), figure(height, 1)),
            (_, _, Figure::Known(line)) => format!("{} × {}", length(line.width), length(line.height)),
            _ => NOT_YET.into(),
        };
        lines.push((size.to_string(), text));
    }
    let same = lines.windows(2).all(|pair| pair[0].1 == pair[1].1);
    match (same, lines.first()) {
        (true, Some((_, text))) => text.clone(),
        _ => lines.iter().map(|(size, text)| format!("{size}  {text}")).collect::<Vec<_>>().join("\n"),
    }
}

fn millimetres(view: &View<'_>, value: &Value<Quantity>) -> String {
    view.by_size(|size| match value.known(Variant { size, colourway: "" }) {
        Some(quantity) => figure(&Figure::number(quantity.si_f64() * 1000.0), 2),
        None => NOT_YET.into(),
    })
}

fn allowance(view: &View<'_>, cut: &Cut) -> String {
    if let Some(inside) = &cut.inside {
        return format!("{} inside", millimetres(view, inside));
    }
    let mut texts: Vec<String> = cut.allowance.all.iter().map(|value| millimetres(view, value)).collect();
    let edge = |(edge, value): &(EdgeRef, Value<Quantity>)| format!("{} {}", edge.text(), millimetres(view, value));
    texts.extend(cut.allowance.edges.iter().map(edge));
    texts.join("\n")
}

fn direction(view: &View<'_>, piece: &Piece) -> String {
    let way = |word: &str, ends: &crate::source::Spanned<(String, String)>| {
        format!("{word} {} to {}", ends.value.0, ends.value.1)
    };
    let drawn = view.assembly.outlines.any(&piece.entry.id.value);
    let grain = piece.grain.as_ref().map(|ends| way("grain", ends));
    let grain = grain.or(drawn.and_then(|one| one.grain).map(|_| "grain as drawn".to_string()));
    let pile = piece.pile.as_ref().map(|ends| way("pile lies", ends));
    let pile = pile.or(drawn.and_then(|one| one.pile).map(|_| "pile as drawn".to_string()));
    grain.into_iter().chain(pile).collect::<Vec<_>>().join(", ")
}

/// Names of copies written out, raw edges, and the user's own remark.
fn note(view: &View<'_>, piece: &Piece, cut: &Cut) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mirrored: Vec<&str> = piece.copies.iter().filter(|copy| copy.mirrored).map(|copy| copy.name.as_str()).collect();
    if !mirrored.is_empty() {
        parts.push(format!("mirrored: {}", mirrored.join(", ")));
    }
    if let Some(times) = cut.count.as_ref().and_then(|count| count.known()).filter(|times| **times > 1) {
        parts.push(format!("{times} layers each"));
    }
    if !piece.raw.is_empty() {
        let runs: Vec<String> = piece.raw.iter().map(|run| view.written(run.span)).collect();
        parts.push(format!("raw: {}", runs.join(", ")));
    }
    parts.push(view.text(piece.note.as_ref()).to_string());
    parts.retain(|part| !part.is_empty());
    parts.join("; ")
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
            if sided { count(&sum) } else { "–".to_string() }
        };
        let nets: Vec<String> = view
            .sizes()
            .into_iter()
            .map(|size| {
                let parts = cuts().map(|cut| area(view, cut, size));
                let text = match Figure::sum(parts).times(1e-6) {
                    Figure::Known(value) => number::with_unit(value.get(), 4, "m²"),
                    _ => NOT_YET.into(),
                };
                if view.model.sizes.len() > 1 { format!("{size}  {text}") } else { text }
            })
            .collect();
        all.push(PieceTotal {
            material: view.material(material),
            drawn: side(|cut| &cut.drawn),
            mirrored: side(|cut| &cut.mirrored),
            total: count(total),
            net: nets.join(" · "),
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
        None => Figure::not_yet("the area is not computed"),
    }
}

/// The card of a piece with its width and the height of its drawing.
fn card(view: &View<'_>, piece: &Piece) -> ([f64; 2], PieceCard) {
    let id = &piece.entry.id.value;
    let cuts = view.figures.counts.cuts.iter().filter(|cut| cut.piece == *id).map(|cut| cut_count(view, piece, cut));
    let drawing = drawing(view, piece);
    let scene = drawing.as_ref().map(|drawing| &drawing.scene);
    let size = [width(scene), scene.map_or(0.0, |scene| scene.height)];
    let card = PieceCard {
        width: size[0],
        code: id.clone(),
        name: view.marked(&["piece"], id, if piece.entry.name.is_some() { piece.entry.title() } else { "" }),
        count: cuts.collect::<Vec<_>>().join("\n"),
        drawing,
    };
    (size, card)
}

/// `cut 2 (1 mirrored) · Plush`, and the block it is cut from first.
fn cut_count(view: &View<'_>, piece: &Piece, cut: &CutCount) -> String {
    let material = cut.material.as_ref().map_or(String::new(), |material| view.material(material));
    let sides = match (cut.own_image.known(), cut.mirrored.known()) {
        (Some(false), Some(1..)) => format!(" ({} mirrored)", count(&cut.mirrored)),
        _ => String::new(),
    };
    let layer = match piece.cuts.get(&cut.cut) {
        Some(layer) if piece.cuts.len() > 1 => format!(" · {}", layer.entry.title()),
        _ => String::new(),
    };
    let block = piece.cuts.get(&cut.cut).is_some_and(|layer| layer.block.is_some());
    let block = if block {
        format!(", {} mm, then to shape", sizes(view, &cut.piece, &cut.cut).replace('\n', "; "))
    } else {
        String::new()
    };
    format!("cut {}{sides} · {material}{layer}{block}", count(&cut.total))
}

/// The piece in the first size that has a shape, at the largest scale that fits.
fn drawing(view: &View<'_>, piece: &Piece) -> Option<Drawing> {
    let (size, _) = view.shown(&piece.entry.id.value)?;
    let outline = shape(view, piece, size)?;
    let scale = scale_for(&outline, room_piece);
    let scene = draw(&outline, scale);
    let named = view.model.size(size).map_or(size, |one| one.entry.title());
    let caption = if view.model.sizes.len() > 1 { format!("Size {named}, 1:{scale}") } else { format!("1:{scale}") };
    Some(Drawing::of(scene, &caption))
}

/// The lines that occur in the drawings.
fn legend(view: &View<'_>) -> Vec<LegendRow> {
    let pieces = || view.model.pieces.values();
    let sample =
        |line: Line, text: &str| LegendRow { sample: Drawing::of(legend_sample(line, text), ""), text: text.into() };
    let mut all = vec![sample(Line::Cut, "cut line"), sample(Line::Sew, "sew line")];
    let drawn = || pieces().filter_map(|piece| Some((piece, view.assembly.outlines.any(&piece.entry.id.value)?)));
    if drawn().any(|(piece, outline)| piece.along(outline).is_some()) {
        all.push(sample(Line::Grain, "grain"));
    }
    if drawn().any(|(piece, outline)| piece.pile_line(outline).is_some()) {
        all.push(sample(Line::Pile, "pile, the way it lies"));
    }
    if drawn().any(|(_, one)| !one.lines.is_empty()) {
        all.push(sample(Line::Topstitch, "stitching inside a piece"));
    }
    if drawn().any(|(_, one)| !one.marks.is_empty()) {
        all.push(sample(Line::Placement, "placement mark"));
    }
    let folded = |piece: &Piece| {
        let sizes = view.sizes();
        let sources = sizes.iter().filter_map(|size| piece.outline.as_ref()?.known(Variant { size, colourway: "" }));
        sources.into_iter().any(|source| source.fold.is_some())
    };
    if pieces().any(folded) {
        all.push(sample(Line::Fold, "middle, about which a half was opened out"));
    }
    let notches = |piece: &Piece| {
        let shown = view.shown(&piece.entry.id.value);
        shown.is_some_and(|(_, lines)| lines.notches.known().is_some_and(|marks| !marks.is_empty()))
    };
    for (style, text) in [
        (NotchStyle::Slit, "notch, slit; drawn no shorter than it shows"),
        (NotchStyle::Outward, "notch, outward; drawn no smaller than it shows"),
        (NotchStyle::None, "notch, marked and not cut"),
    ] {
        let own = |piece: &Piece| piece.notches.style.as_ref().map(|style| style.value).unwrap_or_default() == style;
        if pieces().any(|piece| own(piece) && notches(piece)) {
            let scene = scene::notch_sample(form(style), text);
            all.push(LegendRow { sample: Drawing::of(scene, ""), text: text.into() });
        }
    }
    all.push(sample(Line::Dimension, "cut size"));
    all
}
