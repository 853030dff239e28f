//! Starts a folder: a small bag with comments that teach.

use std::path::{Path, PathBuf};

use backtack_core::diag::plain;
use clap::{Arg, ArgMatches, Command, value_parser};

use super::output::{Item, Output};
use super::terminal::Terminal;
use super::{Exit, Failure};

/// The starting files; `{name}` is replaced, as a TOML string with its quotes.
const FILES: &[(&str, &str)] = &[
    ("style.toml", include_str!("new/style.toml")),
    ("materials.toml", include_str!("new/materials.toml")),
    ("pieces.toml", include_str!("new/pieces.toml")),
    ("seams.toml", include_str!("new/seams.toml")),
    ("measurements.toml", include_str!("new/measurements.toml")),
    ("outlines/panel.svg", include_str!("new/outlines/panel.svg")),
];

pub(super) fn define() -> Command {
    Command::new("new")
        .about("Starts a folder: a small bag whose files explain themselves")
        .arg(
            Arg::new("folder")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .required(true)
                .help("Folder to make; it may exist if it is empty"),
        )
        .arg(Arg::new("name").long("name").value_name("NAME").help("Name of the style [default: that of the folder]"))
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let Some(folder) = matches.get_one::<PathBuf>("folder") else { return Err(Failure::new("no folder is given")) };
    let own = || folder.file_name().map(|name| name.to_string_lossy().into_owned());
    let name = matches.get_one::<String>("name").cloned().or_else(own).unwrap_or_else(|| "New style".to_owned());
    start(folder, &name, &Output::new())?;
    let shown = plain(&folder.to_string_lossy());
    terminal.print(&format!(
        "{} files are in {shown}. Change them to your product, and ask what is still open:\n\n    backtack check {shown}\n",
        FILES.len(),
    ))?;
    Ok(Exit::Clear)
}

/// Writes the starting files into a folder that does not exist or is empty.
///
/// # Errors
/// If something is in the folder already, or it cannot be written.
pub fn start(folder: &Path, name: &str, output: &Output) -> Result<(), Failure> {
    if output.occupied(folder)? {
        return Err(Failure::new(format!("{} is not empty; name a new folder", folder.display())));
    }
    let name = quoted(name)?;
    let items: Vec<Item> = FILES
        .iter()
        .map(|(path, text)| Item { path: folder.join(path), bytes: text.replace("{name}", &name).into_bytes() })
        .collect();
    output.write(&items)
}

/// Text as a TOML string. JSON escapes are TOML escapes, except for U+007F, which JSON leaves as it is.
fn quoted(text: &str) -> Result<String, Failure> {
    let json = serde_json::to_string(text.trim())
        .map_err(|error| Failure::new(format!("this name cannot be written: {error}")))?;
    Ok(json.replace('\u{7f}', "\\u007f"))
}
