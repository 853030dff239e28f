//! What a careful factory would ask. Families below; one file per rule, file name = code.

pub mod filling;
pub mod material;
pub mod measure;
mod mention;
pub mod order;
pub mod outline;
pub mod piece;
pub mod reference;
pub mod release;
pub mod safety;
pub mod sample;
pub mod sewing;

pub use crate::model::Stage;

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

/// Every family of checks. A new rule is one file, and one line in the list of its family.
pub const FAMILIES: &[&[Check]] = &[
    reference::CHECKS,
    material::CHECKS,
    piece::CHECKS,
    outline::CHECKS,
    filling::CHECKS,
    measure::CHECKS,
    sewing::CHECKS,
    order::CHECKS,
    sample::CHECKS,
    release::CHECKS,
    safety::CHECKS,
];

/// Every check, family by family.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    FAMILIES.iter().copied().flatten()
}

/// Runs every check.
pub fn run(context: &Context<'_>) -> Findings {
    let mut findings = Findings::default();
    for check in checks() {
        (check.run)(context, &mut findings);
    }
    findings
}
