//! Backtack compiles a folder of plain-text specification files for a sewn product into one checked PDF package.
//!
//! ```text
//!  folder of TOML files
//!      |  read      every file input; never stops at the first problem
//!      v
//!  Loaded: model, texts, findings, closure
//!      |  check     what follows from the model; one rule a file, one family of numbers a file
//!      v
//!  Checked: assembly, figures, every finding settled
//!      |  edition   what the factory gets of it
//!      v
//!  Edition: what is shown, checked by itself; attachments; what is new
//!      |  rows      what each sheet says, as typed rows; pages, SVG and PDF of them by templates and engine
//!      v
//!  Package: PDF, drawings, figures.json
//!      |  cli       the only file output
//!      v
//!  files of the output folder, exit code
//! ```
//! Data only flows down. Every stage but `render` is in [`backtack_core::pipeline`], which needs no engine.

pub mod cli;
pub mod render;

use backtack_core::pipeline::{self, Checked, Earlier, Edition, EditionError, SealError, Sealing};
use backtack_core::read::Loaded;
use backtack_core::revision::Digest;
use backtack_core::rows::View;
use backtack_core::rows::desk::Desk;

use render::engine::{EngineError, Job};
use render::guard::SECONDS;
use render::{Attached, Package};

/// A document could not be made.
#[derive(Debug)]
pub enum RenderError {
    /// The factory's edition could not be made.
    Edition(EditionError),
    /// A seal could not be made.
    Seal(SealError),
    /// The engine refuses the data, which is a defect of backtack.
    Engine(EngineError),
}

impl std::fmt::Display for RenderError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            RenderError::Edition(why) => why.fmt(out),
            RenderError::Seal(why) => why.fmt(out),
            RenderError::Engine(why) => why.fmt(out),
        }
    }
}

impl std::error::Error for RenderError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            RenderError::Edition(why) => Some(why),
            RenderError::Seal(why) => Some(why),
            RenderError::Engine(why) => Some(why),
        }
    }
}

/// Renders the factory's edition of what was checked, with a sheet of what is new since the last sealed revision, and marks
/// at what changed.
///
/// # Errors
/// If the edition cannot be made, or the engine refuses the data.
pub fn render(loaded: &Loaded, checked: &Checked, earlier: &Earlier) -> Result<Package, RenderError> {
    render_for(loaded, checked, earlier, &[], SECONDS)
}

/// The same, and extracts of it for some desks, each document within some seconds.
///
/// # Errors
/// If the edition cannot be made, or the engine refuses the data.
pub fn render_for(
    loaded: &Loaded,
    checked: &Checked,
    earlier: &Earlier,
    desks: &[Desk],
    seconds: u64,
) -> Result<Package, RenderError> {
    let edition = pipeline::edition(loaded, checked, earlier).map_err(RenderError::Edition)?;
    viewed(&edition, |view, attached| render::build(view, attached, desks, seconds)).map_err(RenderError::Engine)
}

/// Renders the edition of one order in its own document: cut plan, fabric to order, cautions.
///
/// # Errors
/// If the engine refuses the data.
pub fn render_order(order: &Edition<'_>, seconds: u64) -> Result<Package, RenderError> {
    rendered(order, seconds).map_err(RenderError::Engine)
}

/// The lays of an order at true scale, as SVG texts by file name.
pub fn trace_order(order: &Edition<'_>) -> Vec<(String, String)> {
    let lays = viewed(order, |view, _| backtack_core::rows::traced(view));
    lays.into_iter().enumerate().map(|(n, svg)| (format!("lay-{:0>2}.svg", n + 1), svg)).collect()
}

/// A sealed revision in both editions.
#[derive(Debug)]
pub struct Sealed {
    /// The own edition: the sealed file.
    pub bytes: Vec<u8>,
    /// Digest that stands for the revision and all before it.
    pub digest: Digest,
    /// The factory's edition.
    pub package: Package,
}

/// Seals what was checked, whatever was found.
///
/// # Errors
/// If the seal cannot be made, or the engine refuses the data.
pub fn seal(loaded: &Loaded, checked: &Checked, sealing: &Sealing<'_>) -> Result<Sealed, RenderError> {
    let draft = pipeline::draft(loaded, checked, sealing).map_err(RenderError::Seal)?;
    let package = rendered(&draft.edition, SECONDS).map_err(RenderError::Engine)?;
    let (bytes, digest) = draft.sealed(&package.pdf).map_err(RenderError::Seal)?;
    Ok(Sealed { bytes, digest, package })
}

/// What the engine is given for the factory's edition: for measuring what the rest of [`render()`] adds to its time.
///
/// # Errors
/// If the edition cannot be made, or the view data cannot be written down.
pub fn job(loaded: &Loaded, checked: &Checked) -> Result<Job, RenderError> {
    let edition = pipeline::edition(loaded, checked, &Earlier::default()).map_err(RenderError::Edition)?;
    viewed(&edition, render::job).map_err(RenderError::Engine)
}

/// Sheets, drawings and PDF of an edition.
fn rendered(edition: &Edition<'_>, seconds: u64) -> Result<Package, EngineError> {
    viewed(edition, |view, attached| render::build(view, attached, &[], seconds))
}

/// Hands on what sheets may see of an edition, and what is attached.
fn viewed<T>(edition: &Edition<'_>, then: impl FnOnce(&View<'_>, &Attached<'_>) -> T) -> T {
    let (shown, seen, sealed) = (edition.shown(), edition.seen(), edition.sealed());
    let view = View {
        model: &shown.model,
        assembly: &seen.assembly,
        figures: &seen.figures,
        drawn: &seen.drawn,
        lays: edition.order.as_ref().map_or(&seen.lays, |order| &order.lays),
        sources: &shown.sources,
        sealed: sealed.as_deref(),
        findings: &edition.findings,
        ahead: edition.ahead.as_ref().map(|ahead| (ahead.stage, &ahead.findings)),
        since: edition.since.as_ref(),
        samples: &edition.samples,
        commented: if edition.order.is_some() { &shown.model.pictures } else { &edition.own.model.pictures },
        asked: &edition.own.model,
        digest: &edition.digest,
        order: edition.order.as_ref().map(|order| order.id.as_str()),
    };
    let manifest = edition.manifest.text();
    then(&view, &Attached { archive: &edition.archive, figures: &edition.figures, manifest: &manifest })
}
