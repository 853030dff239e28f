//! Rows to the package: PDF with its attachments, figures, drawings.

use std::panic::resume_unwind;

use backtack_core::revision::pdf::{ARCHIVE, FIGURES, MANIFEST};
use backtack_core::rows::desk::Desk;
use backtack_core::rows::extract::extract;
use backtack_core::rows::package::Package as Pages;
use backtack_core::rows::{View, pages, picture};

use super::drawings::drawings;
use super::engine::{Document, EngineError, Job};
use super::fonts::Replaced;
use super::guard::SECONDS;
use super::pdf::{self, Attachment, Extras, Rendered};
use super::pictures;

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
    /// Extracts, one for each desk that was asked for.
    pub extracts: Vec<(Desk, Rendered)>,
}

/// Fills every sheet and typesets the package with its attachments, within some seconds each; and of the same sheets an extract
/// for each desk.
///
/// # Errors
/// If the engine refuses the data.
pub fn build(view: &View<'_>, attached: &Attached<'_>, desks: &[Desk], seconds: u64) -> Result<Package, EngineError> {
    let (pages, extras) = filled(view, attached);
    let extras = Extras { seconds, ..extras };
    // The engine leaves a processor idle for most of its time.
    let (drawings, made) = std::thread::scope(|scope| {
        let drawings = scope.spawn(|| drawings(&pages));
        let made = pdf::render(&pages, &extras);
        (drawings.join().unwrap_or_else(|panic| resume_unwind(panic)), made)
    });
    let made = made?;
    let extracts = desks.iter().map(|desk| Ok((*desk, extracted(&pages, &extras, &made.document, *desk)?)));
    let extracts = extracts.collect::<Result<_, EngineError>>()?;
    Ok(Package {
        pdf: made.pdf,
        figures: attached.figures.to_string(),
        drawings,
        replaced: made.replaced,
        document: made.document,
        extracts,
    })
}

/// The sheets of one desk, with the page numbers of the whole package and without its attachments.
fn extracted(pages: &Pages, extras: &Extras, whole: &Document, desk: Desk) -> Result<Rendered, EngineError> {
    let part = extract(pages, desk, &whole.starts(), whole.count());
    let extras = Extras { attachments: Vec::new(), ..extras.clone() };
    pdf::render(&part, &extras)
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
        let pictures = scope.spawn(|| pictures::ready(&picture::all(view)));
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
    (pages, Extras { pictures, attachments, identity, seconds: SECONDS })
}

fn attachment(name: &str, mime: &str, description: &str, data: Vec<u8>) -> Attachment {
    Attachment { name: name.into(), mime: mime.into(), description: description.into(), data }
}
