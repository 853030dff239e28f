//! Rule: a filling zone does not say how its mass is checked.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};

/// A mass that nobody weighs.
pub const RULE: Rule = Rule {
    code: "filling-unchecked",
    family: "filling",
    severity: Severity::Should,
    summary: "a filling zone does not say how its mass is checked",
    explanation: "Filling cannot be weighed once it is sewn in. Either each portion is weighed before it goes in, or the \
                  shell before and after; what is not said is not done.",
    failing: "[zone.body]\nmass = \"45 g ±3 g\"",
    passing: "[zone.body]\nmass = \"45 g ±3 g\"\ncheck = \"each portion on a scale read to 1 g\"",
    source: "common practice",
};

/// Reports zones with a mass and no word on how it is checked.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, zone) in &context.model.zones {
        let Some(mass) = &zone.mass else { continue };
        if zone.check.is_some() || context.model.was_refused("zone", id, "check") {
            continue;
        }
        let finding = Finding::new(&RULE, format!("zone {id} does not say how the mass of its filling is checked"))
            .at(mass.span, "weighed when, and on what?");
        let line = "check = \"each portion on a scale read to 1 g\"";
        let edit = Edit::line(zone.entry.span(), line);
        findings.push(finding.help(Help::with(format!("add under [zone.{id}]: {line}"), edit)));
    }
}
