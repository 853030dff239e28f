//! Rule: what is written as an outline makes no shape.

use crate::check::Context;
use crate::check::outline::faults;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

/// What is written makes no shape.
pub const RULE: Rule = Rule {
    code: "outline-defect",
    family: "piece",
    severity: Severity::Must,
    summary: "what is written as an outline makes no shape",
    explanation: "An outline is closed, does not cross itself, encloses an area and has its points on it. Where a \
                  measure has a slip, there is no shape to cut, and nothing that needs it can be computed.",
    failing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"0 mm\" }",
    passing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"450 mm\" }",
    source: "common practice",
};

words! {
    HELP "outline-defect.help" = "put the measures right, or leave the pattern to the factory: outline = \"by factory\"";
    SHAPE_COMES "outline-defect.shape-comes" = "no shape comes of this";
}

/// Reports the defects that no rule of their own is about.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let help = HELP;
    faults(context, Fault::Other, &RULE, SHAPE_COMES, help, findings);
}
