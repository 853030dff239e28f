//! The argument of every command that works on one style.

use std::path::PathBuf;

use clap::{Arg, value_parser};

/// The argument of a command that works on one style.
pub fn folder_argument() -> Arg {
    let folder = Arg::new("folder").value_name("DIR").value_parser(value_parser!(PathBuf));
    folder.required(true).help("Style folder")
}
