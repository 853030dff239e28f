//! `explain`: one rule, one table or one key for the terminal; the list of all; or the pages of all, as Markdown.

mod name;

use backtack_core::diag::manual::{self, families};
use backtack_core::diag::{Rule, columns, wrap};
use backtack_core::grammar::reference::{self, Entry};
use backtack_core::rules;
use clap::{Arg, ArgAction, ArgMatches, Command};

use super::terminal::Terminal;
use super::{Exit, Failure};
use name::{Named, Names};

pub(super) fn define() -> Command {
    Command::new("explain")
        .about("Explains a finding, a table or a key")
        .after_help(
            "NAME is the code of a finding (bare-number), a table (piece) or a key of one\n\
             (piece.allowance, piece.cut.block). Without it, every code and every table is listed.",
        )
        .arg(
            Arg::new("name")
                .value_name("NAME")
                .value_parser(Names)
                .hide_possible_values(true)
                .help("Code of a finding, TABLE or TABLE.KEY; lists all if left out"),
        )
        .arg(page("reference", "Prints every table and key, as Markdown").conflicts_with("findings"))
        .arg(page("findings", "Prints every rule in full, as Markdown"))
}

fn page(name: &'static str, help: &'static str) -> Arg {
    Arg::new(name).long(name).action(ArgAction::SetTrue).conflicts_with("name").help(help)
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let width = terminal.output().width;
    let text = match matches.get_one::<String>("name") {
        Some(name) => match name::find(name)? {
            Named::Rule(rule) => explanation(rule, width),
            Named::Entry(entry) => described(&entry, width),
        },
        None if matches.get_flag("reference") => reference::markdown(),
        None if matches.get_flag("findings") => manual::markdown(&rules::all()),
        None => list(width),
    };
    terminal.print(&text)?;
    Ok(Exit::Clear)
}

/// Every rule and every table in a line or two, rules by family.
fn list(width: usize) -> String {
    let all = rules::all();
    let column = all.iter().map(|rule| rule.code.len()).max().unwrap_or(0);
    let mut text = String::new();
    for (family, rules) in families(&all) {
        text.push_str(&format!("{family}\n"));
        for rule in rules {
            let head = format!("  {:column$}  {:6}  ", rule.code, rule.severity.word());
            text.push_str(&hung(&head, rule.summary, width));
        }
        text.push('\n');
    }
    text.push_str("tables of the files\n");
    for table in reference::tables() {
        text.push_str(&hung(&format!("  {:column$}  ", table.path), table.doc, width));
    }
    let hint = "`backtack explain CODE` gives the reason, an example that fails and one that passes; `backtack explain \
                TABLE` or `TABLE.KEY` says what may be written there.";
    text.push('\n');
    text.push_str(&hung("", hint, width));
    text
}

/// One rule for the terminal.
fn explanation(rule: &Rule, width: usize) -> String {
    let mut text = format!("{} ({}, {})\n", rule.code, rule.family, rule.severity.word());
    text.push_str(&hung("", rule.summary, width));
    text.push('\n');
    text.push_str(&hung("", rule.explanation, width));
    text.push_str(&format!("\nFails:\n\n{}\n", indented(rule.failing)));
    text.push_str(&format!("Passes:\n\n{}\n", indented(rule.passing)));
    text.push_str(&hung("Source: ", rule.source, width));
    text
}

/// One table or key for the terminal.
fn described(entry: &Entry, width: usize) -> String {
    let mut text = format!("{}\n", entry.path);
    text.push_str(&hung("", entry.doc, width));
    text.push('\n');
    let label = if entry.path.contains('.') { "Takes: " } else { "Written: " };
    text.push_str(&hung(label, &takes(entry), width));
    if !entry.units.is_empty() {
        text.push_str(&hung("Units: ", &entry.units, width));
    }
    if !entry.keys.is_empty() {
        text.push_str("\nKeys:\n");
    }
    let from = entry.path.len() + 1;
    let name = |key: &Entry| key.path.get(from..).unwrap_or(&key.path).to_owned();
    let column = entry.keys.iter().map(|key| name(key).len()).max().unwrap_or(0);
    for key in &entry.keys {
        text.push_str(&hung(&format!("  {:column$}  ", name(key)), &takes(key), width));
        text.push_str(&hung(&format!("  {:column$}  ", ""), key.doc, width));
    }
    text
}

fn takes(entry: &Entry) -> String {
    let differs = if entry.varies { "; may differ by size or colourway" } else { "" };
    format!("{}{differs}", entry.takes)
}

fn indented(text: &str) -> String {
    text.trim_matches('\n').lines().map(|line| format!("    {line}").trim_end().to_owned() + "\n").collect()
}

/// Words after a head, wrapped, later lines below the first word.
fn hung(head: &str, words: &str, width: usize) -> String {
    let indent = columns(head);
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let below = format!("\n{}", " ".repeat(indent));
    format!("{head}{}\n", wrap(&words, width.saturating_sub(indent)).join(&below))
}
