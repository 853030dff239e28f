//! The command that compares two specifications: reads and checks both, then prints what differs.

use std::path::{Path, PathBuf};

use backtack_core::diag::Levels;
use backtack_core::pipeline::{Checked, check, compare};
use backtack_core::read::Loaded;
use backtack_core::revision::compare::{json, text};
use backtack_core::source::Tally;
use clap::{Arg, ArgMatches, Command, value_parser};

use super::terminal::Terminal;
use super::{Exit, Failure, source};

pub(super) fn define() -> Command {
    let side = |name: &'static str, help: &'static str| {
        Arg::new(name).value_name(name).value_parser(value_parser!(PathBuf)).required(true).help(help)
    };
    Command::new("compare")
        .about("Shows what changed between two specifications, and what followed from it")
        .after_help(
            "Compares by meaning: another order, another unit for the same quantity or a drawing that was\n\
             only moved is no change. Exit codes: 0 nothing changed, 1 something did, 2 could not be run.",
        )
        .arg(side("BEFORE", "Earlier specification: a style folder, a sealed revision or a PDF package"))
        .arg(side("AFTER", "Later one"))
        .arg(
            Arg::new("format")
                .long("format")
                .value_name("FORMAT")
                .value_parser(["text", "json"])
                .default_value("text")
                .help("How to print"),
        )
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let path = |name: &str| matches.get_one::<PathBuf>(name).cloned().unwrap_or_default();
    let (before, after) = (path("BEFORE"), path("AFTER"));
    let broken = |_| Failure::new("a comparison broke off; this is a defect of backtack");
    let (before, after) = std::thread::scope(|scope| {
        let tally = &terminal.tally;
        let earlier = scope.spawn(|| checked(&before, tally));
        let later = checked(&after, tally);
        earlier.join().map_err(broken).map(|earlier| (earlier, later))
    })?;
    let ((before, earlier), (after, later)) = (before?, after?);
    let changes = compare((&before, &earlier), (&after, &later));
    match matches.get_one::<String>("format").map(String::as_str) {
        Some("json") => terminal.print(&json(&changes))?,
        _ => terminal.print(&text(&changes, terminal.output().width))?,
    }
    Ok(if changes.is_empty() { Exit::Clear } else { Exit::Standing })
}

/// Reads and checks one specification. One with a syntax error is read in part only, and so cannot be compared.
fn checked(path: &Path, tally: &Tally) -> Result<(Loaded, Checked), Failure> {
    let loaded = source::loaded(path, tally)?;
    let broken = loaded.broken.iter().next().and_then(|id| loaded.sources.file(*id));
    if let Some(file) = broken {
        let message =
            format!("cannot compare {}: {} cannot be read whole; `check` says why", path.display(), file.path);
        return Err(Failure::new(message));
    }
    let checked = check(&loaded, &Levels::new(), false);
    Ok((loaded, checked))
}
