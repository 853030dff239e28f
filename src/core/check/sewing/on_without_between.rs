//! Rule: a stretch is named along which something is caught, and nothing is.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A place for nothing.
pub const RULE: Rule = Rule {
    code: "on-without-between",
    family: "sewing",
    severity: Severity::Must,
    summary: "a stretch is named along which something is caught, and nothing is",
    explanation: "`on` says where along side a the edges in `between` lie. Without `between` nothing is caught there: the ear or \
                  limb that is meant stays out of the seam, and its own edge is left unsewn.",
    failing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\non = \"HEAD.l:e1-e2\"",
    passing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\nbetween = [\"EAR.f:r-s\"]\non = \"HEAD.l:e1-e2\"",
    source: "follows from the terms",
};

words! {
    MESSAGE "on-without-between.message" = "{joint} names a stretch along which something is caught, and catches nothing";
    HERE "on-without-between.here" = "what lies here?";
    HELP "on-without-between.help" = "add what is caught: between = [\"PIECE:point-point\"]; or take `on` out";
}

/// Reports each seam and opening once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, joint) in &context.model.joints {
        let (Some(on), true) = (&joint.on, joint.between.is_empty()) else { continue };
        let table = if joint.kind == crate::model::JointKind::Opening { "opening" } else { "seam" };
        if !context.model.was_refused(table, id, "between") {
            findings.push(Finding::new(&RULE, say!(MESSAGE, joint = id)).at(on.span, HERE).help(HELP));
        }
    }
}
