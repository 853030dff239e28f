//! View data in, bytes out. Sees no files, no clock, no environment.
//!
//! ```text
//! package, sheets, labels   what the templates read, every string final
//! fonts                     cleans the strings, finds characters that cannot be shown
//! pdf                       view data, pictures, attachments -> PDF
//! engine                    typesets and exports; the only place that knows the engine
//! page, lint                laid-out pages as plain data, and what must hold for them
//! ```

pub mod engine;
pub mod fonts;
pub mod labels;
pub mod lint;
pub mod package;
pub mod page;
pub mod pdf;
pub mod sheet;
pub mod sheets;
