//! Tests of everything that needs no engine, one module a topic.
#![allow(missing_docs, reason = "tests")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by a panic")]
#![allow(clippy::disallowed_methods, reason = "tests keep files of their own and check against other mathematics")]

mod assembly;
mod blanks;
mod cautions;
mod circles;
mod colour;
mod columns;
mod compact;
mod compare;
mod dies;
mod docs;
mod edges;
mod edition;
mod examples;
mod figures;
mod forms;
mod geom;
mod glyphs;
mod guide;
mod lay;
mod lays;
mod legible;
mod limbs;
mod ordered;
mod orders;
mod parties;
mod phrases;
mod pipeline;
mod plan;
mod printed;
mod printers;
mod published;
mod puffin;
mod read;
mod readme;
mod reference;
mod revision;
mod rules;
mod samples;
mod scene;
mod schema;
mod seal;
mod seams;
mod sheets;
mod stages;
mod standards;
mod starts;
mod svg;
mod tidy;
mod told;
mod toy;
mod units;
mod words;

use std::path::Path;

use backtack_core::diag::Levels;
use backtack_core::pipeline::{Checked, Earlier, Edition, ReadError, Source, check, edition, read as read_source};
use backtack_core::read::Loaded;
use backtack_core::rows::data::Sheet;
use backtack_core::rows::package::Package;
use backtack_core::rows::{View, pages};
use backtack_core::source::Tally;

/// What commands make of a folder.
fn folder(path: &Path) -> Result<Loaded, ReadError> {
    read_source(&Source::Folder(path), &Tally::default())
}

/// What commands make of files in memory, and of the path of the style folder among them.
fn closure<'a>(style: &str, files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Loaded {
    let files: Vec<_> = files.into_iter().collect();
    read_source(&Source::Files { style, files: &files }, &Tally::default()).unwrap()
}

/// What commands find in what was read, and compute of it.
fn checked(loaded: &Loaded) -> Checked {
    check(loaded, &Levels::new(), false)
}

/// The document of an edition.
fn document(edition: &Edition<'_>) -> Package {
    viewed(edition, pages)
}

/// What sheets may see of an edition.
fn viewed<T>(edition: &Edition<'_>, then: impl FnOnce(&View<'_>) -> T) -> T {
    let (shown, seen) = (edition.shown(), edition.seen());
    then(&View {
        model: &shown.model,
        assembly: &seen.assembly,
        figures: &seen.figures,
        drawn: &seen.drawn,
        lays: edition.order.as_ref().map_or(&seen.lays, |order| &order.lays),
        sources: &shown.sources,
        sealed: None,
        findings: &edition.findings,
        since: edition.since.as_ref(),
        ahead: edition.ahead.as_ref().map(|ahead| (ahead.stage, &ahead.findings)),
        samples: &edition.samples,
        commented: &edition.own.model.pictures,
        asked: &edition.own.model,
        digest: "",
        order: edition.order.as_ref().map(|order| order.id.as_str()),
    })
}

/// The sheets of the factory's edition, as if nothing had been sealed before.
fn sheets(loaded: &Loaded, checked: &Checked) -> Vec<Sheet> {
    document(&edition(loaded, checked, &Earlier::default()).unwrap())
        .sheets
        .into_iter()
        .map(|bound| bound.sheet)
        .collect()
}
