//! Rule: a piece without an outline.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A piece without a shape.
pub const RULE: Rule = Rule {
    code: "outline-missing",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece without an outline",
    explanation: "Nobody can cut a piece of which nobody knows the shape. If you have no pattern and want the factory to \
                  make it, say so: `outline = \"by factory\"`. Figures that need it then read \"not known yet\".",
    failing: "[piece.TOP]\nmaterial = \"outer\"",
    passing: "[piece.TOP]\nmaterial = \"outer\"\noutline = \"by factory\"",
    source: "common practice",
};

words! {
    MESSAGE "outline-missing.message" = "piece {id} has no outline";
    HERE "outline-missing.here" = "what shape?";
    HELP "outline-missing.help" = "add outline = { shape = \"rectangle\", width = \"..\", height = \"..\" }, or leave the pattern to the factory: outline = \"by factory\"";
}

/// Reports pieces with no outline in any form.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, piece) in &context.model.pieces {
        if piece.outline.is_some() || context.model.was_refused("piece", id, "outline") {
            continue;
        }
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(piece.entry.span(), HERE).help(HELP));
    }
}
