//! `completions`: the script that lets a shell complete our commands and options.

use clap::{Arg, ArgMatches, Command, value_parser};
use clap_complete::Shell;

use super::terminal::Terminal;
use super::{Exit, Failure};

pub(super) fn define() -> Command {
    Command::new("completions")
        .about("Prints a script with which a shell completes the commands")
        .arg(Arg::new("shell").value_name("SHELL").value_parser(value_parser!(Shell)).required(true).help("The shell"))
}

pub(super) fn run(matches: &ArgMatches, all: &mut Command, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let Some(shell) = matches.get_one::<Shell>("shell") else { return Err(Failure::new("no shell is given")) };
    let mut script = Vec::new();
    clap_complete::generate(*shell, all, "backtack", &mut script);
    terminal.print(&String::from_utf8_lossy(&script))?;
    Ok(Exit::Clear)
}
