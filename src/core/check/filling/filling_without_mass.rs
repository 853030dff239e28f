//! Rule: a stuffing without a mass.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A filling without its mass.
pub const RULE: Rule = Rule {
    code: "filling-without-mass",
    family: "filling",
    severity: Severity::Must,
    summary: "a stuffing without a mass",
    explanation: "How soft or firm a product is, is settled by the mass of its filling. \"Well filled\" means something \
                  else to every worker and on every day, and filling is often the largest cost after fabric.",
    failing: "[stuffing.body]\npart = \"body\"\nfilling = \"fibre\"",
    passing: "[stuffing.body]\npart = \"body\"\nfilling = \"fibre\"\nmass = \"45 g ±3 g\"",
    source: "common practice",
};

words! {
    MESSAGE "filling-without-mass.message" = "stuffing {id} does not say how much filling goes in";
    HERE "filling-without-mass.here" = "how much?";
    HELP "filling-without-mass.help" = "add mass = \".. g ±.. g\", by size if it differs: { S = \"..\", L = \"..\" }; \"by factory\" lets the first sample settle it";
}

/// Reports stuffings without a mass.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, stuffing) in &context.model.stuffings {
        if stuffing.mass.is_some() || context.model.was_refused("stuffing", id, "mass") {
            continue;
        }
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(stuffing.entry.span(), HERE);
        findings.push(finding.help(HELP));
    }
}
