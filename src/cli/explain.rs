//! `explain`: one rule for the terminal, the list of all rules, or all of them as Markdown.

use backtack_core::diag::{Rule, columns};
use backtack_core::rules;
use clap::{Arg, ArgAction, ArgMatches, Command};

use super::terminal::Terminal;
use super::{Exit, Failure, check};

pub(super) fn define() -> Command {
    Command::new("explain")
        .about("Explains a rule: why a factory would ask, what fails, what passes")
        .arg(Arg::new("code").value_name("CODE").help("Code of a finding; lists every rule if left out"))
        .arg(
            Arg::new("reference")
                .long("reference")
                .action(ArgAction::SetTrue)
                .conflicts_with("code")
                .help("Prints every rule in full, as Markdown"),
        )
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let width = terminal.output().width;
    let text = match matches.get_one::<String>("code") {
        Some(code) => explanation(check::known(code)?, width),
        None if matches.get_flag("reference") => reference(),
        None => list(width),
    };
    terminal.print(&text)?;
    Ok(Exit::Clear)
}

/// The families in the order of the rule list, each with its rules.
fn families() -> Vec<(&'static str, Vec<&'static Rule>)> {
    let mut families: Vec<(&str, Vec<&Rule>)> = Vec::new();
    for rule in rules::all() {
        match families.iter_mut().find(|(family, _)| *family == rule.family) {
            Some((_, list)) => list.push(rule),
            None => families.push((rule.family, vec![rule])),
        }
    }
    families
}

/// Every rule in a line or two, by family.
fn list(width: usize) -> String {
    let column = rules::all().iter().map(|rule| rule.code.len()).max().unwrap_or(0);
    let mut text = String::new();
    for (family, rules) in families() {
        text.push_str(&format!("{family}\n"));
        for rule in rules {
            let head = format!("  {:column$}  {:6}  ", rule.code, rule.severity.word());
            text.push_str(&hung(&head, rule.summary, width));
        }
        text.push('\n');
    }
    let hint = "`backtack explain CODE` gives the reason, an example that fails and one that passes.";
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

/// Every rule as Markdown.
fn reference() -> String {
    let mut text = String::from("# Rules\n");
    for (family, rules) in families() {
        text.push_str(&format!("\n## {family}\n"));
        for rule in rules {
            text.push_str(&format!(
                "\n### {}\n\n**{}**: {}.\n\n{}\n\nFails:\n\n```toml\n{}\n```\n\nPasses:\n\n```toml\n{}\n```\n\nSource: {}\n",
                rule.code,
                rule.severity.word(),
                rule.summary,
                rule.explanation,
                rule.failing.trim_matches('\n'),
                rule.passing.trim_matches('\n'),
                rule.source,
            ));
        }
    }
    text
}

fn indented(text: &str) -> String {
    text.trim_matches('\n').lines().map(|line| format!("    {line}").trim_end().to_owned() + "\n").collect()
}

/// Words after a head, wrapped, later lines below the first word.
fn hung(head: &str, words: &str, width: usize) -> String {
    let indent = columns(head);
    let mut text = head.to_owned();
    let mut used = indent;
    for (number, word) in words.split_whitespace().enumerate() {
        let length = columns(word);
        if number > 0 && used + 1 + length > width {
            text.push('\n');
            text.push_str(&" ".repeat(indent));
            used = indent;
        } else if number > 0 {
            text.push(' ');
            used += 1;
        }
        text.push_str(word);
        used += length;
    }
    text.push('\n');
    text
}
