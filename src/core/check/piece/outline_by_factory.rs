//! Rule: the outline of a piece is left to the factory.

use crate::check::{Context, Stage};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Given, Piece, Value};
use crate::words::{say, words};

/// A pattern that is still the factory's to make.
pub const RULE: Rule = Rule {
    code: "outline-by-factory",
    family: "piece",
    severity: Severity::Should,
    summary: "the outline of a piece is left to the factory",
    explanation: "At the first prototype that is usual. But counts of fabric and the check that all edges meet are not \
                  known until the pattern comes back, and from pre-production on the sealed specification must hold the \
                  outline that bulk is cut to: the finding is then a `must`.",
    failing: "[piece.TOP]\noutline = \"by factory\"",
    passing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"450 mm\" }",
    source: "common practice",
};

words! {
    MESSAGE "outline-by-factory.message" = "the outline of piece {id} is left to the factory";
    HERE "outline-by-factory.here" = "not known yet";
    ASK_PATTERN "outline-by-factory.ask-pattern" = "ask for the pattern as it is cut, and put its shape here before the style is released";
    ASK_PATTERN_FIRST "outline-by-factory.ask-pattern-first" = "ask for the pattern with the first sample; say what you know in `note`: its size, and what it is sewn to";
}

/// Reports pieces whose pattern the factory makes.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let late = Stage::of(context.model) >= Stage::PreProduction;
    for (id, piece) in &context.model.pieces {
        let Some(outline) = &piece.outline else { continue };
        let Some(place) = outline.all().find(|stated| matches!(stated.given, Given::ByFactory)) else { continue };
        let mut finding = Finding::new(&RULE, say!(MESSAGE, id)).at(place.span, HERE);
        if late {
            finding = finding.pressing(Stage::place(context.model));
            finding = finding.help(ASK_PATTERN);
        } else {
            finding = finding.help(ASK_PATTERN_FIRST);
        }
        findings.push(finding);
    }
}

/// Whether the factory makes the pattern of a piece, in one size at least.
pub fn is_by_factory(piece: &Piece) -> bool {
    piece.outline.iter().flat_map(Value::all).any(|stated| matches!(stated.given, Given::ByFactory))
}
