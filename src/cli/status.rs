//! Shows on one screen how far a style has come.

use std::path::PathBuf;

use backtack_core::diag::{Levels, Severity};
use backtack_core::model::Stage;
use backtack_core::pipeline::{ahead, check};
use backtack_core::revision::{Seen, status};
use clap::{ArgMatches, Command};

use super::terminal::Terminal;
use super::{Exit, Failure, folder_argument, source};

pub(super) fn define() -> Command {
    Command::new("status")
        .about("Shows on one screen how far a style has come")
        .after_help(
            "Stage, the last sample and what is out on it, open comments and approvals,\n\
             and what is in the way of the next stage.",
        )
        .arg(folder_argument())
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let loaded = source::folder(folder, &terminal.tally)?;
    let checked = check(&loaded, &Levels::new(), false);
    let then = Stage::of(&loaded.model).next().map(|stage| (stage, ahead(&loaded, &checked, stage)));
    let seen = Seen {
        model: &loaded.model,
        figures: &checked.figures,
        findings: &checked.findings,
        next: then.as_ref().map(|(stage, findings)| (*stage, findings)),
    };
    terminal.print(&status(&seen))?;
    let standing = checked.findings.count(Severity::Must) > 0;
    Ok(if standing { Exit::Standing } else { Exit::Clear })
}
