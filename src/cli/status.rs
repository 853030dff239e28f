//! Says on one screen where a style stands.

use std::path::PathBuf;

use backtack_core::diag::{Levels, Severity};
use backtack_core::model::{Given, Stage, Stated};
use backtack_core::revision::{Seen, status};
use backtack_core::source::{FileId, Span};
use clap::{ArgMatches, Command};

use super::terminal::Terminal;
use super::{Exit, Failure, folder_argument};

pub(super) fn define() -> Command {
    Command::new("status")
        .about("Says on one screen where a style stands")
        .after_help(
            "Stage, the last sample and what is out on it, open comments and approvals,\n\
             and what is in the way of the next stage.",
        )
        .arg(folder_argument())
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let mut loaded = crate::read(folder).map_err(|error| Failure::new(error.to_string()))?;
    let checked = crate::check(&loaded, &Levels::new(), false);
    let model = loaded.model.clone();
    // The same specification, as if it were at the next stage.
    let next = Stage::of(&model).next();
    let then = next.map(|stage| {
        let word = stage.word().to_string();
        let revision = &mut loaded.model.revision;
        match &mut revision.stage {
            Some(stated) => stated.given = Given::Known(word),
            None => {
                revision.stage =
                    Some(Stated::plain(word, revision.span.unwrap_or(Span { file: FileId(0), start: 0, end: 0 })))
            }
        }
        (stage, crate::check(&loaded, &Levels::new(), false).findings)
    });
    let seen = Seen {
        model: &model,
        figures: &checked.figures,
        findings: &checked.findings,
        next: then.as_ref().map(|(stage, findings)| (*stage, findings)),
    };
    terminal.print(&status(&seen))?;
    let standing = checked.findings.count(Severity::Must) > 0;
    Ok(if standing { Exit::Standing } else { Exit::Clear })
}
