//! Rule: a piece is wider than the cuttable width of its fabric.

use std::collections::BTreeSet;

use crate::compute::counts::CutCount;
use crate::compute::number::property;
use crate::cutting::figures::least_width;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, Piece, Variant};
use crate::words::{Phrase, say, words};

use crate::compute::input::Ground;
use crate::compute::rules::telling::{in_size, mm};

/// A piece that does not fit on its fabric.
pub const RULE: Rule = Rule {
    code: "piece-too-wide",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece is wider than the cuttable width of its fabric",
    explanation: "A piece lies on the fabric with its grain or pile along the roll, so that its width square to that must \
                  fit within the cuttable width, less what shrinks and what is kept free. Where the fabric lets it be \
                  turned, it is too wide only if it fits in none of these ways. Folded fabric is half as wide; a piece \
                  that is its own image may lie on the fold.",
    failing: "[fabric.felt]\ncuttable-width = \"900 mm\"\n[piece.MAT]\noutline = { shape = \"circle\", diameter = \"1 m\" }\n\
              material = \"felt\"",
    passing: "[fabric.felt]\ncuttable-width = \"900 mm\"\n[piece.MAT]\noutline = { shape = \"rectangle\", width = \"1 m\", height \
              = \"80 cm\" }\nmaterial = \"felt\"",
    source: "plane geometry",
};

words! {
    SQUARE "piece-too-wide.square" = "{id} {cut}{size}: {needed} wide square to its grain, and {article} has {room}";
    NARROWEST "piece-too-wide.narrowest" = "{id} {cut}{size}: {needed} wide at its narrowest, and {article} has {room}";
    HERE "piece-too-wide.here" = "does not fit on the fabric";
    CUTTABLE_WIDTH "piece-too-wide.cuttable-width" = "the cuttable width";
    HELP "piece-too-wide.help" = "divide the piece, turn its grain, or take a wider fabric";
    WIDTH_LEFT "piece-too-wide.width-left" = "{usable} of its cuttable width of {stated} to lay on";
    WIDTH "piece-too-wide.width" = "a cuttable width of {usable}";
}

/// Reports each cut once for each fabric it is too wide for.
pub fn check(ground: &Ground<'_>, cuts: &[CutCount], findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for cut in cuts {
        let (id, cut_id) = (cut.piece.as_str(), cut.cut.as_str());
        let Some((piece, material)) = ground.model.pieces.get(id).zip(cut.material.as_ref()) else { continue };
        for variant in ground.model.variants() {
            let Some((fabric, _)) = ground.model.resolve(material, variant.colourway) else { continue };
            let wide = least_width(ground, cut, fabric, variant);
            let Some((needed, usable)) = wide.filter(|(needed, usable)| needed > usable) else { continue };
            let article = fabric.entry.id.value.as_str();
            if !told.insert((id, cut_id, article)) {
                continue;
            }
            let word = if is_directed(ground, piece) { SQUARE } else { NARROWEST };
            let size = in_size(ground.model, variant.size);
            let room = room(fabric, variant, usable);
            let message = say!(word, id, cut = cut_id, size, needed = mm(needed), article, room);
            let mut finding = Finding::new(&RULE, message).at(piece.entry.span(), HERE);
            if let Some(width) = fabric.quantity("cuttable-width") {
                finding = finding.at(width.span, CUTTABLE_WIDTH);
            }
            findings.push(finding.help(HELP));
        }
    }
}

/// What there is across the roll, with what was taken off the stated width.
fn room(fabric: &Article, variant: Variant<'_>, usable: f64) -> Phrase {
    let stated = property(fabric, "cuttable-width", variant).known().map_or(usable, |width| width.si_f64() * 1000.0);
    match stated - usable > 0.001 {
        true => say!(WIDTH_LEFT, usable = mm(usable), stated = mm(stated)),
        false => say!(WIDTH, usable = mm(usable)),
    }
}

/// Whether the piece says how it lies on the fabric: in the specification or in its drawing.
fn is_directed(ground: &Ground<'_>, piece: &Piece) -> bool {
    let outline = ground.assembly.outlines.any(&piece.entry.id.value);
    outline.map_or(piece.grain.is_some() || piece.pile.is_some(), |outline| piece.along(outline).is_some())
}
