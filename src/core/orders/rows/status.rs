//! Whether an order may be cut, and what it is made to: first on its first sheet.

use crate::diag::{Finding, Severity};
use crate::model::{Namesake, Order, Stated};
use crate::words::{Phrase, say, words};

use crate::rows::cover::obstacles;
use crate::rows::data::Status;
use crate::rows::view::View;

words! {
    STOPS "plan.stops" = "Not released: do not cut. To be settled first:";
    MORE "plan.stops-more" = "and {count} more";
    HELD "plan.held" = "{title}. {list}.";
    CITED "plan.cited" = "Made to revision {revision}, sealed on {date}, digest {digest}.";
    SAME "plan.cited-same" = "What this document was made from is that revision.";
    DIFFERS "plan.cited-differs" = "What this document was made from is not that revision. These files differ: {files}.";
    UNREADABLE "plan.cited-unreadable" = "The sealed file of revision {revision} cannot be read, so what it holds is not known: {why}.";
    NOT_SEALED "plan.not-sealed" = "Revision {revision} is not sealed: what this document was made from can still change.";
    NONE_CITED "plan.none-cited" = "The order names no revision: this document was made from what is written now, and that can still change.";
}

/// Findings that are listed at most; the rest is counted.
const LISTED: usize = 12;

/// What is said above everything else.
pub fn status(view: &View<'_>, order: Option<&Order>) -> Status {
    let must: Vec<&Finding> =
        view.findings.iter().filter(|one| one.severity == Severity::Must && one.concession.is_none()).collect();
    let mut stops: Vec<Phrase> = must.iter().take(LISTED).map(|one| one.message.clone().capital()).collect();
    if must.len() > LISTED {
        stops.push(say!(MORE, count = must.len() - LISTED));
    }
    let title = if must.is_empty() { Phrase::none() } else { STOPS.into() };
    let made_to = order.map_or_else(Vec::new, |order| made_to(view, order));
    Status { title, stops, made_to: made_to.into_iter().chain(held(view)).collect() }
}

/// What is in the way of the next stage, as the cover of the package says it; none where nothing is.
fn held(view: &View<'_>) -> Option<Phrase> {
    view.ahead?;
    let obstacles = obstacles(view);
    let list = Phrase::row(obstacles.list.clone(), "; ");
    (!obstacles.list.is_empty()).then(|| say!(HELD, title = obstacles.title, list))
}

/// The revision that the order cites, and whether this is it.
fn made_to(view: &View<'_>, order: &Order) -> Vec<Phrase> {
    let Some(revision) = order.revision.as_ref().and_then(Stated::known) else { return vec![NONE_CITED.into()] };
    let cited = view.asked.issued.as_ref().and_then(|issued| issued.cited.get(revision));
    match cited {
        None => vec![say!(NOT_SEALED, revision)],
        Some(Namesake { broken: Some(why), .. }) => vec![say!(UNREADABLE, revision, why)],
        Some(Namesake { date, digest, changed, .. }) => {
            let same = if changed.is_empty() { SAME.into() } else { say!(DIFFERS, files = Phrase::list(changed)) };
            vec![say!(CITED, revision, date, digest), same]
        }
    }
}
