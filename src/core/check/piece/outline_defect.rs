use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Gap;
use crate::source::Span;

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

/// Reports each defect once, with the sizes that have it where not all do.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut defects: BTreeMap<(&str, Span, &str), Vec<&str>> = BTreeMap::new();
    for (piece, size, gap) in context.assembly.outlines.gaps() {
        if let Gap::Defect { span, message } = gap {
            defects.entry((piece, *span, message)).or_default().push(size);
        }
    }
    for ((piece, span, message), sizes) in defects {
        let here = if sizes.len() < context.model.sizes.len() {
            format!(" in size {}", sizes.join(", "))
        } else {
            String::new()
        };
        findings.push(
            Finding::new(&RULE, format!("piece {piece}{here}: {message}"))
                .at(span, "no shape comes of this")
                .help("put the measures right, or leave the pattern to the factory: outline = \"by factory\""),
        );
    }
}
