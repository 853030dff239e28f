//! What every check sees, and what a check is.

use std::collections::BTreeMap;

use crate::diag::{Findings, Rule};
use crate::model::{Assembly, Model};
use crate::source::Span;

/// What every check sees.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// The specification.
    pub model: &'a Model,
    /// What follows from it: outlines, instances, the sewn surface.
    pub assembly: &'a Assembly,
    /// Where the specification sets the severity of a rule, by the code it names.
    pub levels: &'a BTreeMap<String, Span>,
    /// The codes of every rule there is.
    pub codes: &'a [&'static str],
}

/// One check and the rule it reports.
#[derive(Debug)]
pub struct Check {
    /// The rule.
    pub rule: &'static Rule,
    /// Adds its findings.
    pub run: fn(&Context<'_>, &mut Findings),
}
