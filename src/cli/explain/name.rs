//! The name behind `explain`: what it may be, for shells that complete it, and what it is the name of.

use std::ffi::OsStr;

use backtack_core::diag::Rule;
use backtack_core::grammar::keys::kinds;
use backtack_core::grammar::reference::{self, Entry};
use backtack_core::rules;
use backtack_core::source::nearest;
use clap::builder::{PossibleValue, StringValueParser, TypedValueParser};
use clap::{Arg, Command};

use crate::cli::Failure;

/// What a name stands for.
pub(super) enum Named {
    /// A rule, by its code.
    Rule(&'static Rule),
    /// A table or a key.
    Entry(Entry),
}

/// The rule, table or key with this name.
///
/// # Errors
/// If there is none; the nearest name is proposed.
pub(super) fn find(name: &str) -> Result<Named, Failure> {
    if let Some(rule) = rules::find(name) {
        return Ok(Named::Rule(rule));
    }
    let unknown = match reference::entry(name) {
        Ok(entry) => return Ok(Named::Entry(entry)),
        Err(unknown) => unknown,
    };
    let codes: Vec<&str> = rules::all().iter().map(|rule| rule.code).collect();
    let near = nearest(name, codes.iter().copied()).map(str::to_owned).or(unknown.near);
    let cure = match (near, &unknown.table) {
        (Some(near), _) => format!("did you mean {near}?"),
        (None, Some(table)) => format!("`backtack explain {table}` lists its keys"),
        (None, None) => "`backtack explain` lists all rules and tables".to_owned(),
    };
    let what = if name.contains('.') { unknown.what } else { format!("no finding or table is called {name}") };
    Err(Failure::new(format!("{what}; {cure}")))
}

/// Takes every text, and tells shells the codes and tables there are.
#[derive(Debug, Clone, Copy)]
pub(super) struct Names;

impl TypedValueParser for Names {
    type Value = String;

    fn parse_ref(&self, command: &Command, arg: Option<&Arg>, value: &OsStr) -> Result<String, clap::Error> {
        StringValueParser::new().parse_ref(command, arg, value)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        let codes = rules::all().into_iter().map(|rule| rule.code);
        let tables = kinds().iter().map(|kind| kind.name);
        Some(Box::new(codes.chain(tables).map(PossibleValue::new)))
    }
}
