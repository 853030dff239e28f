//! `schema`: the JSON Schema of the files, for editors.

use backtack_core::grammar::schema;
use clap::{ArgMatches, Command};

use super::terminal::Terminal;
use super::{Exit, Failure};

pub(super) fn define() -> Command {
    Command::new("schema")
        .about("Prints the JSON Schema of the files, for editors that complete and check TOML")
        .after_help(
            "Write it to a file and name that file in the first line of a specification file:\n\
             #:schema ./backtack-schema.json",
        )
}

pub(super) fn run(_: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    terminal.print(&schema::written())?;
    Ok(Exit::Clear)
}
