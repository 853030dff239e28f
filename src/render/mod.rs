//! View data in, bytes out. Sees no files, no clock, no environment.
//!
//! ```text
//! package, data, labels     what the templates read, every string final
//! fonts                     cleans the strings, finds characters that cannot be shown
//! pdf                       view data, pictures, attachments -> PDF
//! engine                    typesets and exports; the only place that knows the engine
//! page, lint                laid-out pages as plain data, and what must hold for them
//! ```
//!
//! A new sheet is a struct and a variant of [`data::Sheet`], a template `templates/sheets/NAME.typ` with one
//! function of the variant's name, its line in [`pdf::TEMPLATES`] and its two lines in `templates/main.typ`. Its fixed
//! wording stands in `words`; the template prints it with `w("key")`.

mod block;
pub mod data;
pub mod engine;
pub mod fonts;
pub mod labels;
pub mod lint;
pub mod package;
pub mod page;
pub mod pdf;
pub mod sheet;
