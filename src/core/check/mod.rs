//! What a careful factory would ask. Families below; one file per rule, file name = code.

use crate::diag::{Findings, Rule};
use crate::model::{Assembly, Model};

/// What every check sees.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// The specification.
    pub model: &'a Model,
    /// What follows from it: outlines, instances, the sewn surface.
    pub assembly: &'a Assembly,
}

/// One check and the rule it reports.
pub struct Check {
    /// The rule.
    pub rule: &'static Rule,
    /// Adds its findings.
    pub run: fn(&Context<'_>, &mut Findings),
}

/// Every check, by family. A new rule is one file and one line here.
pub const CHECKS: &[Check] = &[];

/// Runs every check.
pub fn run(context: &Context<'_>) -> Findings {
    let mut findings = Findings::default();
    for check in CHECKS {
        (check.run)(context, &mut findings);
    }
    findings
}
