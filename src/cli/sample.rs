//! Starts the file of a sample.

use std::path::PathBuf;

use backtack_core::diag::{Levels, plain};
use backtack_core::grammar::keys::SAMPLES;
use backtack_core::pipeline::check;
use backtack_core::revision::{Ask, blank};
use backtack_core::units::NoDate;
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgMatches, Command, value_parser};

use super::output::{Item, Output};
use super::terminal::Terminal;
use super::{Exit, Failure, folder_argument, source};

pub(super) fn define() -> Command {
    Command::new("sample")
        .about("Starts the file of a sample")
        .subcommand_required(true)
        .arg_required_else_help(true)
        .disable_help_subcommand(true)
        .subcommand(new())
}

fn new() -> Command {
    let text =
        |id: &'static str, value: &'static str, help: &'static str| Arg::new(id).long(id).value_name(value).help(help);
    Command::new("new")
        .about("Writes DIR/samples/ID.toml: what is measured, within what, and room for the readings")
        .arg(folder_argument())
        .arg(Arg::new("id").value_name("ID").required(true).help("Id of the sample, never used before"))
        .arg(
            text("kind", "KIND", "What kind of sample")
                .value_parser(PossibleValuesParser::new(SAMPLES.iter().copied()))
                .required(true),
        )
        .arg(text("size", "SIZE", "Size; may be left out where there is one"))
        .arg(text("colourway", "ID", "Colourway; with it the colours to read are listed"))
        .arg(text("pieces", "N", "How many samples").value_parser(value_parser!(u32).range(1..=500)).required(true))
        .arg(text("due", "DATE", "When they are due, as 2026-11-20"))
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let Some(("new", matches)) = matches.subcommand() else { return Err(Failure::new("no command is given")) };
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let text = |id: &str| matches.get_one::<String>(id).cloned();
    let ask = Ask {
        id: text("id").unwrap_or_default(),
        kind: text("kind").unwrap_or_default(),
        size: text("size"),
        colourway: text("colourway"),
        pieces: matches.get_one::<u32>("pieces").copied().unwrap_or(1),
        due: text("due").map(|day| day.parse()).transpose().map_err(|why: NoDate| Failure::new(why.to_string()))?,
    };
    let loaded = source::folder(folder, &terminal.tally)?;
    let checked = check(&loaded, &Levels::new(), false);
    let form = blank(&loaded.model, &checked.figures, &ask).map_err(Failure::new)?;
    let path = folder.join("samples").join(format!("{}.toml", ask.id));
    let output = Output::new();
    if output.taken(&path) {
        return Err(Failure::new(format!("{} is there already; choose another id", path.display())));
    }
    output.write(&[Item { path: path.clone(), bytes: form.into_bytes() }])?;
    terminal.print(&format!("{}\n", plain(&path.to_string_lossy())))?;
    Ok(Exit::Clear)
}
