//! What of the bought things calls for a caution: decided here once, for the findings and for the sheet of cautions.

use super::mention::{Wanted, articles, mentions};
use super::{Article, ArticleKind, Model};
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
    let mentioned = mentions(model).into_iter().filter(|one| matches!(one.wanted, Wanted::Material(_)));
    let materials = model.roles.keys().map(String::as_str).chain(mentioned.map(|one| one.id));
    let named: Vec<&str> =
        materials.flat_map(|material| articles(model, material)).map(|one| one.entry.id.value.as_str()).collect();
    let used =
        |article: &&Article| named.contains(&article.entry.id.value.as_str()) || article.properties.contains_key("use");
    model.articles.values().filter(|one| kinds.contains(&one.kind)).filter(used).filter(|one| is(one, things)).collect()
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
