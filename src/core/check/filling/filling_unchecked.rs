//! Rule: a stuffing does not say how its mass is checked.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// A mass that nobody weighs.
pub const RULE: Rule = Rule {
    code: "filling-unchecked",
    family: "filling",
    severity: Severity::Should,
    summary: "a stuffing does not say how its mass is checked",
    explanation: "Filling cannot be weighed once it is sewn in. Either each portion is weighed before it goes in, or the \
                  shell before and after; what is not said is not done.",
    failing: "[stuffing.body]\nmass = \"45 g ±3 g\"",
    passing: "[stuffing.body]\nmass = \"45 g ±3 g\"\ncheck = \"each portion on a scale read to 1 g\"",
    source: "common practice",
};

words! {
    MESSAGE "filling-unchecked.message" = "stuffing {id} does not say how the mass of its filling is checked";
    HERE "filling-unchecked.here" = "weighed when, and on what?";
    HELP "filling-unchecked.help" = "add under [stuffing.{id}]: {line}";
}

/// Reports stuffings with a mass and no word on how it is checked.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, stuffing) in &context.model.stuffings {
        let Some(mass) = &stuffing.mass else { continue };
        if stuffing.check.is_some() || context.model.was_refused("stuffing", id, "check") {
            continue;
        }
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(mass.span, HERE);
        let line = "check = \"each portion on a scale read to 1 g\"";
        let edit = Edit::line(stuffing.entry.span(), line);
        findings.push(finding.help(Help::with(say!(HELP, id, line), edit)));
    }
}
