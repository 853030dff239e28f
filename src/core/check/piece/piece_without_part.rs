//! Rule: a piece that belongs to no part.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{Phrase, say, words};

/// A piece that belongs nowhere.
pub const RULE: Rule = Rule {
    code: "piece-without-part",
    family: "piece",
    severity: Severity::Should,
    summary: "a piece that belongs to no part",
    explanation: "How often a piece is cut for one product follows from its copies and from how often its part is used. \
                  A piece without a part is counted once, whatever it is sewn to.",
    failing: "[piece.EAR]\nmaterial = \"felt\"",
    passing: "[part.ear]\n[piece.EAR]\npart = \"ear\"\nmaterial = \"felt\"",
    source: "common practice",
};

words! {
    DECLARE_PART "piece-without-part.declare-part" = "declare a part and name it: part = \"body\"";
    ADD_PART "piece-without-part.add-part" = "add part = \"..\" with one of {parts}";
    MESSAGE "piece-without-part.message" = "piece {id} belongs to no part";
    HERE "piece-without-part.here" = "part of what?";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, piece) in model.pieces.iter().filter(|(_, piece)| piece.part.is_none()) {
        if model.was_refused("piece", id, "part") {
            continue;
        }
        let parts: Vec<&str> = model.parts.keys().map(String::as_str).collect();
        let help = match parts.as_slice() {
            [] => Phrase::from(DECLARE_PART),
            parts => say!(ADD_PART, parts = parts.join(", ")),
        };
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(piece.entry.span(), HERE);
        findings.push(finding.help(help));
    }
}
