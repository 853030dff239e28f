//! The box of signs: what the lines and marks on the drawings of pieces mean.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::Number;
use crate::model::{NotchStyle, Piece, Variant};
use crate::scene::{self, Line, Scene, legend_sample, nest_sample};
use crate::words::{Phrase, Word, say, words};

use super::cell::Cell;
use super::data::{LegendRow, Signs};
use super::outline::form;
use super::package::Drawing;
use super::view::View;

words! {
    OF_SIZE "pieces.of-size" = "cut line of size {size}";
    OTHER_LAYER "pieces.other-layer" = "another layer, not sewn by itself";
    BLOCK_LINE "pieces.block-line" = "block it is cut from first";
    CUT_LINE "pieces.cut-line" = "cut line";
    SEW_LINE "pieces.sew-line" = "sew line";
    GRAIN "pieces.grain" = "grain, either way";
    PILE "pieces.pile" = "pile, the way it lies";
    STITCHING "pieces.stitching" = "stitching inside a piece";
    PLACEMENT "pieces.placement" = "placement mark";
    FOLD "pieces.fold" = "centre line; the other half is its mirror image";
    SLIT "pieces.slit" = "notch, slit; drawn no shorter than it shows";
    OUTWARD "pieces.outward" = "notch, outward; drawn no smaller than it shows";
    DEEP "pieces.deep" = "{sign}; depth {depth}";
    DEPTH_OF "pieces.depth-of" = "{depth} at {pieces}";
    MARKED "pieces.marked" = "notch, marked and not cut";
    POINT "pieces.point" = "named point; a~ is its mirror image";
    SEAM "pieces.seam" = "edge 2 of seam T, the way the seam runs; T′ the same seam on the other side";
    CUT_SIZE "pieces.cut-size" = "cut size";
}

/// The lines and marks that occur on the drawings.
pub fn of(view: &View<'_>) -> Signs {
    let pieces = || view.model.pieces.values();
    let sample = |line: Line, text: Word| LegendRow {
        sample: Drawing::of(legend_sample(line, text), Phrase::none()),
        text: text.into(),
    };
    let sizes = view.sizes();
    let cut = sizes.first().filter(|_| sizes.len() > 1).map_or_else(|| CUT_LINE.into(), |size| say!(OF_SIZE, size));
    let cut = LegendRow { sample: Drawing::of(legend_sample(Line::Cut, cut.clone()), Phrase::none()), text: cut };
    let mut all = vec![cut, sample(Line::Sew, SEW_LINE)];
    for (n, size) in sizes.into_iter().skip(1).enumerate() {
        let text = say!(OF_SIZE, size);
        all.push(LegendRow { sample: Drawing::of(nest_sample(n, text.clone()), Phrase::none()), text });
    }
    let cuts = || pieces().flat_map(|piece| piece.cuts.values());
    if pieces().any(|piece| piece.cuts.len() > 1) {
        all.push(sample(Line::Layer, OTHER_LAYER));
    }
    if cuts().any(|cut| cut.block.is_some()) {
        all.push(sample(Line::Block, BLOCK_LINE));
    }
    let drawn = || pieces().filter_map(|piece| Some((piece, view.assembly.outlines.any(&piece.entry.id.value)?)));
    if drawn().any(|(piece, outline)| piece.along(outline).is_some()) {
        all.push(sample(Line::Grain, GRAIN));
    }
    if drawn().any(|(piece, outline)| piece.pile_line(outline).is_some()) {
        all.push(sample(Line::Pile, PILE));
    }
    if drawn().any(|(_, one)| !one.lines.is_empty()) {
        all.push(sample(Line::Topstitch, STITCHING));
    }
    if drawn().any(|(_, one)| !one.marks.is_empty()) {
        all.push(sample(Line::Placement, PLACEMENT));
    }
    let folded = |piece: &Piece| {
        let sizes = view.sizes();
        let sources = sizes.iter().filter_map(|size| piece.outline.as_ref()?.known(Variant { size, colourway: "" }));
        sources.into_iter().any(|source| source.fold.is_some())
    };
    if pieces().any(folded) {
        all.push(sample(Line::Fold, FOLD));
    }
    let notches = |piece: &Piece| {
        let shown = view.shown(&piece.entry.id.value);
        shown.is_some_and(|(_, lines)| lines.notches.known().is_some_and(|marks| !marks.is_empty()))
    };
    for (style, text) in [(NotchStyle::Slit, SLIT), (NotchStyle::Outward, OUTWARD), (NotchStyle::None, MARKED)] {
        let own = |piece: &Piece| piece.notches.style.as_ref().map(|style| style.value).unwrap_or_default() == style;
        if pieces().any(|piece| own(piece) && notches(piece)) {
            let scene = scene::notch_sample(form(style), text);
            let depth = depth(view, style);
            let text = if depth.is_empty() { text.into() } else { say!(DEEP, sign = text, depth) };
            all.push(LegendRow { sample: Drawing::of(scene, Phrase::none()), text });
        }
    }
    all.push(sample(Line::Dimension, CUT_SIZE));
    let drawn = |scene: Scene, text: Word| LegendRow { sample: Drawing::of(scene, Phrase::none()), text: text.into() };
    all.push(drawn(scene::point_sample("a", POINT), POINT));
    all.push(drawn(scene::seam_sample("T2", SEAM), SEAM));
    Signs { rows: all }
}

/// How deep notches of a style are in mm, with the pieces where they differ; nothing for those that are only marked.
fn depth(view: &View<'_>, style: NotchStyle) -> Phrase {
    let mut all: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    for piece in view.model.pieces.keys() {
        let sizes = view.sizes().into_iter().filter_map(|size| view.drawn.get(piece, size)?.notches.known());
        for one in sizes.flatten().filter(|one| one.style == style && one.depth > 0.0) {
            all.entry(Cell::amount(Number::new(one.depth), 1, "mm").phrase().english()).or_default().insert(piece);
        }
    }
    match all.len() {
        _ if style == NotchStyle::None => Phrase::none(),
        0 | 1 => all.into_keys().next().map_or_else(Phrase::none, Phrase::from),
        _ => Phrase::row(
            all.into_iter().map(|(depth, pieces)| say!(DEPTH_OF, depth, pieces = Phrase::list(pieces))),
            "; ",
        ),
    }
}
