//! One order as the factory gets it: what it may see of the style and the order's own file, which alone is attached.

use super::edition::{Shown, part};
use super::{Checked, Edition, Ordered, planned};
use crate::editions::Unshown;
use crate::model::{Article, ArticleKind, Audience};
use crate::orders::figures as orders;
use crate::read::Loaded;
use crate::revision::ArchiveError;

/// An order could not be shown by itself.
#[derive(Debug)]
pub enum OrderError {
    /// There is no such order, or its file holds another one.
    Order(Unshown),
    /// Its files fit into no archive.
    Archive(ArchiveError),
}

impl std::fmt::Display for OrderError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            OrderError::Order(why) => why.fmt(out),
            OrderError::Archive(why) => why.fmt(out),
        }
    }
}

impl std::error::Error for OrderError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            OrderError::Order(why) => Some(why),
            OrderError::Archive(why) => Some(why),
        }
    }
}

/// The edition of one order, with its cut plan and the lays that are kept for it. A finding about the style or the order
/// that must be settled marks it as not released.
///
/// # Errors
/// If there is no such order, its file holds another order too, or its files fit into no archive.
pub fn order<'a>(loaded: &'a Loaded, checked: &Checked, id: &str) -> Result<Edition<'a>, OrderError> {
    let files = crate::editions::order_edition(loaded, id).map_err(OrderError::Order)?;
    let read = part(loaded, &files);
    made(loaded, checked, id, (&files, read))
}

/// The same for the own edition, where it knows a price of a fabric that the factory does not: it shows what the order costs.
/// Attached is what the factory gets.
///
/// # Errors
/// As [`order`].
pub fn own_order<'a>(loaded: &'a Loaded, checked: &Checked, id: &str) -> Result<Option<Edition<'a>>, OrderError> {
    let own = |article: &Article| {
        article.kind == ArticleKind::Fabric
            && article.text("price").is_some_and(|price| price.all().any(|one| one.audience == Audience::Own))
    };
    if !loaded.model.articles.values().any(own) {
        return Ok(None);
    }
    let files = crate::editions::order_edition(loaded, id).map_err(OrderError::Order)?;
    let all: Vec<(String, Vec<u8>)> =
        loaded.closure.iter().map(|(path, bytes)| (path.clone(), bytes.to_vec())).collect();
    let edition = made(loaded, checked, id, (&files, part(loaded, &all)))?;
    let priced =
        |edition: &Edition<'_>| edition.seen().figures.orders.get(id).is_some_and(|order| !order.cost.is_empty());
    Ok(priced(&edition).then_some(edition))
}

/// Files by their paths.
type Files = [(String, Vec<u8>)];

/// The edition of an order as it is read, with some files attached.
fn made<'a>(
    loaded: &'a Loaded,
    checked: &Checked,
    id: &str,
    (files, (shown, seen)): (&Files, (Loaded, Checked)),
) -> Result<Edition<'a>, OrderError> {
    let mut seen = planned(&shown, seen, id);
    let findings = orders::findings(&shown.model, &seen.figures, id).settled(&shown.levels, false);
    let lays = orders::order_lays((&shown.model, &seen.assembly, &seen.drawn), &seen.figures, id);
    seen.figures.lays = lays.figures();
    let part = Shown::Part(Box::new((shown, seen)));
    let mut edition = Edition::of(loaded, part, files).map_err(OrderError::Archive)?;
    edition.findings = crate::editions::concerning(loaded, id, &checked.findings, &edition.seen().findings);
    edition.findings.append(findings.clone());
    edition.order = Some(Ordered { id: id.to_string(), lays, findings });
    Ok(edition)
}
