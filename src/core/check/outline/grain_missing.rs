//! Rule: a piece without a grain line or a direction of pile.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A piece that may lie any way on the fabric.
pub const RULE: Rule = Rule {
    code: "grain-missing",
    family: "outline",
    severity: Severity::Should,
    summary: "a piece without a grain line or a direction of pile",
    explanation: "Fabric stretches and hangs differently along, across and between its threads. A cutter who is not told \
                  lays a piece the way that saves fabric, and one side of the product twists.",
    failing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"450 mm\" }",
    passing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"450 mm\" }\ngrain = \"s-n\"",
    source: "common practice",
};

words! {
    MESSAGE "grain-missing.message" = "piece {id} has no grain line";
    HERE "grain-missing.here" = "which way on the fabric?";
    HELP "grain-missing.help" = "add grain = \"{first}\", or the two points it runs along; or draw a line {id}.grain";
}

/// Reports pieces with a shape and no direction, given or drawn.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, piece) in &context.model.pieces {
        let written = piece.grain.is_some() || piece.pile.is_some();
        let refused = ["grain", "pile"].iter().any(|key| context.model.was_refused("piece", id, key));
        let Some(outline) = context.assembly.outlines.any(id) else { continue };
        if written || refused || piece.along(outline).is_some() {
            continue;
        }
        let first = outline.points.iter().take(2).map(|point| point.id.clone()).collect::<Vec<_>>().join("-");
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(piece.entry.span(), HERE).help(say!(HELP, first, id)));
    }
}
