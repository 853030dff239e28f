//! Rule: a piece of fabric with a pile does not say which way the pile lies.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Gap;
use crate::model::mention::articles;
use crate::model::{ShapeSource, Variant};
use crate::words::{Phrase, say, words};

use super::is_by_factory;

/// A piece of pile fabric that may lie any way.
pub const RULE: Rule = Rule {
    code: "pile-without-direction",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece of fabric with a pile does not say which way the pile lies",
    explanation: "Pile looks darker from one side than from the other and feels rough against the stroke. Two \
                  neighbouring pieces whose pile lies differently look like two colours. The direction also decides how \
                  pieces may be turned on the fabric, and so how much of it is needed.",
    failing: "[fabric.plush]\npile = \"9 mm\"\n[piece.TOP]\nmaterial = \"plush\"",
    passing: "[fabric.plush]\npile = \"9 mm\"\n[piece.TOP]\nmaterial = \"plush\"\npile = \"n-s\"",
    source: "common practice",
};

words! {
    ADD_EXAMPLE "pile-without-direction.add-example" = "add pile = \"FROM-TO\" with two of its points, for example \"{from}-{to}\"";
    ADD "pile-without-direction.add" = "add pile = \"FROM-TO\" with two of its points";
    MESSAGE "pile-without-direction.message" = "piece {id} is cut from {fabric}, which has a pile, and does not say which way it lies";
    CUT_FABRIC "pile-without-direction.cut-fabric" = "cut from a fabric with a pile";
    PILE "pile-without-direction.pile" = "it has a pile";
}

/// Reports pieces cut from fabric with a pile, in any colourway, without a direction.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, piece) in model.pieces.iter().filter(|(_, piece)| piece.pile.is_none() && !is_by_factory(piece)) {
        if model.was_refused("piece", id, "pile") || is_drawn(context, id) {
            continue;
        }
        let materials = piece.cuts.values().filter_map(|cut| cut.material.as_ref());
        let mut piled = materials.filter_map(|material| {
            let article =
                articles(model, &material.value).into_iter().find(|one| one.properties.contains_key("pile"))?;
            Some((material, article))
        });
        let Some((material, article)) = piled.next() else { continue };
        let example = context.assembly.outlines.any(id).map_or(Vec::new(), |outline| outline.names());
        let help = match example.as_slice() {
            [from, .., to] => say!(ADD_EXAMPLE, from, to),
            _ => Phrase::from(ADD),
        };
        let fabric = &article.entry.id.value;
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, id, fabric))
                .at(material.span, CUT_FABRIC)
                .at(article.entry.span(), PILE)
                .help(help),
        );
    }
}

/// Whether the drawing of every size shows the pile. What cannot be read off a drawing is said of the drawing; a pile
/// may well be in it.
fn is_drawn(context: &Context<'_>, piece: &str) -> bool {
    let outline = context.model.pieces.get(piece).and_then(|piece| piece.outline.as_ref());
    let traced = |size: &str| {
        let source = outline.and_then(|outline| outline.known(Variant { size, colourway: "" }));
        source.is_some_and(|source| matches!(source.shape, ShapeSource::Svg(_)))
    };
    let shows = |size: &str| match context.assembly.outlines.get(piece, size) {
        Ok(outline) => Some(outline.pile.is_some()),
        Err(Gap::Unread | Gap::Defect { .. }) if traced(size) => Some(true),
        Err(_) => None,
    };
    let sizes = context.model.sizes.iter().map(|size| size.entry.id.value.as_str());
    let outlines: Vec<bool> = sizes.filter_map(shows).collect();
    !outlines.is_empty() && outlines.iter().all(|shown| *shown)
}
