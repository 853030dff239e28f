//! Rule: an opening does not say how it is closed.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::JointKind;
use crate::words::{say, words};

/// An opening of which nobody says how it is closed.
pub const RULE: Rule = Rule {
    code: "opening-not-closed",
    family: "sewing",
    severity: Severity::Must,
    summary: "an opening does not say how it is closed",
    explanation: "An opening is a seam that is left open and closed later, by hand, by machine, or with something that \
                  opens again. If the specification does not say how, each factory closes it in its own way, and \
                  filling that comes out is a hazard to a child.",
    failing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"",
    passing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\nclose = { by = \"hand\", note = \"ladder stitch, \
              thread doubled\" }",
    source: "common practice",
};

words! {
    HELP "opening-not-closed.help" = "write close = { by = \"hand\", note = \"ladder stitch, thread doubled\" }, or by = \"zip\" with its trim";
    OPENING_SAY "opening-not-closed.opening-say" = "opening {id} does not say how it is closed";
    LEFT_OPEN "opening-not-closed.left-open" = "left open";
    CLOSING_OPENING "opening-not-closed.closing-opening" = "the closing of opening {id} says neither how nor with what";
    BY_WHAT "opening-not-closed.by-what" = "by what?";
}

/// Reports openings without a closure.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let openings = context.model.joints.iter().filter(|(_, joint)| joint.kind == JointKind::Opening);
    for (id, opening) in openings {
        let help = HELP;
        match &opening.close {
            None => {
                findings.push(Finding::new(&RULE, say!(OPENING_SAY, id)).at(opening.entry.span(), LEFT_OPEN).help(help))
            }
            Some(close) if close.by.is_none() && close.trim.is_none() => {
                findings.push(Finding::new(&RULE, say!(CLOSING_OPENING, id)).at(close.span, BY_WHAT).help(help))
            }
            Some(_) => {}
        }
    }
}
