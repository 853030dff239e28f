//! Rule: an outline that crosses or touches itself.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A line that meets itself.
pub const RULE: Rule = Rule {
    code: "self-crossing",
    family: "outline",
    severity: Severity::Must,
    summary: "an outline that crosses or touches itself",
    explanation: "A blade cannot cut a loop, an allowance has no side there, and an area computed from it is wrong.",
    failing: "[piece.T]\noutline = { shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"80 mm\", \"60 mm\"], [\"c\", \"80 mm\", \"0 mm\"], [\"d\", \"0 mm\", \"60 mm\"]] }",
    passing: "[piece.T]\noutline = { shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"80 mm\", \"0 mm\"], [\"c\", \"80 mm\", \"60 mm\"], [\"d\", \"0 mm\", \"60 mm\"]] }",
    source: "common practice",
};

words! {
    CROSSES_ITSELF "self-crossing.crosses-itself" = "crosses itself";
    MOVE_CORNERS "self-crossing.move-corners" = "move the corners or the curve so that no edge meets another";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::SelfCrossing, &RULE, CROSSES_ITSELF, MOVE_CORNERS, findings);
}
