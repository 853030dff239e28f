//! Rule: a stuffing does not say which part it is in, or what it is filled with.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::words::{say, words};

/// A stuffing that does not say where it is or what goes in.
pub const RULE: Rule = Rule {
    code: "stuffing-incomplete",
    family: "filling",
    severity: Severity::Must,
    summary: "a stuffing does not say which part it is in, or what it is filled with",
    explanation: "A stuffing is a place in a part and the filling that goes there. Without the part the mass is added to \
                  nothing; without the filling it cannot be bought or declared on the label.",
    failing: "[stuffing.body]\nmass = \"45 g ±3 g\"",
    passing: "[stuffing.body]\npart = \"body\"\nfilling = \"fibre\"\nmass = \"45 g ±3 g\"",
    source: "common practice",
};

words! {
    PART "stuffing-incomplete.part" = "stuffing {id} does not say which part it is in";
    FILLING "stuffing-incomplete.filling" = "stuffing {id} does not say what it is filled with";
    HERE "stuffing-incomplete.here" = "no {key}";
    HELP "stuffing-incomplete.help" = "add {key} = \"..\" with the id of the {kind}";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, stuffing) in &context.model.stuffings {
        let keys = [("part", stuffing.part.is_some(), PART), ("filling", stuffing.filling.is_some(), FILLING)];
        for (key, _, text) in keys.iter().filter(|(_, given, _)| !given) {
            if context.model.was_refused("stuffing", id, key) {
                continue;
            }
            findings.push(Finding::new(&RULE, say!(text, id)).at(stuffing.entry.span(), say!(HERE, key)).help(say!(
                HELP,
                key,
                kind = kind::word(key)
            )));
        }
    }
}
