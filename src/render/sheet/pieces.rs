//! What to cut: the cuts in a table, totals by material, and each piece drawn with its sew and cut line.

use backtack_core::compute::{CutCount, Figure, Number};
use backtack_core::geom::{Outline, Path, Point, Segment as Curve, measure};
use backtack_core::model::{Cut, Piece, Value};
use backtack_core::scene::{At, Line, PieceOutline, PiecePoint, Segment, legend_sample, piece as draw, scale_for};
use backtack_core::units::Quantity;
use backtack_core::words::{number, sheet as words};

use super::super::package::{Drawing, Head, ROOM_PIECE};
use super::super::sheets::{LegendRow, PieceCard, PieceRow, PieceTotal, Pieces, Sheet};
use super::filling::{NOT_YET, figure};
use super::view::{View, sewn_cut};

/// One sheet, or none without pieces.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.pieces.is_empty() {
        return Vec::new();
    }
    let rows = view.figures.counts.cuts.iter().filter_map(|count| row(view, count)).collect();
    let lead = "Counts are for one product. Sizes are cut sizes, width × height, with the height along the grain. A \
                mirrored piece is written out as such; a piece that is its own mirror image counts as one kind.";
    vec![Sheet::Pieces(Pieces {
        head: Head { title: words::PIECES_TITLE.en.into(), name: words::PIECES.en.into(), lead: lead.into() },
        unit: "mm".into(),
        rows,
        totals: totals(view),
        drawings: view.model.pieces.values().map(|piece| card(view, piece)).collect(),
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
        name,
        material: count_of.material.as_ref().map_or(String::new(), |material| view.material(material)),
        left: side(&count_of.drawn),
        right: side(&count_of.mirrored),
        total: count(&count_of.total),
        size: sizes(view, &count_of.piece, &count_of.cut),
        allowance: allowance(view, cut),
        direction: direction(piece),
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

fn length(value: Number) -> String {
    figure(&Figure::Known(value), 1)
}

fn millimetres(view: &View<'_>, value: &Value<Quantity>) -> String {
    let mut texts: Vec<String> = Vec::new();
    for variant in view.model.variants() {
        if let Some(quantity) = value.known(variant) {
            let text = figure(&Figure::number(quantity.si_f64() * 1000.0), 2);
            if !texts.contains(&text) {
                texts.push(text);
            }
        }
    }
    if texts.is_empty() { NOT_YET.into() } else { texts.join(" / ") }
}

fn allowance(view: &View<'_>, cut: &Cut) -> String {
    if let Some(inside) = &cut.inside {
        return format!("{} inside", millimetres(view, inside));
    }
    let mut texts: Vec<String> = cut.allowance.all.iter().map(|value| millimetres(view, value)).collect();
    texts.extend(cut.allowance.runs.iter().map(|(run, (_, value))| format!("{run} {}", millimetres(view, value))));
    texts.join("\n")
}

fn direction(piece: &Piece) -> String {
    let way = |word: &str, ends: &backtack_core::source::Spanned<(String, String)>| {
        format!("{word} {} to {}", ends.value.0, ends.value.1)
    };
    let grain = piece.grain.as_ref().map(|ends| way("grain", ends));
    let pile = piece.pile.as_ref().map(|ends| way("pile lies", ends));
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
            left: side(|cut| &cut.drawn),
            right: side(|cut| &cut.mirrored),
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

fn card(view: &View<'_>, piece: &Piece) -> PieceCard {
    let id = &piece.entry.id.value;
    let cuts: Vec<String> = view
        .figures
        .counts
        .cuts
        .iter()
        .filter(|cut| cut.piece == *id)
        .map(|cut| {
            let material = cut.material.as_ref().map_or(String::new(), |material| view.material(material));
            format!("cut {} · {material}", count(&cut.total))
        })
        .collect();
    PieceCard {
        code: id.clone(),
        name: if piece.entry.name.is_some() { piece.entry.title().to_string() } else { String::new() },
        count: cuts.join("\n"),
        drawing: drawing(view, piece),
    }
}

/// The piece in the first size that has a shape, at the largest scale that fits.
fn drawing(view: &View<'_>, piece: &Piece) -> Option<Drawing> {
    let size = view.sizes().into_iter().find(|size| view.drawn.sew(&piece.entry.id.value, size).known().is_some())?;
    let outline = shape(view, piece, size)?;
    let scale = scale_for(&outline, ROOM_PIECE.width, ROOM_PIECE.height);
    let scene = draw(&outline, scale);
    let named = view.model.size(size).map_or(size, |one| one.entry.title());
    let caption = if view.model.sizes.len() > 1 { format!("Size {named}, 1:{scale}") } else { format!("1:{scale}") };
    Some(Drawing { picture: None, scene, caption })
}

/// A piece with its lines in its own millimetres.
pub fn shape(view: &View<'_>, piece: &Piece, size: &str) -> Option<PieceOutline> {
    let id = piece.entry.id.value.as_str();
    let sew = view.drawn.sew(id, size);
    let sew: &Outline = sew.known()?;
    let cut_id = sewn_cut(piece).map(|cut| cut.entry.id.value.clone()).unwrap_or_default();
    let cut = view.drawn.cut(id, size, &cut_id);
    let cut_line: Vec<Segment> = match cut.known() {
        Some(shape) => shape.paths.iter().flat_map(|path| segments(path, true)).collect(),
        None => segments(&sew.path, true),
    };
    let figures = view.figures.pieces.get(id).and_then(|sizes| sizes.get(size));
    let line = figures.and_then(|one| one.cuts.get(&cut_id)).and_then(|one| one.line.known());
    let paths: Vec<&Path> = cut.known().map_or_else(|| vec![&sew.path], |shape| shape.paths.iter().collect());
    let bounds = paths.into_iter().map(measure::bbox).reduce(|a, b| a.with(b.min).with(b.max))?;
    let towards = |ends: Option<(Point, Point)>| ends.map(|(a, b)| [b.x - a.x, a.y - b.y]);
    let pile = towards(piece.pile_line(sew));
    let (width, height) = (bounds.width(), bounds.height());
    let inner = sew.lines.iter().map(|line| (Line::Stitching, segments(&line.path, false))).collect();
    let size_text = |value: f64| figure(&Figure::number(value), 1);
    let alt = match line {
        Some(line) => format!(
            "Piece {id}: cut size {} by {} mm, sew line dashed inside the cut line.",
            length(line.width),
            length(line.height)
        ),
        None => format!("Piece {id}: sew line only, the cut line is not known yet."),
    };
    Some(PieceOutline {
        code: id.to_string(),
        sew: if cut.known().is_some_and(|shape| shape.area > sew.area() + 1e-6) {
            segments(&sew.path, true)
        } else {
            Vec::new()
        },
        cut: cut_line,
        inner,
        points: sew
            .points
            .iter()
            .filter_map(|one| Some(PiecePoint { name: one.id.clone(), at: page(sew.point(&one.id)?) }))
            .collect(),
        grain: towards(piece.grain_line(sew)).or(pile),
        pile,
        width_text: size_text(width),
        height_text: size_text(height),
        bar: 50.0,
        bar_text: number::mm(50, 0),
        alt,
        ..PieceOutline::default()
    })
}

/// A point of a piece (y up) as drawn (y down).
fn page(point: Point) -> At {
    [point.x, -point.y]
}

fn segments(path: &Path, close: bool) -> Vec<Segment> {
    let mut all = vec![Segment::Move(page(path.start))];
    all.extend(path.segments.iter().map(|segment| match segment {
        Curve::Line(end) => Segment::Line(page(*end)),
        Curve::Cubic(a, b, end) => Segment::Cubic(page(*a), page(*b), page(*end)),
    }));
    if close {
        all.push(Segment::Close);
    }
    all
}

/// The lines that occur in the drawings.
fn legend(view: &View<'_>) -> Vec<LegendRow> {
    let pieces = || view.model.pieces.values();
    let sample = |line: Line, text: &str| LegendRow {
        sample: Drawing { picture: None, scene: legend_sample(line, text), caption: String::new() },
        text: text.into(),
    };
    let mut all = vec![sample(Line::Cut, "cut line"), sample(Line::Sew, "sew line")];
    if pieces().any(|piece| piece.grain.is_some() || piece.pile.is_some()) {
        all.push(sample(Line::Grain, "grain"));
    }
    if pieces().any(|piece| piece.pile.is_some()) {
        all.push(sample(Line::Pile, "pile, the way it lies"));
    }
    let lines = pieces()
        .any(|piece| view.assembly.outlines.any(&piece.entry.id.value).is_some_and(|one| !one.lines.is_empty()));
    if lines {
        all.push(sample(Line::Stitching, "stitching inside a piece"));
    }
    all.push(sample(Line::Dimension, "cut size"));
    all
}
