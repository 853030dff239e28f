//! From the specification and its figures to the view data of each sheet. One file a sheet, in page order.
//!
//! Every number printed here was computed in `compute`; this is where it becomes its final string.

mod bill;
mod confirmation;
mod construction;
mod cover;
mod filling;
mod measurements;
mod pictures;
mod pieces;
mod questions;
mod view;
mod views;

pub use pictures::Pictures;
pub use view::View;

use backtack_core::words::Language;

use super::labels::labels;
use super::package::{About, Package, TitleBlock};
use super::sheets::Sheet;

/// What fills one kind of sheet: none, one or several.
type Fill = fn(&View<'_>, &mut Pictures) -> Vec<Sheet>;

/// Every kind of sheet in page order. A new sheet is one file and one line here.
const SHEETS: [Fill; 9] = [
    cover::fill,
    questions::fill,
    views::fill,
    bill::fill,
    pieces::fill,
    construction::fill,
    filling::fill,
    measurements::fill,
    confirmation::fill,
];

/// The document's date where the revision has none: visibly no date of issue, and the same every time.
const DRAFT_DATE: [u16; 3] = [2000, 1, 1];

/// Fills the whole package.
pub fn package(view: &View<'_>) -> (Package, Pictures) {
    let mut pictures = Pictures::default();
    let sheets = SHEETS.iter().flat_map(|fill| fill(view, &mut pictures)).collect();
    let block = title_block(view);
    let about = About {
        title: [block.title.as_str(), block.style.as_str(), "revision", block.revision.as_str()].join(" ").trim().to_string(),
        author: if block.owner.is_empty() { "backtack".into() } else { block.owner.clone() },
        language: "en".into(),
        date: date(view),
    };
    let package = Package { about, title_block: block, not_released: questions::not_released(view), labels: labels(Language::English), sheets };
    (package, pictures)
}

fn date(view: &View<'_>) -> [u16; 3] {
    let text = view.text(view.model.revision.date.as_ref());
    let parts: Vec<u16> = text.split('-').filter_map(|part| part.parse().ok()).collect();
    <[u16; 3]>::try_from(parts).unwrap_or(DRAFT_DATE)
}

fn title_block(view: &View<'_>) -> TitleBlock {
    let (style, revision) = (&view.model.style, &view.model.revision);
    let text = |stated| view.text(stated).to_string();
    let title = match (view.text(style.name.as_ref()), view.text(style.id.as_ref())) {
        ("", "") => "Untitled style".to_string(),
        ("", id) => id.to_string(),
        (name, _) => name.to_string(),
    };
    TitleBlock {
        owner: text(style.owner.as_ref()),
        number: text(style.id.as_ref()),
        title,
        supplement: text(style.product.as_ref()),
        date: cover::date(view.text(revision.date.as_ref())).unwrap_or_default(),
        revision: text(revision.id.as_ref()),
        language: "en".into(),
        creator: text(revision.by.as_ref()),
        approver: text(revision.approved.as_ref()),
        kind: "Specification for manufacture".into(),
        stage: view::capital(view.text(revision.stage.as_ref())),
        style: text(style.id.as_ref()),
        factory_style: text(style.factory_number.as_ref()),
        season: text(style.season.as_ref()),
        digest: view.digest.to_string(),
    }
}
