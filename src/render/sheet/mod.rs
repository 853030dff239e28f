//! From the specification and its figures to the view data of each sheet. One file a sheet, in page order.
//!
//! Every number printed here was computed in `compute`; this is where it becomes its final string.

mod bill;
mod changes;
mod comments;
mod confirmation;
mod construction;
mod cover;
mod fabric;
mod filling;
mod finishing;
mod items;
mod letters;
mod marker;
mod matching;
mod measurements;
mod outline;
mod pictures;
mod pieces;
mod plan;
mod questions;
mod rows;
mod safety;
mod samples;
mod sizes;
mod step;
mod view;
mod views;
mod written;

pub use view::View;

use std::panic::resume_unwind;

use backtack_core::revision::pdf::{ARCHIVE, FIGURES, MANIFEST};
use backtack_core::scene::svg;

use super::data::Sheet;
use super::engine::{Document, EngineError, Job};
use super::fonts::Replaced;
use super::labels::labels;
use super::package::{About, Package as Pages, TitleBlock};
use super::pdf::{self, Attachment, Extras};

/// What fills one kind of sheet: none, one or several.
type Fill = fn(&View<'_>) -> Vec<Sheet>;

/// Every kind of sheet in page order. A new sheet is one file and one line here.
const SHEETS: [Fill; 16] = [
    cover::fill,
    changes::fill,
    questions::fill,
    comments::fill,
    samples::fill,
    views::fill,
    bill::fill,
    pieces::fill,
    matching::fill,
    sizes::fill,
    marker::fill,
    construction::fill,
    filling::fill,
    measurements::fill,
    safety::fill,
    confirmation::fill,
];

/// The sheets of an order, in its own document.
const ORDER_SHEETS: [Fill; 4] = [plan::fill, fabric::fill, marker::fill, safety::fill];

/// The document's date where the revision has none: visibly no date of issue, and the same every time.
const DRAFT_DATE: [u16; 3] = [2000, 1, 1];

/// What is attached to the PDF.
#[derive(Debug, Clone, Copy)]
pub struct Attached<'a> {
    /// The files the package was made from, as one stored zip.
    pub archive: &'a [u8],
    /// The text of `figures.json`.
    pub figures: &'a str,
    /// The manifest of both.
    pub manifest: &'a str,
}

/// Everything `build` writes.
#[derive(Debug)]
pub struct Package {
    /// The PDF file.
    pub pdf: Vec<u8>,
    /// The text of `figures.json`.
    pub figures: String,
    /// Drawings as SVG texts by file name.
    pub drawings: Vec<(String, String)>,
    /// Characters that no built-in font shows, printed as a placeholder.
    pub replaced: Vec<Replaced>,
    /// The laid-out pages, for the lint and the text goldens.
    pub document: Document,
}

/// Fills every sheet and typesets the package with its attachments.
///
/// # Errors
/// If the engine refuses the data.
pub fn build(view: &View<'_>, attached: &Attached<'_>) -> Result<Package, EngineError> {
    let (pages, extras) = filled(view, attached);
    // The engine leaves a processor idle for most of its time.
    let (drawings, made) = std::thread::scope(|scope| {
        let drawings = scope.spawn(|| drawings(&pages));
        let made = pdf::render(&pages, &extras);
        (drawings.join().unwrap_or_else(|panic| resume_unwind(panic)), made)
    });
    let made = made?;
    Ok(Package {
        pdf: made.pdf,
        figures: attached.figures.to_string(),
        drawings,
        replaced: made.replaced,
        document: made.document,
    })
}

/// What the engine is given for the same package.
///
/// # Errors
/// If the view data cannot be written as JSON.
pub fn job(view: &View<'_>, attached: &Attached<'_>) -> Result<Job, EngineError> {
    let (pages, extras) = filled(view, attached);
    Ok(pdf::job(&pages, &extras)?.0)
}

/// The sheets, and what goes into the file beside them.
fn filled(view: &View<'_>, attached: &Attached<'_>) -> (Pages, Extras) {
    // The sheets need only the names of the pictures.
    let (pages, pictures) = std::thread::scope(|scope| {
        let pictures = scope.spawn(|| pictures::ready(view.model, view.commented, view.samples));
        (pages(view), pictures.join().unwrap_or_else(|panic| resume_unwind(panic)))
    });
    let attachments = vec![
        attachment(ARCHIVE, "application/zip", "The files this package was made from", attached.archive.to_vec()),
        attachment(FIGURES, "application/json", "Every computed figure", attached.figures.as_bytes().to_vec()),
        attachment(
            MANIFEST,
            "text/plain",
            "What the attached files are, with their digests",
            attached.manifest.as_bytes().to_vec(),
        ),
    ];
    let identity = pages.title_block.number.clone();
    (pages, Extras { pictures, attachments, identity })
}

fn attachment(name: &str, mime: &str, description: &str, data: Vec<u8>) -> Attachment {
    Attachment { name: name.into(), mime: mime.into(), description: description.into(), data }
}

/// What the files of drawings are called: a kind, a code or a number, `.svg`.
const PIECE: &str = "piece-";
const STEP: &str = "step-";
const MATCHING: &str = "matching-";
const SIZES: &str = "sizes-";
const MARKER: &str = "marker-";

/// The drawings of pieces, seam matching, sizes and seams as SVG files of true size on paper.
fn drawings(pages: &Pages) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for sheet in &pages.sheets {
        match sheet {
            Sheet::Pieces(pieces) => all.extend(pieces.drawings.iter().flatten().filter_map(|card| {
                let drawing = card.drawing.as_ref()?;
                Some((format!("{PIECE}{}.svg", card.code), svg(&drawing.scene)))
            })),
            Sheet::Construction(steps) => all.extend(steps.steps.iter().filter_map(|step| {
                let stack = step.stack.as_ref()?;
                Some((format!("{STEP}{:0>2}.svg", step.number), svg(&stack.scene)))
            })),
            Sheet::Matching(joins) => {
                let maps = joins.parts.iter().flat_map(|part| &part.drawings).enumerate();
                all.extend(maps.map(|(n, map)| (format!("{MATCHING}{:0>2}.svg", n + 1), svg(&map.scene))));
            }
            Sheet::Marker(lays) => {
                let cards = lays.groups.iter().flat_map(|group| group.rows.iter().flatten());
                let drawn = cards.filter_map(|card| card.drawing.as_ref()).enumerate();
                all.extend(drawn.map(|(n, one)| (format!("{MARKER}{:0>2}.svg", n + 1), svg(&one.whole()))));
            }
            Sheet::Sizes(sizes) => all.extend(
                sizes
                    .nests
                    .iter()
                    .flatten()
                    .map(|card| (format!("{SIZES}{}.svg", card.code), svg(&card.drawing.scene))),
            ),
            _ => {}
        }
    }
    all
}

/// Fills the whole package.
pub fn pages(view: &View<'_>) -> Pages {
    let fills: &[Fill] = if view.order.is_some() { &ORDER_SHEETS } else { &SHEETS };
    let sheets = fills.iter().flat_map(|fill| fill(view)).collect();
    let block = title_block(view);
    let about = About {
        title: [block.title.as_str(), block.style.as_str(), "revision", block.revision.as_str()]
            .join(" ")
            .trim()
            .to_string(),
        author: if block.owner.is_empty() { "backtack".into() } else { block.owner.clone() },
        language: view.model.style.languages.first.code().into(),
        date: date(view),
    };
    Pages {
        about,
        title_block: block,
        not_released: questions::not_released(view),
        languages: view.model.style.languages,
        labels: labels(view.model.style.languages),
        sheets,
    }
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
        number: number(view),
        title,
        supplement: text(style.product.as_ref()),
        date: written::date(view.text(revision.date.as_ref())).unwrap_or_default(),
        revision: text(revision.id.as_ref()),
        history: history(view),
        language: view.model.style.languages.codes(),
        creator: text(revision.by.as_ref()),
        approver: text(revision.approved.as_ref()),
        kind: if view.order.is_some() { "Order".into() } else { "Specification for manufacture".into() },
        stage: view::capital(view.text(revision.stage.as_ref())),
        style: text(style.id.as_ref()),
        factory_style: text(style.factory_number.as_ref()),
        season: text(style.season.as_ref()),
        digest: view.digest.to_string(),
    }
}

/// Sealed revisions before this one, the newest first.
fn history(view: &View<'_>) -> String {
    let past = view.since.into_iter().flat_map(|since| since.past.iter().rev());
    past.map(|past| past.revision.as_str()).collect::<Vec<_>>().join(", ")
}

/// The style number; of an order with the order's number behind it.
fn number(view: &View<'_>) -> String {
    let style = view.text(view.model.style.id.as_ref());
    match plan::shown(view) {
        Some((id, order)) => format!("{style} {}", order.number.as_deref().unwrap_or(id)).trim().to_string(),
        None => style.to_string(),
    }
}
