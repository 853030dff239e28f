//! Rule: a part that no piece belongs to.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::source::nearest;
use crate::words::{say, words};

/// A part of which nothing is made.
pub const RULE: Rule = Rule {
    code: "part-never-used",
    family: "piece",
    severity: Severity::Must,
    summary: "a part that no piece belongs to",
    explanation: "A part is made of pieces. One without pieces cannot be cut or sewn: either its pieces were forgotten, \
                  or they name another part.",
    failing: "[part.ear]\nuses = [\"left\", \"right mirrored\"]",
    passing: "[part.ear]\nuses = [\"left\", \"right mirrored\"]\n[piece.EAR]\npart = \"ear\"",
    source: "common practice",
};

words! {
    MESSAGE "part-never-used.message" = "no piece belongs to part {id}";
    HERE "part-never-used.here" = "made of what?";
    HELP "part-never-used.help" = "add part = \"{id}\" to its pieces, or take [part.{id}] out";
}

/// Reports parts without pieces.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    if model.lacks("piece") {
        return;
    }
    for (id, part) in &model.parts {
        let mut named = model.pieces.values().filter_map(|piece| piece.part.as_ref());
        if named.any(|part| part.value == *id || is_slip(model, &part.value, id)) {
            continue;
        }
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(part.entry.span(), HERE).help(say!(HELP, id)));
    }
}

/// Whether an unknown id is a misspelling of this part, so that one slip is one finding.
fn is_slip(model: &Model, written: &str, part: &str) -> bool {
    !model.parts.contains_key(written) && nearest(written, model.parts.keys().map(String::as_str)) == Some(part)
}
