//! `check`: reads and checks folders and prints the findings; the severity options that other commands share.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::diag::{Folder, Levels, Severity, json, sarif, text};
use backtack_core::model::Stage;
use backtack_core::pipeline;
use backtack_core::source::Tally;
use backtack_core::source::nearest;
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};

use super::report::Report;
use super::terminal::Terminal;
use super::{Exit, Failure, fix, source};

pub(super) fn define() -> Command {
    Command::new("check")
        .about("Shows what a careful factory would come back and ask")
        .after_help(
            "Findings go to standard output: `must` stops a release, `should` is what a factory\n\
             would ask, `note` is worth a look. `backtack explain` lists every code.",
        )
        .arg(folders())
        .arg(
            Arg::new("format")
                .long("format")
                .value_name("FORMAT")
                .value_parser(["text", "json", "sarif"])
                .default_value("text")
                .help("How to print"),
        )
        .arg(
            Arg::new("stage")
                .long("stage")
                .value_name("STAGE")
                .value_parser(PossibleValuesParser::new(Stage::ALL.map(|(word, _)| word)))
                .conflicts_with("fix")
                .hide_possible_values(true)
                .help("As if at this stage: prototype, counter sample, pre-production, bulk"),
        )
        .args(fix::arguments())
        .args(severities())
}

fn folders() -> Arg {
    Arg::new("folders")
        .value_name("DIR")
        .value_parser(value_parser!(PathBuf))
        .num_args(1..)
        .required(true)
        .help("Style folders; several are checked at once")
}

/// The options that say how much a finding matters.
pub(super) fn severities() -> [Arg; 2] {
    let strict = Arg::new("strict").long("strict").action(ArgAction::SetTrue).help("Takes every `should` for a `must`");
    let level = Arg::new("level")
        .long("level")
        .value_name("CODE=LEVEL")
        .action(ArgAction::Append)
        .help("Severity of a rule: must, should, note or off");
    [strict, level]
}

/// What the severity options say.
///
/// # Errors
/// If a code or a level does not exist.
pub(super) fn levels(matches: &ArgMatches) -> Result<Levels, Failure> {
    matches.get_many::<String>("level").into_iter().flatten().map(|text| level(text)).collect()
}

fn level(text: &str) -> Result<(String, Option<Severity>), Failure> {
    let Some((code, word)) = text.split_once('=') else {
        return Err(Failure::new(format!("--level {text}: write CODE=LEVEL, for example bare-number=note")));
    };
    known(code)?;
    let severity = match word {
        "must" => Some(Severity::Must),
        "should" => Some(Severity::Should),
        "note" => Some(Severity::Note),
        "off" => None,
        _ => return Err(Failure::new(format!("--level {text}: a level is must, should, note or off"))),
    };
    Ok((code.to_owned(), severity))
}

/// Refuses a code that no rule has, and names the nearest.
pub(super) fn known(code: &str) -> Result<&'static backtack_core::diag::Rule, Failure> {
    backtack_core::rules::find(code).ok_or_else(|| {
        let codes: Vec<&str> = backtack_core::rules::all().iter().map(|rule| rule.code).collect();
        let cure = match nearest(code, codes.iter().copied()) {
            Some(near) => format!("did you mean {near}?"),
            None => "`backtack explain` lists all rules".to_owned(),
        };
        Failure::new(format!("no rule has the code {code}; {cure}"))
    })
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let levels = levels(matches)?;
    let strict = matches.get_flag("strict");
    let stage = matches.get_one::<String>("stage");
    let stage = stage.and_then(|asked| Stage::ALL.into_iter().find(|(word, _)| word == asked)).map(|(_, stage)| stage);
    let paths: Vec<&Path> =
        matches.get_many::<PathBuf>("folders").into_iter().flatten().map(PathBuf::as_path).collect();
    let reports = match fix::Fix::of(matches)? {
        Some(fix) => paths.iter().map(|path| fix.run(path, &levels, strict, terminal)).collect(),
        None => all(&paths, &Asked { levels, strict, stage }, &terminal.tally)?,
    };
    let names: Vec<String> = paths.iter().map(|path| path.to_string_lossy().into_owned()).collect();
    let folders: Vec<Folder<'_>> =
        reports.iter().zip(&names).filter_map(|(report, name)| folder(report, name)).collect();
    let ahead = reports.iter().flatten().filter_map(|report| report.ahead.as_deref());
    print(&folders, ahead, matches, terminal)?;
    let mut failures = reports.iter().filter_map(|report| report.as_ref().err());
    if let Some(last) = failures.next_back() {
        failures.for_each(|failure| terminal.complain(failure));
        return Err(last.clone());
    }
    let standing = folders.iter().any(|folder| folder.findings.count(Severity::Must) > 0);
    Ok(if standing { Exit::Standing } else { Exit::Clear })
}

fn folder<'a>(report: &'a Result<Report, Failure>, name: &'a str) -> Option<Folder<'a>> {
    let Report { root, sources, findings, .. } = report.as_ref().ok()?;
    Some(Folder { name, root, findings, sources })
}

/// Findings in the format that is asked for; for people also what is in the way of the next stage.
fn print<'a>(
    folders: &[Folder<'_>],
    ahead: impl Iterator<Item = &'a str>,
    matches: &ArgMatches,
    terminal: &mut Terminal,
) -> Result<(), Failure> {
    let cannot = |error: serde_json::Error| Failure::new(format!("findings could not be written: {error}"));
    let text = match matches.get_one::<String>("format").map(String::as_str) {
        Some("json") => json::print(folders).map_err(cannot)?,
        Some("sarif") => sarif::print(folders).map_err(cannot)?,
        _ if folders.is_empty() => return Ok(()),
        _ => text::print(folders, terminal.output()) + &ahead.map(|line| format!("{line}\n")).collect::<String>(),
    };
    terminal.print(&text)
}

/// How folders are checked.
struct Asked {
    levels: Levels,
    strict: bool,
    /// The stage at which they are taken to be, instead of their own.
    stage: Option<Stage>,
}

/// Checks every folder, as many at once as there are processors; results in the order of the paths.
fn all(paths: &[&Path], asked: &Asked, tally: &Tally) -> Result<Vec<Result<Report, Failure>>, Failure> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        while let Some((number, path)) = take(&next, paths) {
            done.push((number, one(path, asked, tally)));
        }
        done
    };
    let count = std::thread::available_parallelism().map_or(1, usize::from).min(paths.len());
    let parts = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..count).map(|_| scope.spawn(work)).collect();
        workers.into_iter().map(std::thread::ScopedJoinHandle::join).collect::<Result<Vec<_>, _>>()
    });
    let broken = |_| Failure::new("a check broke off; this is a defect of backtack");
    let mut done: Vec<_> = parts.map_err(broken)?.into_iter().flatten().collect();
    done.sort_by_key(|(number, _)| *number);
    Ok(done.into_iter().map(|(_, report)| report).collect())
}

fn take<'a>(next: &AtomicUsize, paths: &[&'a Path]) -> Option<(usize, &'a Path)> {
    let number = next.fetch_add(1, Ordering::Relaxed);
    paths.get(number).map(|path| (number, *path))
}

fn one(path: &Path, asked: &Asked, tally: &Tally) -> Result<Report, Failure> {
    let loaded = source::folder(path, tally)?;
    let checked = pipeline::check(&loaded, &asked.levels, asked.strict);
    Ok(match asked.stage {
        None => Report::of(path, loaded, checked),
        Some(stage) => Report::at(stage, path, loaded, &checked),
    })
}
