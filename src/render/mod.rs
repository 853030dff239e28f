//! Rows in, bytes out. Sees no files, no clock, no environment.
//!
//! ```text
//! build                     rows (core) -> PDF, figures, drawings
//! drawings, pictures        scenes as SVG files; pictures at the size they are printed
//! fonts                     cleans the strings, finds characters that cannot be shown
//! pdf                       view data, pictures, attachments -> PDF
//! engine, guard             typesets and exports, the only place that knows the engine; bounds its time, catches its failure
//! page, lint                laid-out pages as plain data, and what must hold for them
//! ```
//!
//! A new sheet is a file of rows in `backtack_core::rows`, a template `templates/sheets/NAME.typ` with one function of the
//! name of its variant of `Sheet`, and that name in the list of [`pdf`]. Fixed wording is in `words`; the template prints it with `w("key")`.

mod build;
mod drawings;
pub mod engine;
pub mod fonts;
pub mod guard;
pub mod lint;
pub mod page;
pub mod pdf;
mod pictures;

pub use build::{Attached, Package, build, job};
