//! `open`: checks a sealed file or package and writes the files in it into a new folder.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use backtack_core::diag::plain;
use backtack_core::read::{ROOT, is_there};
use backtack_core::revision::named;
use clap::{Arg, ArgMatches, Command, value_parser};

use super::output::{Item, Output};
use super::source::{self, Opened};
use super::terminal::Terminal;
use super::{Exit, Failure};

pub(super) fn define() -> Command {
    let path = |name: &'static str, help: &'static str| {
        Arg::new(name).value_name(name).value_parser(value_parser!(PathBuf)).required(true).help(help)
    };
    Command::new("open")
        .about("Gives the files of a sealed revision or a PDF package back as a folder")
        .after_help(
            "A sealed revision gives the own edition, a PDF what is attached to it. A file that is not as it\n\
             was made is refused, and nothing is written.",
        )
        .arg(path("FILE", "Sealed revision or PDF package"))
        .arg(path("DIR", "Folder to make; it may exist if it is empty"))
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let path = |name: &str| matches.get_one::<PathBuf>(name).cloned().unwrap_or_default();
    let (file, folder) = (path("FILE"), path("DIR"));
    let opened = source::file(&file)?;
    write(&opened, &folder, &Output::new())?;
    let style = folder.join(&opened.inner.folder);
    let edition = if opened.own { "own edition" } else { "factory's edition" };
    terminal.print(&format!(
        "{} files of the {edition} are in {}\n",
        opened.files.len(),
        plain(&style.to_string_lossy()).trim_end_matches('/')
    ))?;
    Ok(Exit::Clear)
}

/// Writes the files into a folder that is not there or is empty: all of them or none.
///
/// # Errors
/// If the folder is not empty, a name leads out of it, or the system refuses.
fn write(opened: &Opened, folder: &Path, output: &Output) -> Result<(), Failure> {
    if output.occupied(folder)? {
        return Err(Failure::new(format!("{} is not empty; name a new folder", folder.display())));
    }
    let mut names: BTreeSet<String> = BTreeSet::new();
    for (path, _) in &opened.files {
        named(path).map_err(|why| Failure::new(why.to_string()))?;
        // Many systems take upper and lower case for the same.
        if !names.insert(path.to_lowercase()) {
            return Err(Failure::new(format!("two files are called {path}, but for upper and lower case")));
        }
    }
    let within = |path: &str| path.match_indices('/').any(|(at, _)| names.contains(&path[..at]));
    if let Some(path) = names.iter().find(|path| within(path)) {
        return Err(Failure::new(format!("{path} lies below a file, not a folder")));
    }
    let mut items: Vec<Item> =
        opened.files.iter().map(|(path, bytes)| Item { path: folder.join(path), bytes: bytes.clone() }).collect();
    // Shared libraries are looked for below the root.
    let root = folder.join(ROOT);
    if !opened.inner.folder.is_empty() && !names.contains(ROOT) && !is_there(&root) {
        items.push(Item { path: root, bytes: b"# The root of the styles and their shared libraries.\n".to_vec() });
    }
    output.write(&items)
}
