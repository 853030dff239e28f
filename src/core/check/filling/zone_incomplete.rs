//! Rule: a filling zone does not say which part it is in, or what it is filled with.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};

/// A zone that does not say where it is or what goes in.
pub const RULE: Rule = Rule {
    code: "zone-incomplete",
    family: "filling",
    severity: Severity::Must,
    summary: "a filling zone does not say which part it is in, or what it is filled with",
    explanation: "A zone is a place in a part and the filling that goes there. Without the part the mass is added to \
                  nothing; without the filling it cannot be bought or declared on the label.",
    failing: "[zone.body]\nmass = \"45 g ±3 g\"",
    passing: "[zone.body]\npart = \"body\"\nmaterial = \"fibre\"\nmass = \"45 g ±3 g\"",
    source: "common practice",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, zone) in &context.model.zones {
        let keys = [
            ("part", zone.part.is_some(), "does not say which part it is in"),
            ("material", zone.material.is_some(), "does not say what it is filled with"),
        ];
        for (key, _, text) in keys.iter().filter(|(_, given, _)| !given) {
            if context.model.was_refused("zone", id, key) {
                continue;
            }
            findings.push(
                Finding::new(&RULE, format!("zone {id} {text}")).at(zone.entry.span(), format!("no {key}")).help(
                    format!(
                        "add {key} = \"..\" with the id of the {}",
                        if *key == "part" { "part" } else { "filling" }
                    ),
                ),
            );
        }
    }
}
