//! Backtack compiles a folder of plain-text specification files for a sewn product into one checked PDF package.
//!
//! ```text
//!  folder of TOML files
//!      |  read      every file input; never stops at the first problem
//!      v
//!  Loaded: model, texts, findings, closure
//!      |  check     one rule a file
//!      v
//!  Checked: what follows from the model, and every finding settled
//!      |  compute   one family of numbers a file
//!      v
//!  Figures
//!      |  render    view data, templates, engine
//!      v
//!  PDF, drawings, figures.json
//!      |  cli       the only file output
//!      v
//!  files of the output folder, exit code
//! ```
//! Data only flows down. One public function of this page is one stage.

pub mod cli;
pub mod render;

use std::path::Path;

use backtack_core::diag::{Findings, Levels};
use backtack_core::model::Assembly;
use backtack_core::read::{self, Loaded, Unreadable};
use backtack_core::rules;

/// A specification that was checked.
#[derive(Debug)]
pub struct Checked {
    /// Outlines, instances and the sewn surface, which follow from the model alone.
    pub assembly: Assembly,
    /// Everything that was found, reading included, with the user's severities, sorted.
    pub findings: Findings,
}

/// Reads the style in `folder`.
///
/// # Errors
/// Only if the folder itself cannot be read at all; everything else is a finding of the result.
pub fn read(folder: &Path) -> Result<Loaded, Unreadable> {
    read::folder(folder)
}

/// Checks what was read. `wanted` are severities from the caller; they go before those of the specification.
pub fn check(loaded: &Loaded, wanted: &Levels, strict: bool) -> Checked {
    let assembly = Assembly::of(&loaded.model);
    let findings = rules::findings(loaded, &assembly);
    let mut levels = loaded.levels.clone();
    levels.extend(wanted.clone());
    Checked { assembly, findings: findings.settled(&levels, strict) }
}
