//! What of the bought things calls for a caution: decided here once, for the findings and for the sheet of cautions.

use super::{Article, ArticleKind, Layer, Model};
use crate::standards::things::{CORDS, FILM, FUSIBLES, SMALL_PARTS, Things};

/// Trims and fillings in use that may come off or come out as small parts.
pub fn small_parts(model: &Model) -> Vec<&Article> {
    concerned(model, &[ArticleKind::Trim, ArticleKind::Filling], &SMALL_PARTS)
}

/// Trims in use that may be a free cord or a loop.
pub fn cords(model: &Model) -> Vec<&Article> {
    concerned(model, &[ArticleKind::Trim], &CORDS)
}

/// Trims in use that are of film.
pub fn film(model: &Model) -> Vec<&Article> {
    concerned(model, &[ArticleKind::Trim], &FILM)
}

/// Fabrics in use that are pressed on hot.
pub fn fusibles(model: &Model) -> Vec<&Article> {
    concerned(model, &[ArticleKind::Fabric], &FUSIBLES)
}

/// Articles in use of these kinds that are such things, in the order of their ids.
fn concerned<'m>(model: &'m Model, kinds: &[ArticleKind], things: &Things) -> Vec<&'m Article> {
    let named: Vec<&str> = materials(model).flat_map(|material| stands_for(model, material)).collect();
    let used =
        |article: &&Article| named.contains(&article.entry.id.value.as_str()) || article.properties.contains_key("use");
    model.articles.values().filter(|one| kinds.contains(&one.kind)).filter(used).filter(|one| is(one, things)).collect()
}

/// Every material that a piece, a stuffing, a seam, an edge, a step or a role names.
fn materials(model: &Model) -> impl Iterator<Item = &str> {
    let cuts = model.pieces.values().flat_map(|piece| piece.cuts.values()).filter_map(|cut| cut.material.as_ref());
    let fillings = model.stuffings.values().filter_map(|stuffing| stuffing.filling.as_ref());
    let between = model.joints.values().flat_map(|joint| &joint.between).filter_map(|layer| match layer {
        Layer::Trim(layer) => Some(&layer.trim),
        Layer::Chain(_) => None,
    });
    let closes = model.joints.values().filter_map(|joint| joint.close.as_ref()?.trim.as_ref());
    let tapes = model.edge_finishes.values().filter_map(|finish| Some(&finish.tape.as_ref()?.trim));
    let steps = model.steps.values().filter_map(|step| step.trim.as_ref());
    let written = cuts.chain(fillings).chain(between).chain(closes).chain(tapes).chain(steps);
    model.roles.keys().chain(written.map(|material| &material.value)).map(String::as_str)
}

/// The articles a material stands for in any colourway.
fn stands_for<'m>(model: &'m Model, material: &'m str) -> impl Iterator<Item = &'m str> {
    let ways = model.colourways.keys();
    ways.filter_map(move |way| Some(model.resolve(material, way)?.0.entry.id.value.as_str()))
}

/// Whether an article is such a thing, going by its type; by its name, where no type is given.
fn is(article: &Article, things: &Things) -> bool {
    let types = article.text("type").into_iter().flat_map(|value| value.all());
    let types: Vec<&str> = types.filter_map(|stated| stated.known().map(String::as_str)).collect();
    match types.as_slice() {
        [] => things.are(article.entry.title()),
        types => types.iter().any(|text| things.are(text)),
    }
}
