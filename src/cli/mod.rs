//! The command line: arguments, dispatch, exit codes. One file a command, and one line in `COMMANDS`.
//!
//! Exit codes: 0 without a `must` finding, 1 with one, 2 if the command could not run.

mod argument;
pub mod build;
mod check;
mod compare;
mod completions;
pub mod earlier;
mod exit;
mod explain;
mod failure;
mod fix;
mod lay;
mod name;
pub mod new;
mod open;
#[expect(clippy::disallowed_methods, reason = "the only file output")]
pub mod output;
mod report;
mod sample;
mod schema;
pub mod seal;
mod secret;
mod signed;
mod source;
mod status;
mod terminal;
mod traces;
mod verify;
mod written;

use std::ffi::OsString;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;

use backtack_core::source::Tally;
use clap::{ArgMatches, Command};

use argument::folder_argument;
use exit::Exit;
pub use failure::Failure;
use terminal::Terminal;

/// One command.
struct Entry {
    define: fn() -> Command,
    run: fn(&ArgMatches, &mut Terminal) -> Result<Exit, Failure>,
}

/// Every command, in the order of the help text.
const COMMANDS: &[Entry] = &[
    Entry { define: new::define, run: new::run },
    Entry { define: check::define, run: check::run },
    Entry { define: build::define, run: build::run },
    Entry { define: compare::define, run: compare::run },
    Entry { define: seal::define, run: seal::run },
    Entry { define: verify::define, run: verify::run },
    Entry { define: open::define, run: open::run },
    Entry { define: lay::define, run: lay::run },
    Entry { define: sample::define, run: sample::run },
    Entry { define: status::define, run: status::run },
    Entry { define: explain::define, run: explain::run },
    Entry { define: schema::define, run: schema::run },
    Entry { define: completions::define, run: completions },
];

/// The whole command line.
#[must_use]
pub fn command() -> Command {
    Command::new("backtack")
        .version(env!("CARGO_PKG_VERSION"))
        .about("Compiles the specification files of a sewn product into one checked PDF package")
        .after_help("Exit codes: 0 no `must` finding, 1 a `must` finding, 2 the command could not run.")
        .subcommand_required(true)
        .arg_required_else_help(true)
        .disable_help_subcommand(true)
        .subcommands(COMMANDS.iter().map(|entry| (entry.define)()))
}

/// The script for a shell knows every command, so it gets the whole command line.
fn completions(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    completions::run(matches, &mut command(), terminal)
}

/// Runs the command that the arguments name, the program's own name first; what it does is counted in `tally`.
pub fn main(arguments: impl IntoIterator<Item = OsString>, tally: &Tally) -> ExitCode {
    let matches = match command().try_get_matches_from(arguments) {
        Ok(matches) => matches,
        Err(error) => return usage(&error),
    };
    let mut terminal = Terminal::new(tally);
    // A defect of the program is a command that could not run, too.
    let done = catch_unwind(AssertUnwindSafe(|| dispatch(&matches, &mut terminal)));
    match done
        .unwrap_or_else(|_| Err(Failure::new("this is a defect of backtack: please report what is printed above")))
    {
        Ok(Exit::Clear) => ExitCode::SUCCESS,
        Ok(Exit::Standing) => ExitCode::from(1),
        Err(failure) => {
            terminal.complain(&failure);
            ExitCode::from(2)
        }
    }
}

fn dispatch(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let Some((name, inner)) = matches.subcommand() else { return Err(Failure::new("no command is given")) };
    match COMMANDS.iter().find(|entry| (entry.define)().get_name() == name) {
        Some(entry) => (entry.run)(inner, terminal),
        None => Err(Failure::new(format!("there is no command {name}"))),
    }
}

/// Help and version go to standard output, a slip in the arguments to standard error; a closed pipe is no error.
fn usage(error: &clap::Error) -> ExitCode {
    let _ = error.print();
    if error.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS }
}
