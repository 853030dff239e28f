//! Figures to rows: what each sheet, workbook or page says, as typed cells. One file for each sheet.
//!
//! Everything is decided here: what is grouped, rounded, cautioned or left out, in which order, with which words. A
//! writer only arranges cells and prints them in the languages of the package.

pub(crate) mod article;
mod bill;
mod blanks;
pub(crate) mod block;
pub(crate) mod cards;
pub(crate) mod cell;
pub(crate) mod choice;
mod confirmation;
mod construction;
pub(crate) mod cover;
pub(crate) mod curves;
pub mod data;
pub mod desk;
pub mod extract;
mod filling;
mod finishing;
mod flat;
mod guide;
pub(crate) mod items;
pub mod labels;
pub(crate) mod letters;
mod map;
mod matching;
mod measurements;
mod nested;
mod numbers;
mod outline;
pub mod package;
mod parts;
pub mod picture;
mod pieces;
pub mod placed;
mod questions;
mod safety;
mod seam;
mod sheet;
pub(crate) mod signs;
mod stages;
pub(crate) mod step;
mod stitched;
mod threads;
pub(crate) mod view;
pub(crate) mod views;
mod walk;
pub(crate) mod written;

pub use crate::orders::rows::traced;
pub use cell::{Cell, Coded};
pub use view::View;

use crate::words::{Phrase, say, words};
use data::Sheet;
use desk::DESKS;
use desk::Desk::{self, Buyer, Cutter, Inspector, Line, Packer, Pattern, Reviewer};
use labels::labels;
use package::{About, Bound, Package, TitleBlock};

words! {
    REVISION "package.revision" = "{style} revision {revision}";
    AFTER "package.after" = "{revision} after {past}";
    PROGRAM "package.program" = "backtack";
}

/// What fills one kind of sheet: none, one or several.
type Fill = fn(&View<'_>) -> Vec<Sheet>;

/// One kind of sheet: what fills it, who reads it, whether its drawings are to scale, where it begins.
struct Listed(Fill, &'static [Desk], Scale, Start);

/// Where a sheet begins.
#[derive(Clone, Copy, PartialEq)]
enum Start {
    /// On a page of its own.
    Page,
    /// Below the sheet before it, if all of it fits there.
    Room,
    /// The first on a page of its own, the others of its kind where they fit.
    Together,
}

/// Whether a sheet holds drawings to scale.
#[derive(Clone, Copy, PartialEq)]
enum Scale {
    /// Each drawing states its own.
    Stated,
    /// There are none.
    None,
}

/// Every kind of sheet in page order. A new sheet is one file and one line here.
const SHEETS: &[Listed] = &[
    Listed(cover::fill, &DESKS, Scale::None, Start::Page),
    Listed(guide::fill, &DESKS, Scale::None, Start::Page),
    Listed(crate::revision::rows::changes::fill, &[Buyer, Pattern, Cutter, Line, Reviewer], Scale::Stated, Start::Page),
    Listed(questions::fill, &[Buyer, Reviewer], Scale::None, Start::Page),
    Listed(crate::samples::rows::comments::fill, &[Buyer, Line, Inspector, Reviewer], Scale::None, Start::Room),
    Listed(crate::samples::rows::samples::fill, &[Inspector, Reviewer], Scale::None, Start::Room),
    Listed(views::fill, &[Line, Inspector, Packer, Reviewer], Scale::None, Start::Page),
    Listed(bill::fill, &[Buyer, Packer], Scale::None, Start::Page),
    Listed(pieces::fill, &[Pattern, Cutter], Scale::Stated, Start::Page),
    Listed(matching::fill, &[Pattern, Line], Scale::None, Start::Page),
    Listed(crate::cutting::rows::marker::fill, &[Cutter], Scale::Stated, Start::Page),
    Listed(construction::fill, &[Line, Inspector, Packer], Scale::None, Start::Page),
    Listed(filling::fill, &[Line, Inspector], Scale::None, Start::Room),
    Listed(safety::fill, &DESKS, Scale::None, Start::Room),
    Listed(measurements::fill, &[Inspector, Reviewer], Scale::None, Start::Together),
    Listed(confirmation::fill, &[Buyer, Reviewer], Scale::None, Start::Page),
];

/// The sheets of an order, in its own document.
const ORDER_SHEETS: &[Listed] = &[
    Listed(crate::orders::rows::plan::fill, &[Buyer, Cutter], Scale::None, Start::Page),
    Listed(crate::orders::rows::fabric::fill, &[Buyer], Scale::None, Start::Page),
    Listed(crate::orders::rows::lays::fill, &[Cutter], Scale::Stated, Start::Page),
    Listed(crate::orders::rows::bundles::fill, &[Cutter, Line], Scale::None, Start::Page),
    Listed(crate::orders::rows::strikes::fill, &[Cutter], Scale::None, Start::Room),
    Listed(crate::orders::rows::spreading::fill, &[Cutter], Scale::None, Start::Page),
    Listed(safety::fill, &[Buyer, Cutter], Scale::None, Start::Room),
];

/// The document's date where the revision has none: visibly no date of issue, and the same every time.
const DRAFT_DATE: [u16; 3] = [2000, 1, 1];

/// Fills the whole package.
pub fn pages(view: &View<'_>) -> Package {
    let list = if view.order.is_some() { ORDER_SHEETS } else { SHEETS };
    let mut sheets: Vec<Bound> = list.iter().flat_map(|listed| bound(view, listed)).collect();
    blanks::listed(&mut sheets);
    let block = title_block(view);
    let about = About {
        title: about(view, &block),
        author: if block.owner.is_empty() { PROGRAM.en.into() } else { block.owner.clone() },
        language: view.model.style.languages.first.code().into(),
        date: date(view),
    };
    Package {
        about,
        title_block: block,
        not_released: questions::not_released(view),
        languages: view.model.style.languages,
        labels: labels(view.model.style.languages),
        contents: extract::contents(&sheets),
        sheets,
        extract: None,
    }
}

/// The sheets of one kind.
fn bound<'a>(view: &View<'_>, Listed(fill, desks, scale, start): &'a Listed) -> impl Iterator<Item = Bound> + 'a {
    let sheets = fill(view).into_iter().enumerate();
    sheets.map(|(n, sheet)| Bound {
        sheet,
        readers: desk::readers(desks),
        desks: desks.to_vec(),
        scaled: *scale == Scale::Stated,
        follows: *start == Start::Room || (*start == Start::Together && n > 0),
        page: None,
    })
}

fn date(view: &View<'_>) -> [u16; 3] {
    let date = view.date(view.model.revision.date.as_ref());
    date.map_or(DRAFT_DATE, |date| [date.year(), date.month().into(), date.day().into()])
}

fn title_block(view: &View<'_>) -> TitleBlock {
    let (style, revision) = (&view.model.style, &view.model.revision);
    let text = |stated| view.text(stated).to_string();
    let title = match (view.text(style.name.as_ref()), view.text(style.id.as_ref())) {
        ("", "") => cover::UNTITLED.into(),
        ("", id) => id.into(),
        (name, _) => name.into(),
    };
    TitleBlock {
        owner: crate::parties::rows::owner(view),
        number: number(view),
        title,
        date: written::day(view.date(revision.date.as_ref())),
        revision: text(revision.id.as_ref()),
        revisions: revisions(view),
        stage: choice::begun(view.text(revision.stage.as_ref())),
        style: text(style.id.as_ref()),
        digest: view.digest.to_string(),
    }
}

/// The title of the document, in its first language.
fn about(view: &View<'_>, block: &TitleBlock) -> String {
    let style = Phrase::row([block.title.clone(), block.style.as_str().into()], " ");
    let title = say!(REVISION, style, revision = &block.revision);
    title.in_language(view.model.style.languages.first).trim().to_string()
}

/// This revision and the sealed ones before it, the newest first.
fn revisions(view: &View<'_>) -> Phrase {
    let past = view.since.into_iter().flat_map(|since| since.past.iter().rev());
    let past = Phrase::list(past.map(|past| past.revision.as_str()));
    let revision = view.text(view.model.revision.id.as_ref());
    if past.is_empty() { revision.into() } else { say!(AFTER, revision, past) }
}

/// The style number; of an order with the order's number behind it.
fn number(view: &View<'_>) -> String {
    let style = view.text(view.model.style.id.as_ref());
    match crate::orders::rows::plan::shown(view) {
        Some((id, order)) => format!("{style} {}", order.number.as_deref().unwrap_or(id)).trim().to_string(),
        None => style.to_string(),
    }
}
