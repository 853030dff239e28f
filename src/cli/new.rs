//! Starts a folder: a small invented product of a kind, whose files explain themselves.

use std::path::{Path, PathBuf};

use backtack_core::diag::plain;
use backtack_core::grammar::schema;
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgMatches, Command, value_parser};

use super::output::{Item, Output};
use super::terminal::Terminal;
use super::{Exit, Failure};

/// The schema of the files, for editors: the first line of each file names it.
const SCHEMA: &str = "backtack-schema.json";

/// A product to start from.
#[derive(Debug)]
pub struct Kind {
    /// What `--kind` takes.
    pub word: &'static str,
    /// What is written, in a few words.
    pub about: &'static str,
    /// Paths and texts of its files; `{name}` is replaced, as a TOML string with its quotes.
    pub files: &'static [(&'static str, &'static str)],
}

/// The files of a kind, which are beside this one.
macro_rules! files {
    ($folder:literal: $($path:literal),+) => { &[$(($path, include_str!(concat!("new/", $folder, "/", $path)))),+] };
}

/// Every product there is to start from.
pub const KINDS: [Kind; 4] = [
    Kind {
        word: "soft-toy",
        about: "a flat bear: ears with facings, filled feet, drawn outlines",
        files: files!("soft-toy": "style.toml", "materials.toml", "pieces.toml", "seams.toml", "measurements.toml", "outlines/bear.svg"),
    },
    Kind {
        word: "cushion",
        about: "a square cover with a zip, and a filled inner",
        files: files!("cushion": "style.toml", "materials.toml", "pieces.toml", "seams.toml", "measurements.toml"),
    },
    Kind {
        word: "bag",
        about: "a tote with a lining and two handles",
        files: files!("bag": "style.toml", "materials.toml", "pieces.toml", "lining.toml", "seams.toml", "measurements.toml", "outlines/panel.svg"),
    },
    Kind {
        word: "ball",
        about: "a filled ball of six gores in two colours",
        files: files!("ball": "style.toml", "materials.toml", "pieces.toml", "seams.toml", "measurements.toml"),
    },
];

pub(super) fn define() -> Command {
    Command::new("new")
        .about("Starts a folder: a small invented product whose files explain themselves")
        .arg(
            Arg::new("folder")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .required(true)
                .help("Folder to make; it may exist if it is empty"),
        )
        .arg(
            Arg::new("kind")
                .long("kind")
                .value_name("KIND")
                .value_parser(PossibleValuesParser::new(KINDS.iter().map(|kind| kind.word)))
                .hide_possible_values(true)
                .help("What to start from, see below; asked for on a terminal"),
        )
        .arg(Arg::new("name").long("name").value_name("NAME").help("Name of the style [default: that of the folder]"))
        .after_help(listed())
}

/// Every kind and what it is, a line each.
fn listed() -> String {
    let lines: Vec<String> = KINDS.iter().map(|kind| format!("  {:<9} {}", kind.word, kind.about)).collect();
    format!("Kinds:\n{}", lines.join("\n"))
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let Some(folder) = matches.get_one::<PathBuf>("folder") else { return Err(Failure::new("no folder is given")) };
    let output = Output::new();
    vacant(folder, &output)?;
    let kind = match matches.get_one::<String>("kind") {
        Some(word) => chosen(word),
        None => asked(|question| terminal.ask(question))?,
    };
    let kind = kind.ok_or_else(|| Failure::new(format!("no kind is given: write --kind and one of {}", words())))?;
    let own = || folder.file_name().map(|name| name.to_string_lossy().into_owned());
    let name = matches.get_one::<String>("name").cloned().or_else(own).unwrap_or_else(|| "New style".to_owned());
    start(folder, kind, &name, &output)?;
    let shown = plain(&folder.to_string_lossy());
    terminal.print(&format!(
        "{} files are in {shown}. Change them to your product, and ask what is still open:\n\n    backtack check {shown}\n",
        kind.files.len() + 1,
    ))?;
    Ok(Exit::Clear)
}

/// The kinds in a row.
fn words() -> String {
    KINDS.map(|kind| kind.word).join(", ")
}

/// The kind of a word or of its number in the list.
fn chosen(answer: &str) -> Option<&'static Kind> {
    let number = answer.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    number.and_then(|at| KINDS.get(at)).or_else(|| KINDS.iter().find(|kind| kind.word == answer))
}

/// Asks until a kind is named, by its word or its number; nothing if there is no answer. `ask` puts a question to a person.
///
/// # Errors
/// If the person cannot be asked.
pub fn asked(mut ask: impl FnMut(&str) -> Result<Option<String>, Failure>) -> Result<Option<&'static Kind>, Failure> {
    let lines = KINDS.iter().enumerate().map(|(at, kind)| format!("  {} {:<9} {}\n", at + 1, kind.word, kind.about));
    let mut question = format!("What do you want to start from?\n\n{}\nNumber or word: ", lines.collect::<String>());
    while let Some(answer) = ask(&question)? {
        if let Some(kind) = chosen(&answer) {
            return Ok(Some(kind));
        }
        question = format!("One of 1 to {}, or a word of the list: ", KINDS.len());
    }
    Ok(None)
}

/// Refuses a folder in which something is.
fn vacant(folder: &Path, output: &Output) -> Result<(), Failure> {
    if output.occupied(folder)? {
        return Err(Failure::new(format!("{} is not empty; name a new folder", folder.display())));
    }
    Ok(())
}

/// Writes the starting files of a kind into a folder that does not exist or is empty.
///
/// # Errors
/// If something is in the folder already, or it cannot be written.
pub fn start(folder: &Path, kind: &Kind, name: &str, output: &Output) -> Result<(), Failure> {
    vacant(folder, output)?;
    let name = quoted(name)?;
    let file = |(path, text): &(&str, &str)| Item {
        path: folder.join(path),
        bytes: text.replace("{name}", &name).into_bytes(),
    };
    let schema = Item { path: folder.join(SCHEMA), bytes: schema::written().into_bytes() };
    output.write(&kind.files.iter().map(file).chain([schema]).collect::<Vec<_>>())
}

/// Text as a TOML string. JSON escapes are TOML escapes, except for U+007F, which JSON leaves as it is.
fn quoted(text: &str) -> Result<String, Failure> {
    let json = serde_json::to_string(text.trim())
        .map_err(|error| Failure::new(format!("this name cannot be written: {error}")))?;
    Ok(json.replace('\u{7f}', "\\u007f"))
}
