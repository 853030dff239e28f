//! The lays of an order at true scale, in a folder of their own.

use std::path::{Path, PathBuf};

use clap::{Arg, ArgAction};

use super::Failure;
use super::output::Output;
use super::written::Update;

/// The option that asks for them.
pub const OPTION: &str = "true-scale";

/// The option of every command that can write them.
pub fn option() -> Arg {
    Arg::new(OPTION)
        .long(OPTION)
        .action(ArgAction::SetTrue)
        .requires("order")
        .help("Also writes the lays of the order at 1:1 (SVG) into order-ID")
}

/// Writes the lays of an order into its folder and says which it is; without lays only those that an earlier run wrote there are
/// removed.
///
/// # Errors
/// If the folder or a file in it cannot be written, or a file would take the place of a source.
pub fn write(lays: &[(String, String)], out: &Path, id: &str, output: &Output) -> Result<Option<PathBuf>, Failure> {
    let folder = out.join(super::name::checked(&format!("order-{id}"))?);
    let update = Update::of(&folder, lays)?;
    output.write(&update.items)?;
    update.finish(output)?;
    Ok((!lays.is_empty()).then_some(folder))
}
